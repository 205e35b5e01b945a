/**
 * The record inside a certificate: number, kind, moment, every printed number, and the job's stored events. It is a
 * function of the events up to the seal and of the seal, so that a certificate interrupted between sealing and issuing
 * is finished to the same bytes, and anyone can recompute it.
 */
import { canonicalJson, sha256Hex } from '../canonical.ts';
import type { Answers } from '../job/assess.ts';
import { utcSecond } from '../job/localTime.ts';
import type { PersonalText } from '../job/personal.ts';
import { eventsOfTexts, type ReadEventsError } from '../job/readEvents.ts';
import { reduce } from '../job/reduce.ts';
import { solveAll } from '../job/solve.ts';
import { err, ok, type Result } from '../result.ts';
import {
  attachmentFormat,
  attachmentSchemaVersion,
  type CertificateAttachment,
  type CertificateRecord,
} from './attachment.ts';
import { confirmsNumber, placementNumbers, printNumber } from './numbers.ts';

/** What is fixed about a certificate before its record exists. */
export interface RecordSeal {
  readonly number: string;
  readonly edition: number;
  readonly kind: CertificateRecord['kind'];
  readonly issuedAtUtcMs: number;
}

/** The record of a job whose events, in order, have these stored texts. */
export function buildRecord(texts: readonly string[], answers: Answers, seal: RecordSeal): CertificateRecord {
  const numbers = Object.entries(answers).flatMap(([sensor, answer]) =>
    answer === undefined ? [] : placementNumbers(sensor, answer).map(printNumber),
  );
  return {
    number: seal.number,
    edition: seal.edition,
    kind: seal.kind,
    issuedAt: utcSecond(seal.issuedAtUtcMs),
    numbers,
    events: [...texts],
  };
}

/** SHA-256 of the canonical record: what is printed, held by the QR code and sealed in the journal. */
export function recordDigest(record: CertificateRecord): string {
  return sha256Hex(canonicalJson(record as Parameters<typeof canonicalJson>[0]));
}

/** The attached file: the record, and the personal texts printed on this copy with their salts. */
export function attachmentJson(record: CertificateRecord, disclosures: readonly PersonalText[]): string {
  const attachment: CertificateAttachment = {
    format: attachmentFormat,
    schema: attachmentSchemaVersion,
    record,
    disclosures: disclosures.map(({ id, salt, text }) => ({ id, salt, text })),
  };
  return canonicalJson(attachment as Parameters<typeof canonicalJson>[0]);
}

/** Why a record cannot be recomputed. */
export type RecordError =
  | ReadEventsError
  | { readonly code: 'record/notAJob'; readonly details: { readonly seq: number; readonly problem: string } };

/** What recomputing a record found. */
export interface Recomputation {
  /** Ids of printed numbers that the readings in the record do not give. */
  readonly disagreeing: readonly {
    readonly id: string;
    readonly printed: string;
    readonly recomputed: string;
  }[];
  readonly confirmed: number;
}

/**
 * Solves the job again from the events in the record and compares every printed number. A number that cannot be
 * recomputed, or that the record lacks, disagrees.
 */
export function recompute(record: CertificateRecord): Result<Recomputation, RecordError> {
  const events = eventsOfTexts(record.events);
  if (!events.ok) return events;
  const job = reduce(events.value);
  if (job === undefined)
    return err({ code: 'record/notAJob', details: { seq: 1, problem: 'no opening event' } });
  const again = new Map(
    Object.entries(solveAll(job)).flatMap(([sensor, answer]) =>
      answer === undefined ? [] : placementNumbers(sensor, answer).map((each) => [each.id, each] as const),
    ),
  );
  const disagreeing: { id: string; printed: string; recomputed: string }[] = [];
  for (const printed of record.numbers) {
    const mine = again.get(printed.id);
    again.delete(printed.id);
    if (mine !== undefined && mine.unit === printed.unit && confirmsNumber(printed, mine.value)) continue;
    disagreeing.push({
      id: printed.id,
      printed: printed.value,
      recomputed: mine === undefined ? '' : printNumber(mine).value,
    });
  }
  for (const [id, mine] of again) disagreeing.push({ id, printed: '', recomputed: printNumber(mine).value });
  return ok({
    disagreeing,
    confirmed: record.numbers.length - disagreeing.filter((each) => each.printed !== '').length,
  });
}
