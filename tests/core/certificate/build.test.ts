import { describe, expect, test } from 'vitest';
import { buildCertificate } from '../../../core/certificate/build.ts';
import type { CertificateDocument, DocumentBlock } from '../../../core/certificate/document.ts';
import { attachmentJson, buildRecord, recompute, recordDigest } from '../../../core/certificate/record.ts';
import { assess } from '../../../core/job/assess.ts';
import type { CertificateKind } from '../../../core/job/events.ts';
import type { Job, JobCertificate } from '../../../core/job/job.ts';
import { solveAll } from '../../../core/job/solve.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { readScript } from '../../../electron/cli/playScript.ts';
import { demoShop } from '../../../electron/service/handlers/shop.ts';
import { foldScript } from '../../demo/foldScript.ts';

const shop = demoShop();
const demo = (name: string) => readScript(new URL(`../../../assets/demo/${name}`, import.meta.url));
const finished = foldScript(demo('demo-job.json'), shop);

function sealOf(job: Job, kind: CertificateKind): JobCertificate {
  return {
    certificate: 'c1',
    number: 'QUAY-2-2026-0001',
    edition: 1,
    replaces: null,
    kind,
    reason: '',
    recordDigest: '0'.repeat(64),
    head: '0'.repeat(64),
    signer: 'tobias',
    issuedAtUtcMs: Date.UTC(2026, 10, 25, 13, 7, 9),
    issuedOffsetMin: 60,
    paper: 'A4',
    program: 'datumline/test',
    sealed: { ...job.last, seq: job.last.seq + 1 },
    fileDigest: null,
  };
}

function certificateOf(job: Job, kind: CertificateKind): CertificateDocument {
  const answers = solveAll(job);
  const seal = sealOf(job, kind);
  const record = buildRecord([], answers, seal);
  return buildCertificate({
    job,
    answers,
    assessment: assess(job, answers),
    shop,
    personal: { p: 'Nils Breakwater' },
    seal,
    numbers: record.numbers,
    recordDigest: recordDigest(record),
    rootFingerprint: 'ab'.repeat(32),
    attachmentJson: attachmentJson(record, []),
  });
}

const blocksOf = (document: CertificateDocument): readonly DocumentBlock[] => [
  ...document.firstPage,
  ...document.sections.flatMap((section) => section.blocks),
];

function textsOf(block: DocumentBlock): readonly string[] {
  switch (block.block) {
    case 'facts':
      return block.facts.flatMap((fact) => [fact.label, fact.value]);
    case 'table':
      return block.rows.flat().map((cell) => (typeof cell === 'string' ? cell : cell.text));
    case 'pictures':
      return block.pictures.flatMap((each) => [each.caption, each.altText, ...each.facts]);
    case 'verdicts':
      return block.rows.flatMap((row) => [
        row.label,
        row.required,
        row.found,
        row.deviation,
        row.tolerance,
        row.verdictText,
        row.consequence ?? '',
      ]);
    case 'scene':
      return [block.altText, block.caption ?? ''];
    case 'text':
      return [block.text];
    case 'notice':
      return [block.heading, block.text];
    case 'list':
      return block.items;
  }
}

