/**
 * Checks a certificate from its bytes alone, without a network: one answer a line, never an exception, whatever the
 * bytes are.
 */
import {
  type CheckLine,
  type CheckReport,
  checkLineIds,
  checkReport,
} from '../../../../core/certificate/checkReport.ts';
import { groupDigest } from '../../../../core/certificate/groupDigest.ts';
import type { WordKey } from '../../../../core/words/index.ts';
import { attempt, openPdfFile, type PdfFile, type PdfProblem } from '../file/pdfFile.ts';
import { examineRecord, isFromNewerEdition } from './attachedRecord.ts';
import { chainLine, editionLine, line, numbersLine, personalLine, type Recompute } from './recordLines.ts';
import { examineSigner } from './signerChain.ts';
import { type SignatureFinding, verifySignature } from './verifySignature.ts';

export interface CheckContext {
  /** SHA-256 of the shop roots trusted here, 64 lower-case digits each. Absent: the fingerprint is only shown. */
  readonly trust?: { readonly rootFingerprints: readonly string[] };
  readonly recompute?: Recompute;
  /** The newest issued edition of a certificate number, where that is known. */
  readonly currentEdition?: (number: string) => number | undefined;
}

export function checkCertificate(bytes: Uint8Array, context: CheckContext = {}): CheckReport {
  const file = openPdfFile(bytes);
  if (!file.ok) return checkReport(unreadable(file.error));
  const signature = attempt(() => verifySignature(file.value));
  if (!signature.ok) return checkReport(unreadable(signature.error));
  return checkReport(answer(file.value, signature.value, context));
}

const problemWords: Readonly<Record<PdfProblem['code'], WordKey>> = {
  'pdf/notPdf': 'check.file.notPdf',
  'pdf/truncated': 'check.file.truncated',
  'pdf/otherWriter': 'check.file.otherWriter',
  'pdf/damaged': 'check.file.damaged',
};

function unreadable(found: PdfProblem): readonly CheckLine[] {
  const damaged = found.code === 'pdf/damaged';
  const values = damaged ? { offset: String(found.offset), problem: found.problem } : {};
  return [
    line('signatureIntact', 'no', problemWords[found.code], values),
    ...notLookedAt(1, 'check.needsSignature'),
  ];
}

/** The questions from the `from`th on, unanswered for one reason. */
function notLookedAt(from: number, why: WordKey): readonly CheckLine[] {
  return checkLineIds.slice(from).map((id) => line(id, 'unknown', why));
}

function answer(file: PdfFile, signature: SignatureFinding, context: CheckContext): readonly CheckLine[] {
  if (signature.state === 'none' || signature.state === 'ranges') {
    const text = signature.state === 'none' ? 'check.signature.none' : 'check.signature.ranges';
    return [line('signatureIntact', 'no', text), ...notLookedAt(1, 'check.needsSignature')];
  }
  const appended = appendedLine(file, signature.appended);
  if (signature.state !== 'intact') {
    return [signatureFault(file, signature.state), appended, ...notLookedAt(2, 'check.needsSignature')];
  }
  const moment = signature.claimedAt.toISOString();
  const head = [
    line('signatureIntact', 'yes', 'check.signature.intact', { moment }),
    appended,
    signerLine(signature, context),
  ];
  if (appended.answer === 'no') return [...head, ...notLookedAt(3, 'check.needsWhole')];
  return [...head, ...recordAnswers(file, context)];
}

/** A later edition may sign in a form not known here; changed content is changed content in every edition. */
function signatureFault(file: PdfFile, state: 'content' | 'block'): CheckLine {
  if (state === 'content') return line('signatureIntact', 'no', 'check.signature.content');
  if (isFromNewerEdition(file)) return line('signatureIntact', 'unknown', 'check.newerEdition');
  return line('signatureIntact', 'no', 'check.signature.block');
}

function appendedLine(file: PdfFile, appended: number): CheckLine {
  if (appended === 0 && file.updates === 0) return line('nothingAppended', 'yes', 'check.appended.nothing');
  return line('nothingAppended', 'no', 'check.appended.bytes', { count: String(appended) });
}

function signerLine(
  signature: SignatureFinding & { readonly state: 'intact' },
  context: CheckContext,
): CheckLine {
  const { chain, certificates, claimedAt } = signature;
  const { state, name, rootFingerprint } = examineSigner(chain, certificates, claimedAt);
  if (state === 'chain') return line('signerKnown', 'no', 'check.signer.chain', { name });
  if (state === 'time') {
    return line('signerKnown', 'no', 'check.signer.time', { name, moment: claimedAt.toISOString() });
  }
  const fingerprint = groupDigest(rootFingerprint);
  const trusted = context.trust?.rootFingerprints;
  if (trusted === undefined)
    return line('signerKnown', 'unknown', 'check.signer.compare', { name, fingerprint });
  return trusted.includes(rootFingerprint)
    ? line('signerKnown', 'yes', 'check.signer.known', { name, fingerprint })
    : line('signerKnown', 'no', 'check.signer.stranger', { name, fingerprint });
}

function recordAnswers(file: PdfFile, context: CheckContext): readonly CheckLine[] {
  const record = examineRecord(file);
  switch (record.state) {
    case 'newerEdition':
      return notLookedAt(3, 'check.newerEdition');
    case 'missing':
      return [line('recordMatches', 'no', 'check.record.missing'), ...notLookedAt(4, 'check.record.missing')];
    case 'damaged':
      return [line('recordMatches', 'no', 'check.record.damaged'), ...notLookedAt(4, 'check.record.damaged')];
    default: {
      const { attachment, digest, state } = record;
      const current = context.currentEdition?.(attachment.record.number);
      return [
        line('recordMatches', state === 'matches' ? 'yes' : 'no', `check.record.${state}`, {
          digest: groupDigest(digest),
        }),
        chainLine(attachment.record),
        personalLine(attachment),
        numbersLine(attachment.record, context.recompute),
        editionLine(attachment.record, current),
      ];
    }
  }
}
