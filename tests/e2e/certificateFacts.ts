// The numbers of a certificate, looked at from outside: what its tables print against what the core makes of the events
// in the attached record.
import { expect } from '@playwright/test';
import { type CertificateRecord, readAttachment } from '../../core/certificate/attachment.ts';
import { placementNumbers, printNumber } from '../../core/certificate/numbers.ts';
import type { Job } from '../../core/job/job.ts';
import { eventsOfTexts } from '../../core/job/readEvents.ts';
import { reduce } from '../../core/job/reduce.ts';
import { solveAll } from '../../core/job/solve.ts';
import { say } from '../../core/words/index.ts';
import { numberIn, pdfAttachments, pdfTables, pdfWords } from './printedPdf.ts';

const COORDINATES = ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const;

/** The one record attached to a certificate. */
export function attachedRecord(file: string): CertificateRecord {
  const attachments = [...pdfAttachments(file).values()];
  expect(attachments).toHaveLength(1);
  const read = readAttachment(JSON.parse(attachments[0] ?? ''));
  if (read.kind !== 'record') throw new Error(`the attachment is ${read.kind}`);
  return read.attachment.record;
}

export function jobOfTexts(texts: readonly string[]): Job {
  const events = eventsOfTexts(texts);
  const job = events.ok ? reduce(events.value) : undefined;
  if (job === undefined) throw new Error('these texts are no job');
  return job;
}

/** Solves the job again; the numbers as they must stand on paper, by id. */
function numbersOf(job: Job): ReadonlyMap<string, string> {
  const answers = Object.entries(solveAll(job));
  const numbers = answers.flatMap(([sensor, answer]) =>
    answer === undefined ? [] : placementNumbers(sensor, answer).map(printNumber),
  );
  return new Map(numbers.map(({ id, value }) => [id, value]));
}

const unsigned = (text: string | undefined): string => (text ?? 'not there').replace('-', '');

/**
 * Every number of every station's table against the core's own, and the record's list of numbers against the same.
 * Returns how many cells were compared.
 */
export function comparePrintedNumbers(file: string): number {
  const record = attachedRecord(file);
  const job = jobOfTexts(record.events);
  const numbers = numbersOf(job);
  expect(Object.fromEntries(record.numbers.map(({ id, value }) => [id, value]))).toEqual(
    Object.fromEntries(numbers),
  );
  const tables = pdfTables(file);
  const words = pdfWords(file);
  const answers = solveAll(job);
  let compared = 0;
  for (const sensor of job.sensors) {
    for (const station of answers[sensor.sensor]?.stations ?? []) {
      const name = sensor.procedure?.stations.find((each) => each.id === station.station)?.name ?? '';
      const rows = tables
        .filter(({ caption }) => caption.includes(name))
        .flatMap((table) => table.rows)
        .filter((row) => row.length === 8 && numberIn(row[1] ?? '') !== '');
      expect(rows, `rows of ${name}`).toHaveLength(COORDINATES.length);
      for (const [index, coordinate] of COORDINATES.entries()) {
        const at = `${sensor.sensor}.${station.station}.${coordinate}`;
        const cells = (rows[index] ?? []).slice(1);
        const printed = cells.slice(0, 6).map(numberIn);
        const own = ['required', 'found', 'deviation', 'U', 'k', 'upper'].map((each) =>
          unsigned(numbers.get(`${at}.${each}`)),
        );
        expect(printed, at).toEqual(own);
        const finding = station.coordinates.find((each) => each.coordinate === coordinate);
        if (finding === undefined) throw new Error(`${at} was not solved`);
        const [, , , , , , verdict = ''] = cells;
        expect(verdict.replace(/\s/g, ''), at).toContain(
          say(`certificate.verdict.${finding.verdict}`).replace(/\s/g, ''),
        );
        expect(verdict, at).toContain(numbers.get(`${at}.probability`));
        // What the structure tree says is also what a person sees on the page.
        for (const cell of [printed[1], printed[3]]) expect(words).toContain(cell);
        compared += printed.length + 1;
      }
    }
  }
  return compared;
}
