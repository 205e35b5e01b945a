import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { callOrThrow } from '../../../../electron/cli/playScript.ts';
import { newId } from '../../../../electron/service/clock.ts';
import { droppedPictureProblem } from '../../../../electron/service/host/droppedPicture.ts';
import { jpegOf, pngOf, segment } from '../../pictures.ts';
import {
  type OpenService,
  openDemoShop,
  openService,
  playDemo,
  refusalOf,
  testFolder,
} from './openService.ts';

interface Open {
  readonly service: OpenService;
  readonly job: string;
  seq: number;
}

async function openStopped(): Promise<Open> {
  const service = await openService(testFolder());
  const shop = await openDemoShop(service);
  const { job, seq } = await playDemo(service, shop, 'demo-job-stopped.json', (step) => step.do !== 'sign');
  return { service, job, seq };
}

const entryOf = (open: Open, type: string, payload: Record<string, unknown>) => ({
  person: 'mira',
  job: open.job,
  commandId: newId(),
  expectedSeq: open.seq,
  draft: null,
  entries: [{ type, v: 1 as const, payload }],
});

async function record(open: Open, type: string, payload: Record<string, unknown>): Promise<void> {
  await callOrThrow(open.service.dispatch, 'job.record', entryOf(open, type, payload));
  open.seq += 1;
}

/** The fact of a photo of these bytes, which are stored. */
async function photoOf(open: Open, bytes: Uint8Array, shows: string) {
  const digest = await open.service.host.files.put(bytes);
  return {
    photo: newId(),
    stage: 'prechecks',
    sensor: null,
    station: null,
    digest,
    mediaType: 'image/jpeg',
    sizeBytes: bytes.length,
    widthPx: 320,
    heightPx: 200,
    shows: { personal: shows },
  };
}

describe('photos through the service', () => {
  test('a photo without its file, of another size, or with data beside the picture is refused', async () => {
    const open = await openStopped();
    const good = await photoOf(open, jpegOf(320, 200), 'Bracket at the mirror');
    const refusal = (payload: Record<string, unknown>) =>
      refusalOf(open.service.dispatch, 'job.record', entryOf(open, 'photoAdded', payload));
    expect(await refusal({ ...good, digest: '0'.repeat(64) })).toBe('file/missing');
    expect(await refusal({ ...good, sizeBytes: good.sizeBytes + 1 })).toBe('picture/otherFile');
    expect(await refusal({ ...good, widthPx: 321 })).toBe('picture/otherFile');
    const located = await photoOf(open, jpegOf(320, 200, { before: segment(0xe1, 'Exif GPS') }), 'x');
    expect(await refusal(located)).toBe('picture/carriesData');
    expect(await refusal({ ...good, shows: 'in the open' })).toBe('journal/badEntry');
    expect(await refusal(good)).toBe('accepted');
  });

  test('the photo that stands is on the certificate with its words and digest, the struck one is not', async () => {
    const open = await openStopped();
    const kept = await photoOf(open, jpegOf(320, 200), 'Bracket at the mirror');
    const struck = await photoOf(open, jpegOf(320, 200, { before: [] }), 'Somebody in the bay');
    await record(open, 'photoAdded', kept);
    await record(open, 'photoAdded', { ...struck, photo: newId() });
    await record(open, 'photoStruck', { photo: kept.photo, reason: 'blurred' });
    const report = new TextEncoder().encode('%PDF-1.7 invented report');
    await record(open, 'reportAttached', {
      report: newId(),
      sensor: 'camera',
      digest: await open.service.host.files.put(report),
      mediaType: 'application/pdf',
      sizeBytes: report.length,
      tool: 'Invented tool 5',
      software: '1.0',
    });
    const issued = await callOrThrow(open.service.dispatch, 'certificate.issue', {
      job: open.job,
      person: 'greta',
      commandId: newId(),
      expectedSeq: open.seq,
      kind: 'notCalibrated',
      reason: 'the adhesive cures',
    });
    const located = await open.service.host.files.locate(issued.fileDigest);
    const text = (await readFile(located?.path ?? '')).toString('latin1');
    const altOf = (words: string) =>
      text.includes(words) ||
      text.includes(Buffer.from(`\ufeff${words}`, 'utf16le').swap16().toString('latin1'));
    expect(altOf('Photo taken at Pre-checks: Somebody in the bay')).toBe(true);
    expect(altOf('Photo taken at Pre-checks: Bracket at the mirror')).toBe(false);
    expect(text.match(/\/Subtype \/Image/g)).toHaveLength(1);
    const { exitCode } = await callOrThrow(open.service.dispatch, 'certificate.check', {
      file: issued.fileDigest,
    });
    expect(exitCode).toBe(0);
  });

  test('the draft is a PDF that no check takes for a certificate; it leaves no event and gives way to the next', async () => {
    const open = await openStopped();
    const draft = (reason: string) =>
      callOrThrow(open.service.dispatch, 'certificate.draft', {
        person: 'greta',
        job: open.job,
        kind: 'notCalibrated',
        reason,
      });
    const first = await draft('one');
    const located = await open.service.host.files.locate(first.digest);
    expect(located?.mediaType).toBe('application/pdf');
    const check = await callOrThrow(open.service.dispatch, 'certificate.check', { file: first.digest });
    expect(check.exitCode).not.toBe(0);
    const read = await callOrThrow(open.service.dispatch, 'job.read', { job: open.job, afterSeq: open.seq });
    expect(read.events).toEqual([]);
    const second = await draft('two');
    expect(await open.service.host.files.locate(second.digest)).toBeDefined();
    if (second.digest !== first.digest) {
      expect(await open.service.host.files.locate(first.digest)).toBeUndefined();
    }
  });
});

describe('what is dropped', () => {
  test.each([
    ['a certificate', new TextEncoder().encode('%PDF-1.7'), undefined],
    ['a clean photo', jpegOf(320, 200), undefined],
    ['a photo with place', jpegOf(320, 200, { before: segment(0xe1, 'Exif') }), 'picture/carriesData'],
    ['a photo with a comment', jpegOf(320, 200, { before: segment(0xfe, 'home') }), 'picture/carriesData'],
    ['half a photo', jpegOf(320, 200).subarray(0, 40), 'picture/broken'],
    ['a photo larger than is kept', jpegOf(4000, 200), 'picture/tooLarge'],
    ['a PNG, which the window makes a JPEG of first', pngOf(3, 2), 'picture/notAPicture'],
  ])('%s', async (_name, bytes, problem) => {
    const path = join(testFolder(), 'dropped');
    await writeFile(path, bytes);
    expect(await droppedPictureProblem(path)).toBe(problem);
  });
});
