import { beforeAll, describe, expect, test } from 'vitest';
import type { CheckLineId, CheckReport } from '../../../core/certificate/checkReport.ts';
import { checkLineIds } from '../../../core/certificate/checkReport.ts';
import { err, ok } from '../../../core/result.ts';
import { fillTemplate, templateOf } from '../../../core/words/index.ts';
import {
  type CheckContext,
  checkCertificate,
} from '../../../electron/service/certificate/check/checkCertificate.ts';
import { signPdf } from '../../../electron/service/certificate/sign/signPdf.ts';
import { type SampleOptions, sampleDocument } from './sampleDocument.ts';
import { sampleEvents, samplePersonal } from './sampleEvents.ts';
import { render, signedSample, testSigner } from './signedSample.ts';

let signer: Awaited<ReturnType<typeof testSigner>>;
let good: Buffer;

beforeAll(async () => {
  signer = await testSigner('ecdsaP256');
  good = Buffer.from(await signedSample(signer));
}, 60_000);

/** A reader who trusts the shop, can solve the job again and knows the shop's editions. */
const fullContext = (): CheckContext => ({
  trust: { rootFingerprints: [signer.rootFingerprint] },
  recompute: () => ok({ disagreeing: [], confirmed: 3 }),
  currentEdition: () => 1,
});

const signed = async (options: SampleOptions) =>
  Buffer.from(await signedSample(signer, { readings: 1, ...options }));

function answers(report: CheckReport): string {
  return report.lines.map((line) => ({ yes: 'y', no: 'n', unknown: '?' })[line.answer]).join('');
}

function lineOf(report: CheckReport, id: CheckLineId) {
  return report.lines.find((line) => line.id === id) ?? expect.fail(`no line ${id}`);
}

/** Every line must have words, and its values must fill exactly their slots. */
function sayAll(report: CheckReport): readonly string[] {
  return report.lines.map((line) =>
    fillTemplate(templateOf(line.text) ?? expect.fail(line.text), line.values),
  );
}

describe('a certificate as it was issued', () => {
  test('answers yes to everything where everything can be told', () => {
    const report = checkCertificate(good, fullContext());
    expect(report.lines.map((line) => line.id)).toEqual(checkLineIds);
    expect(answers(report)).toBe('yyyyyyyy');
    expect(report.exitCode).toBe(0);
    expect(sayAll(report)[0]).toContain('2026-03-05T14:09:30.000Z');
  });

  test('says "cannot be told here" where trust, solver and shop are missing, and shows the fingerprint', () => {
    const report = checkCertificate(good);
    expect(answers(report)).toBe('yy?yyy??');
    expect(report.exitCode).toBe(2);
    const { values } = lineOf(report, 'signerKnown');
    expect(values.fingerprint?.replaceAll(' ', '')).toBe(signer.rootFingerprint);
    expect(values.name).toBe('Quayside Body & Glass, bay 2');
    sayAll(report);
  });

  test('one signed with RSA as well', async () => {
    const rsa = await testSigner('rsa3072');
    const report = checkCertificate(await signedSample(rsa), {
      ...fullContext(),
      trust: { rootFingerprints: [rsa.rootFingerprint] },
    });
    expect(report.exitCode).toBe(0);
  });
});

