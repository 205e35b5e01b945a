/** Which certificate a file is, if it is a whole one: signature intact, nothing appended, record as printed. */
import { attempt, openPdfFile } from '../file/pdfFile.ts';
import { examineRecord } from './attachedRecord.ts';
import { verifySignature } from './verifySignature.ts';

export interface CertificateIdentity {
  readonly number: string;
  readonly edition: number;
  readonly recordDigest: string;
}

export function identifyCertificate(bytes: Uint8Array): CertificateIdentity | undefined {
  const file = openPdfFile(bytes);
  if (!file.ok) return undefined;
  const signature = attempt(() => verifySignature(file.value));
  if (!signature.ok || signature.value.state !== 'intact') return undefined;
  if (signature.value.appended !== 0 || file.value.updates !== 0) return undefined;
  const record = examineRecord(file.value);
  if (record.state !== 'matches') return undefined;
  const { number, edition } = record.attachment.record;
  return { number, edition, recordDigest: record.digest };
}
