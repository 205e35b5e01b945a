/**
 * The record inside a certificate: the JSON file attached to the PDF, and the text of its QR code.
 *
 * Only the members the check itself needs are required here; the record may hold more. The digest printed on the page
 * and held by the QR code is SHA-256 over the canonical JSON (RFC 8785) of `record` alone, so that the disclosures may
 * differ from one recipient to the next while number, edition and digest stay.
 */
import { z } from 'zod';

/** Name of the format, the first thing the check looks for. */
export const attachmentFormat = 'datumline-certificate';

/** The schema this edition of the program writes and can read. */
export const attachmentSchemaVersion = 1;

const printedNumber = z.strictObject({
  id: z.string().min(1).max(200),
  value: z.string().regex(/^-?\d+(?:\.\d+)?$/),
  unit: z.string().max(20),
  decimals: z.int().min(0).max(12),
});

const record = z.looseObject({
  number: z.string().min(1).max(100),
  edition: z.int().min(1).max(9999),
  kind: z.enum(['calibrated', 'routineCompletedPlacementNotShown', 'notCalibrated']),
  issuedAt: z.string().max(40),
  numbers: z.array(printedNumber).max(10_000),
  events: z.array(z.string()).max(100_000),
});

const disclosure = z.strictObject({
  id: z.string().min(1).max(100),
  salt: z.string().regex(/^[0-9a-f]{64}$/),
  text: z.string(),
});

const attachment = z.strictObject({
  format: z.literal(attachmentFormat),
  schema: z.literal(attachmentSchemaVersion),
  record,
  disclosures: z.array(disclosure).max(10_000),
});

const envelope = z.looseObject({ format: z.literal(attachmentFormat), schema: z.int().min(1) });

/** One printed number: decimal text (point, no grouping, minus allowed), its unit, its decimals, and what it is. */
export type PrintedNumber = z.infer<typeof printedNumber>;

/** The record: number, edition, kind, moment of issue, all printed numbers, and the job's stored event texts in order. */
export type CertificateRecord = z.infer<typeof record>;

/** The whole attached file. `disclosures` are the personal texts printed on this copy, with their salts. */
export type CertificateAttachment = z.infer<typeof attachment>;

/** What reading an attachment can give. `newerEdition` is a file of a later program, which is no sign of alteration. */
export type AttachmentReading =
  | { readonly kind: 'record'; readonly attachment: CertificateAttachment }
  | { readonly kind: 'newerEdition'; readonly schema: number }
  | { readonly kind: 'malformed' };

/** Reads the parsed JSON of an attachment. Never throws. */
export function readAttachment(json: unknown): AttachmentReading {
  const outer = envelope.safeParse(json);
  if (!outer.success) return { kind: 'malformed' };
  if (outer.data.schema > attachmentSchemaVersion) return { kind: 'newerEdition', schema: outer.data.schema };
  const whole = attachment.safeParse(json);
  return whole.success ? { kind: 'record', attachment: whole.data } : { kind: 'malformed' };
}

/**
 * The text of the QR code: word, format version, number, edition, record digest, separated by blanks, for example
 * `DATUMLINE 1 HARBOUR-2-2026-0007 1 3B7E...`. Capital digits make a coarser code, which prints and reads better. It
 * holds nothing personal.
 */
export function certificateQrText(number: string, edition: number, recordDigest: string): string {
  return `DATUMLINE 1 ${number} ${edition} ${recordDigest.toUpperCase()}`;
}