describe('who signed', () => {
  const signerLine = async (other: typeof signer) => {
    const report = checkCertificate(await signedSample(other, { readings: 1 }), fullContext());
    expect(lineOf(report, 'signatureIntact').answer).toBe('yes');
    expect(report.exitCode).toBe(1);
    sayAll(report);
    return lineOf(report, 'signerKnown');
  };

  test('a stranger under the same name is not known', async () => {
    expect(await signerLine(await testSigner('ecdsaP256'))).toMatchObject({
      answer: 'no',
      text: 'check.signer.stranger',
    });
  });

  test('a leaf of one root beside the trusted root of the same name is no chain', async () => {
    const other = await testSigner('ecdsaP256');
    const [leaf] = other.chain;
    const root = signer.chain[1] ?? expect.fail('no root');
    expect(await signerLine({ ...other, chain: [leaf, root] })).toMatchObject({
      answer: 'no',
      text: 'check.signer.chain',
    });
  });

  test('a leaf without its root, and a root that signs documents itself, are no chain', async () => {
    const [leaf] = signer.chain;
    expect(await signerLine({ ...signer, chain: [leaf] })).toMatchObject({ text: 'check.signer.chain' });
  });

  test('a certificate that did not hold at the stated time is refused', async () => {
    const late = { ...signer, signedAt: new Date('2036-01-02T00:00:00Z') };
    const early = { ...signer, signedAt: new Date('2025-12-31T00:00:00Z') };
    expect(await signerLine(late)).toMatchObject({ answer: 'no', text: 'check.signer.time' });
    expect(await signerLine(early)).toMatchObject({ answer: 'no', text: 'check.signer.time' });
  });
});

describe('the record', () => {
  test('another record than the printed one, under a good signature, is seen', async () => {
    const honest = sampleDocument({ readings: 1 });
    const { attachment } = sampleDocument({ edition: 2, readings: 1 });
    const file = signPdf(await render({ ...honest, attachment }), signer);
    const report = checkCertificate(file.ok ? file.value : expect.fail('unsigned'), fullContext());
    expect(lineOf(report, 'signatureIntact').answer).toBe('yes');
    expect(lineOf(report, 'recordMatches')).toMatchObject({ answer: 'no', text: 'check.record.printed' });
    expect(report.exitCode).toBe(1);
    sayAll(report);
  });

  test('another digest in the QR code is seen', async () => {
    const honest = sampleDocument({ readings: 1 });
    const { qrText } = sampleDocument({ edition: 2, readings: 1 });
    const file = signPdf(await render({ ...honest, qrText }), signer);
    const report = checkCertificate(file.ok ? file.value : expect.fail('unsigned'), fullContext());
    expect(lineOf(report, 'recordMatches')).toMatchObject({ answer: 'no', text: 'check.record.qr' });
    sayAll(report);
  });

  test.each([
    ['no JSON', 'hello'],
    ['JSON that is not canonical', '{ "format": "datumline-certificate" }'],
    ['JSON of another kind', '{"format":"else"}'],
    [
      'a record with a member missing',
      '{"disclosures":[],"format":"datumline-certificate","record":{},"schema":1}',
    ],
  ])('%s is damaged, not a crash', async (_name, json) => {
    const honest = sampleDocument({ readings: 1 });
    const file = signPdf(await render({ ...honest, attachment: { ...honest.attachment, json } }), signer);
    const report = checkCertificate(file.ok ? file.value : expect.fail('unsigned'), fullContext());
    expect(answers(report)).toBe('yyyn????');
    sayAll(report);
  });

  test('a newer schema is "made by a newer edition", never altered', async () => {
    const file = await signed({ schema: 2 });
    const report = checkCertificate(file, fullContext());
    expect(answers(report)).toBe('yyy?????');
    expect(report.exitCode).toBe(2);
    expect(lineOf(report, 'recordMatches').text).toBe('check.newerEdition');
    sayAll(report);
  });

  test('a newer edition may sign in a form not known here, but changed content stays changed content', async () => {
    const file = await signed({ schema: 2 });
    const hole = file.lastIndexOf('/Contents <') + '/Contents <'.length;
    const block = Buffer.from(file);
    block.write(block.toString('latin1', hole + 60, hole + 61) === '0' ? '1' : '0', hole + 60, 'latin1');
    expect(lineOf(checkCertificate(block), 'signatureIntact')).toMatchObject({
      answer: 'unknown',
      text: 'check.newerEdition',
    });
    const content = Buffer.from(file);
    const at = content.indexOf('Quayside');
    content[at] = 'q'.charCodeAt(0);
    expect(lineOf(checkCertificate(content), 'signatureIntact')).toMatchObject({
      answer: 'no',
      text: 'check.signature.content',
    });
  });
});

