import { readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { say } from '../../../../core/words/index.ts';
import { callOrThrow } from '../../../../electron/cli/playScript.ts';
import { newId } from '../../../../electron/service/clock.ts';
import { runTool } from '../../certificate/tools.ts';
import { openDemoShop, openService, playDemo, refusalOf, testFolder } from './openService.ts';

describe('issuing through the service', () => {
  test('the demo job ends in a certificate that checks out in every line, listed and stored', async () => {
    const service = await openService(testFolder());
    const shop = await openDemoShop(service);
    const { job, certificate } = await playDemo(service, shop, 'demo-job.json');
    expect(certificate).toMatchObject({
      number: expect.stringMatching(/^QUAY-2-\d{4}-0001$/),
      edition: 1,
      kind: 'calibrated',
    });
    const digest = certificate?.fileDigest ?? '';
    const { lines, exitCode } = await callOrThrow(service.dispatch, 'certificate.check', { file: digest });
    expect(lines.map((line) => line.answer)).toEqual(lines.map(() => 'yes'));
    expect(exitCode).toBe(0);
    expect((await callOrThrow(service.dispatch, 'certificate.list', { job })).rows).toEqual([certificate]);
    const listed = await callOrThrow(service.dispatch, 'job.list', { search: certificate?.number ?? '' });
    expect(listed.rows[0]).toMatchObject({
      job,
      certificate: certificate?.number,
      waitsFor: 'waits.nothing',
    });
    const located = await service.host.files.locate(digest);
    expect(located?.mediaType).toBe('application/pdf');
  });

  test('the demo job signed in German is a German document, and checks out in every line too', async () => {
    const service = await openService(testFolder());
    const shop = await openDemoShop(service);
    const { job, seq } = await playDemo(service, shop, 'demo-job.json', (step) => step.do !== 'sign');
    const certificate = await callOrThrow(service.dispatch, 'certificate.issue', {
      job,
      person: 'tobias',
      commandId: newId(),
      expectedSeq: seq,
      kind: 'calibrated',
      reason: '',
      language: 'de',
    });
    const { lines, exitCode } = await callOrThrow(service.dispatch, 'certificate.check', {
      file: certificate.fileDigest,
    });
    expect(lines.map((line) => line.answer)).toEqual(Array.from({ length: 8 }, () => 'yes'));
    expect(exitCode).toBe(0);
    const file = await service.host.files.locate(certificate.fileDigest);
    const pdf = await readFile(file?.path ?? '');
    expect(pdf.toString('latin1')).toContain('/Lang (de-DE)');
    const { stdout } = runTool('pdftotext', '-layout', file?.path ?? '', '-');
    const text = Buffer.from(stdout, 'latin1').toString('utf8').replace(/\s+/g, ' ');
    for (const words of [
      'Kalibrierung durchgeführt',
      'nachgewiesen',
      'Seite 1 von',
      'Entscheidungsregel',
      'gelesen am',
    ]) {
      expect(text).toContain(words);
    }
    // Left in English is only what the shop, its people and the maker's sheet call things.
    const ours = text.replaceAll("the car's", '').replace(/mm to\s+(?:left|right)/g, '');
    expect(ours).not.toMatch(
      /\b(?:proven|Required|Found|page \d|Readings|car's|Decision rule|read on|required|permitted|toward|Target|floor rises|turned)\b/,
    );
    // What was spoken before is spoken after.
    expect(say('certificate.yes')).toBe('yes');
  });

  test('an incomplete job is refused with what is missing, and nothing is sealed', async () => {
    const service = await openService(testFolder());
    const shop = await openDemoShop(service);
    const { job, seq } = await playDemo(
      service,
      shop,
      'demo-job.json',
      (step) => step.do !== 'capture' && step.do !== 'sign',
    );
    const request = {
      job,
      person: 'tobias',
      commandId: newId(),
      expectedSeq: seq,
      kind: 'calibrated' as const,
      reason: '',
    };
    const envelope = await service.dispatch.call('certificate.issue', JSON.stringify(request));
    expect(envelope).toMatchObject({ ok: false, error: { code: 'certificate/incomplete' } });
    expect(JSON.stringify(envelope)).toContain('missing.capture');
    const { events } = await callOrThrow(service.dispatch, 'job.read', { job, afterSeq: seq });
    expect(events).toEqual([]);
  });

  test('only a signer signs, and a signed job takes nothing more', async () => {
    const service = await openService(testFolder());
    const shop = await openDemoShop(service);
    const { job, seq } = await playDemo(service, shop, 'demo-job-stopped.json', (step) => step.do !== 'sign');
    const request = { job, expectedSeq: seq, kind: 'notCalibrated' as const, reason: 'adhesive' };
    const asTechnician = { ...request, person: 'mira', commandId: newId() };
    expect(await refusalOf(service.dispatch, 'certificate.issue', asTechnician)).toBe('person/notAllowed');
    const command = { ...request, person: 'tobias', commandId: newId() };
    const first = await callOrThrow(service.dispatch, 'certificate.issue', command);
    expect(first.kind).toBe('notCalibrated');
    expect(await callOrThrow(service.dispatch, 'certificate.issue', command)).toEqual(first);
    const again = { ...command, commandId: newId() };
    expect(await refusalOf(service.dispatch, 'certificate.issue', again)).toBe('job/signed');
    const late = {
      job,
      person: 'mira',
      commandId: newId(),
      expectedSeq: null,
      draft: null,
      entries: [
        { type: 'readingStruck', v: 1 as const, payload: { reading: 'r', reason: 'other', words: '' } },
      ],
    };
    expect(await refusalOf(service.dispatch, 'job.record', late)).toBe('job/signed');
  });

  test('without the key nothing is sealed, and the job can be signed when the key is there again', async () => {
    const folder = testFolder();
    const service = await openService(folder);
    const shop = await openDemoShop(service);
    const { job, seq } = await playDemo(service, shop, 'demo-job-stopped.json', (step) => step.do !== 'sign');
    await service.close();
    const keyFile = join(folder, 'installation.dtlkey');
    const key = await readFile(keyFile);
    await rm(keyFile);
    const keyless = await openService(folder);
    const request = {
      job,
      person: 'tobias',
      expectedSeq: seq,
      kind: 'notCalibrated' as const,
      reason: 'adhesive',
    };
    expect((await callOrThrow(keyless.dispatch, 'app.status', {})).key).toBe('none');
    expect(await refusalOf(keyless.dispatch, 'certificate.issue', { ...request, commandId: newId() })).toBe(
      'keys/missing',
    );
    await keyless.close();
    await writeFile(keyFile, key);
    const again = await openService(folder);
    const issued = await callOrThrow(again.dispatch, 'certificate.issue', { ...request, commandId: newId() });
    expect(issued.number).toMatch(/-0001$/);
  });

  test('two jobs get two numbers, and a dropped foreign file is no certificate', async () => {
    const service = await openService(testFolder());
    const shop = await openDemoShop(service);
    const first = await playDemo(service, shop, 'demo-job-stopped.json');
    const second = await playDemo(service, shop, 'demo-job-stopped.json');
    expect(first.certificate?.number).not.toBe(second.certificate?.number);
    const digest = await service.host.files.put(Buffer.from('%PDF-1.7 not ours'));
    const { exitCode } = await callOrThrow(service.dispatch, 'certificate.check', { file: digest });
    expect(exitCode).toBe(1);
    expect(await refusalOf(service.dispatch, 'certificate.check', { file: '0'.repeat(64) })).toBe(
      'file/missing',
    );
  });
});