describe('certificate of the finished demo job', () => {
  const document = certificateOf(finished, 'calibrated');

  test('says who looked at the procedure a second time, and in which way', () => {
    const words = blocksOf(document).flatMap(textsOf).join('\n');
    expect(words).toContain('entry reviewed by a second person: Greta Anchor');
  });

  test('answers first: what was done per sensor, by which rule, and what was not done', () => {
    expect(document.answer.words).toBe('Calibration carried out');
    expect(document.answer.sensors.map((each) => each.outcome)[0]).toBe('placement proven, routine passed');
    const first = document.firstPage.flatMap(textsOf).join('\n');
    expect(first).toContain('1DEM0CAR5TH000001');
    expect(first).toContain('at least 95 % probability of conformity');
    expect(first).toContain('Radar behind the badge: not needed');
    expect(first).toContain('invented');
    expect(first).toMatch(/2026-11-25 \d\d:\d\d to 2026-11-25 14:07 \(UTC\+01:00\)/);
  });

  test('has a verdict row for each of the six coordinates of each station, each with U, k and tolerance', () => {
    const verdicts = blocksOf(document).filter((block) => block.block === 'verdicts');
    expect(verdicts).toHaveLength(3);
    for (const block of verdicts) {
      expect(block.rows).toHaveLength(6);
      for (const row of block.rows) {
        expect(row.expandedUncertainty).toMatch(/^\d+\.\d+/);
        expect(row.coverageFactor).toMatch(/^\d\.\d\d$/);
        expect(row.tolerance).not.toBe('');
        expect(
          row.bar === undefined ||
            (row.bar.boxHalfWidth > 0 && row.bar.boxHalfWidth < (row.bar.whiskerHalfWidth ?? 0)),
        ).toBe(true);
      }
    }
  });

  test('the picture is the rule: the box lies between the ticks exactly where the word is proven', () => {
    for (const block of blocksOf(document)) {
      if (block.block !== 'verdicts') continue;
      for (const { bar, verdict } of block.rows) {
        if (bar === undefined) continue;
        const inside =
          bar.found - bar.boxHalfWidth >= (bar.lower ?? Number.NEGATIVE_INFINITY) &&
          bar.found + bar.boxHalfWidth <= (bar.upper ?? Number.POSITIVE_INFINITY);
        expect(verdict === 'proven').toBe(inside);
      }
    }
  });

  test('says nothing with a sign, nor back, forward or a bare side', () => {
    const ours = blocksOf(document)
      .filter((block) => block.block === 'verdicts' || block.block === 'text' || block.block === 'scene')
      .flatMap(textsOf)
      .map((text) => text.replaceAll('±', ''));
    expect(ours.flatMap((text) => wordFaults(text).map((fault) => [text, fault]))).toEqual([]);
  });

  test('names every instrument with what makes it traceable, and every reading as typed', () => {
    const texts = blocksOf(document).flatMap(textsOf);
    for (const instrument of shop.instruments) expect(texts).toContain(instrument.serial);
    for (const reading of finished.readings) expect(texts).toContain(reading.text);
  });

  test('is the same document each time it is built', () => {
    expect(JSON.stringify(certificateOf(finished, 'calibrated'))).toBe(JSON.stringify(document));
  });
});

describe('certificate of the stopped demo job', () => {
  const stopped = foldScript(demo('demo-job-stopped.json'), shop);
  const document = certificateOf(stopped, 'notCalibrated');

  test('says on page one that nothing was calibrated, and why', () => {
    expect(document.title).toBe('Certificate: not calibrated');
    expect(document.answer.words).toBe('Not calibrated');
    expect(document.answer.sentence).toMatch(/Reason: .+\./);
    const [camera, radar] = document.answer.sensors;
    expect(camera).toMatchObject({ outcome: 'not calibrated', verdict: 'outside' });
    // A sensor that was not to be calibrated is not said to have failed.
    expect(radar?.outcome).toMatch(/^not needed/);
    expect(radar?.verdict).toBeUndefined();
    const firstFacts = document.firstPage.flatMap((block) => (block.block === 'facts' ? block.facts : []));
    expect(firstFacts).toContainEqual({ label: 'The system at handover', value: 'warning shown' });
  });

  test('has no placement where nothing was placed', () => {
    expect(blocksOf(document).some((block) => block.block === 'verdicts')).toBe(false);
  });
});

describe('recompute', () => {
  test('a record without events is no job', () => {
    const record = buildRecord([], {}, sealOf(finished, 'calibrated'));
    expect(recompute(record)).toMatchObject({ ok: false, error: { code: 'record/notAJob' } });
  });

  test('a text that is no event is told', () => {
    const record = buildRecord(['{}'], {}, sealOf(finished, 'calibrated'));
    expect(recompute(record)).toMatchObject({ ok: false, error: { code: 'events/unreadable' } });
  });
});