describe('the chain of entries', () => {
  const chainOf = async (events: readonly string[]) =>
    lineOf(checkCertificate(await signed({ events }), fullContext()), 'chainWhole');

  test('whole', async () => {
    expect(await chainOf(sampleEvents(7))).toMatchObject({ answer: 'yes', values: { count: '7' } });
  });

  test('with an entry changed, missing, or none at all', async () => {
    const events = sampleEvents(5);
    const changed = events.map((text, index) => (index === 2 ? text.replace('"note":3', '"note":9') : text));
    expect(await chainOf(changed)).toMatchObject({ answer: 'no', text: 'check.chain.broken' });
    expect(await chainOf(events.toSpliced(2, 1))).toMatchObject({ answer: 'no', values: { seq: '3' } });
    expect(await chainOf([])).toMatchObject({ answer: 'no', text: 'check.chain.empty' });
    expect(await chainOf(['nonsense'])).toMatchObject({ answer: 'no', values: { seq: '1' } });
  });
});

describe('personal texts', () => {
  const personalOf = async (text: string, id = samplePersonal.id) =>
    lineOf(
      checkCertificate(await signed({ disclosures: [{ ...samplePersonal, text, id }] }), fullContext()),
      'personalTexts',
    );

  test('are the ones the entries commit to', async () => {
    expect(await personalOf(samplePersonal.text)).toMatchObject({ answer: 'yes', values: { count: '1' } });
    expect(await personalOf('Somebody Else')).toMatchObject({ answer: 'no', values: { id: 'p1' } });
    expect(await personalOf(samplePersonal.text, 'p2')).toMatchObject({ answer: 'no', values: { id: 'p2' } });
  });
});

describe('numbers and edition', () => {
  const withContext = (change: Partial<CheckContext>) =>
    checkCertificate(good, { ...fullContext(), ...change });

  test('a number that does not follow is named', () => {
    const disagreeing = [{ id: 'camera.centre.yaw.found', printed: '0.93', recomputed: '0.39' }];
    const report = withContext({ recompute: () => ok({ disagreeing, confirmed: 2 }) });
    expect(lineOf(report, 'numbersRecomputed')).toMatchObject({ answer: 'no', text: 'check.numbers.differ' });
    expect(sayAll(report).join('\n')).toContain('camera.centre.yaw.found, printed 0.93, recomputed 0.39');
    expect(report.exitCode).toBe(1);
  });

  test('the solver gets the very record', () => {
    withContext({
      recompute: (record) => {
        expect(record.numbers.map((number) => number.value)).toEqual(['1504.1', '2.3', '0.93']);
        return ok({ disagreeing: [], confirmed: 3 });
      },
    });
    expect.assertions(1);
  });

  test('an entry of an unknown kind was written by a newer edition; one that cannot be solved is a no', () => {
    const details = { seq: 3, problem: 'sprayed' };
    const newer = withContext({ recompute: () => err({ code: 'events/unknownType', details }) });
    expect(lineOf(newer, 'numbersRecomputed')).toMatchObject({
      answer: 'unknown',
      text: 'check.newerEdition',
    });
    const bad = withContext({ recompute: () => err({ code: 'record/notAJob', details }) });
    expect(lineOf(bad, 'numbersRecomputed')).toMatchObject({ answer: 'no', text: 'check.numbers.failed' });
    sayAll(newer);
    sayAll(bad);
  });

  test('the edition is current, superseded, or not known here', () => {
    expect(lineOf(withContext({}), 'editionCurrent').answer).toBe('yes');
    const superseded = withContext({ currentEdition: () => 3 });
    expect(lineOf(superseded, 'editionCurrent')).toMatchObject({
      answer: 'no',
      values: { edition: '1', current: '3' },
    });
    sayAll(superseded);
    const unknown = withContext({ currentEdition: () => undefined });
    expect(lineOf(unknown, 'editionCurrent').answer).toBe('unknown');
    expect(unknown.exitCode).toBe(2);
  });
});
