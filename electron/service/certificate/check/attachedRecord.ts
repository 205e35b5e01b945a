/** The record inside the file, and whether it is the one the page names. */

import {
  canonicalJson,
  type JsonObject,
  type JsonValue,
  parseCanonical,
  sha256Hex,
} from '../../../../core/canonical.ts';
import {
  attachmentFormat,
  type CertificateAttachment,
  certificateQrText,
  readAttachment,
} from '../../../../core/certificate/attachment.ts';
import { attempt, type PdfFile } from '../file/pdfFile.ts';
import { attachedFile } from './attachedFile.ts';
import { printsDigest, readPrintedMarks, showsQrCode } from './printedMarks.ts';

export type RecordFinding =
  | { readonly state: 'missing' | 'damaged' }
  | { readonly state: 'newerEdition' }
  | {
      readonly state: 'matches' | 'printed' | 'qr';
      readonly attachment: CertificateAttachment;
      readonly digest: string;
    };

/** Reads the record and compares its digest with the printed one and the one in the QR code. Never throws. */
export function examineRecord(file: PdfFile): RecordFinding {
  const bytes = attempt(() => attachedFile(file));
  if (!bytes.ok) return { state: 'damaged' };
  if (bytes.value === undefined) return { state: 'missing' };
  const json = parseCanonical(Buffer.from(bytes.value).toString('utf8'));
  if (!json.ok) return { state: 'damaged' };
  const reading = readAttachment(json.value);
  if (reading.kind === 'newerEdition') return { state: 'newerEdition' };
  const record = memberOf(json.value, 'record');
  if (reading.kind === 'malformed' || record === undefined) return { state: 'damaged' };
  const { attachment } = reading;
  const digest = sha256Hex(canonicalJson(record));
  const marks = attempt(() => readPrintedMarks(file));
  if (!marks.ok || !printsDigest(marks.value, digest)) return { state: 'printed', attachment, digest };
  const { number, edition } = attachment.record;
  const qrText = certificateQrText(number, edition, digest);
  return { state: showsQrCode(marks.value, qrText) ? 'matches' : 'qr', attachment, digest };
}

/** True when the attachment names our format with a schema this edition does not know. */
export function isFromNewerEdition(file: PdfFile): boolean {
  const bytes = attempt(() => attachedFile(file));
  if (!bytes.ok || bytes.value === undefined) return false;
  const json = parseCanonical(Buffer.from(bytes.value).toString('utf8'));
  if (!json.ok || memberOf(json.value, 'format') !== attachmentFormat) return false;
  return readAttachment(json.value).kind === 'newerEdition';
}

function memberOf(value: JsonValue, name: string): JsonValue | undefined {
  return isObject(value) ? value[name] : undefined;
}

function isObject(value: JsonValue): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
