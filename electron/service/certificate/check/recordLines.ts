/** The lines that are answered from the record alone: chain, personal texts, numbers, edition. */
import type { CertificateAttachment, CertificateRecord } from '../../../../core/certificate/attachment.ts';
import type { CheckAnswer, CheckLine, CheckLineId } from '../../../../core/certificate/checkReport.ts';
import type { Recomputation, RecordError } from '../../../../core/certificate/record.ts';
import { parseEvent } from '../../../../core/job/event.ts';
import { type ChainFinding, verifyJobChain } from '../../../../core/job/eventChain.ts';
import { personalCommitment, personalReferences } from '../../../../core/job/personal.ts';
import type { Result } from '../../../../core/result.ts';
import type { WordKey } from '../../../../core/words/index.ts';

/** Solves the record's readings again and compares every printed number. */
export type Recompute = (record: CertificateRecord) => Result<Recomputation, RecordError>;

export function line(
  id: CheckLineId,
  answer: CheckAnswer,
  text: WordKey,
  values: Readonly<Record<string, string>> = {},
): CheckLine {
  return { id, answer, text, values };
}

export function chainLine(record: CertificateRecord): CheckLine {
  const first = record.events[0];
  const opening = first === undefined ? undefined : parseEvent(first);
  if (opening === undefined) return line('chainWhole', 'no', 'check.chain.empty');
  if (!opening.ok) return line('chainWhole', 'no', 'check.chain.broken', { seq: '1' });
  const { findings } = verifyJobChain(opening.value.job, record.events);
  const [finding] = findings;
  if (finding === undefined) {
    return line('chainWhole', 'yes', 'check.chain.whole', { count: String(record.events.length) });
  }
  return line('chainWhole', 'no', 'check.chain.broken', { seq: String(placeOf(finding)) });
}

function placeOf(finding: ChainFinding): number {
  return 'fromSeq' in finding ? finding.fromSeq : finding.seq;
}

/** Every disclosed text must be one an event of the record commits to. */
export function personalLine(attachment: CertificateAttachment): CheckLine {
  const committed = new Map<string, string>();
  for (const text of attachment.record.events) {
    const event = parseEvent(text);
    if (!event.ok) continue;
    for (const { personalId, commitment } of personalReferences(event.value.payload)) {
      committed.set(personalId, commitment);
    }
  }
  for (const { id, salt, text } of attachment.disclosures) {
    if (committed.get(id) === personalCommitment(salt, text)) continue;
    return line('personalTexts', 'no', 'check.personal.differ', { id });
  }
  const count = String(attachment.disclosures.length);
  return line('personalTexts', 'yes', 'check.personal.match', { count });
}

export function numbersLine(record: CertificateRecord, recompute: Recompute | undefined): CheckLine {
  if (recompute === undefined) return line('numbersRecomputed', 'unknown', 'check.numbers.notHere');
  const found = recompute(record);
  if (!found.ok) {
    const { code } = found.error;
    // An event type this edition does not know was written by a later one.
    if (code === 'events/unknownType') return line('numbersRecomputed', 'unknown', 'check.newerEdition');
    return line('numbersRecomputed', 'no', 'check.numbers.failed', { problem: found.error.details.problem });
  }
  const { disagreeing, confirmed } = found.value;
  const [first] = disagreeing;
  if (first === undefined) {
    return line('numbersRecomputed', 'yes', 'check.numbers.confirmed', { count: String(confirmed) });
  }
  const count = String(disagreeing.length);
  return line('numbersRecomputed', 'no', 'check.numbers.differ', { ...first, count });
}

export function editionLine(record: CertificateRecord, current: number | undefined): CheckLine {
  const edition = String(record.edition);
  if (current === undefined || current < record.edition) {
    return line('editionCurrent', 'unknown', 'check.edition.notHere', { edition });
  }
  if (current === record.edition) return line('editionCurrent', 'yes', 'check.edition.current', { edition });
  return line('editionCurrent', 'no', 'check.edition.superseded', { edition, current: String(current) });
}
