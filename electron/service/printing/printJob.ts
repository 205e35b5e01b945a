/**
 * From the stored texts of a job to the unsigned file: everything about a certificate that takes long, as a function of what is
 * handed in. It runs on the printing thread, so that a reading is never held up by it; nothing here touches the store.
 */
import { readFile } from 'node:fs/promises';
import { buildCertificate } from '../../../core/certificate/build.ts';
import type { CertificateDocument } from '../../../core/certificate/document.ts';
import { attachmentJson, buildRecord, recordDigest } from '../../../core/certificate/record.ts';
import { assess } from '../../../core/job/assess.ts';
import type { JobCertificate } from '../../../core/job/job.ts';
import { eventsOfTexts } from '../../../core/job/readEvents.ts';
import { reduce } from '../../../core/job/reduce.ts';
import type { Shop } from '../../../core/job/shop.ts';
import { solveAll } from '../../../core/job/solve.ts';
import { invariant, type Result } from '../../../core/result.ts';
import { inLanguage, say } from '../../../core/words/index.ts';
import { type RenderError, renderCertificate } from '../certificate/render/renderCertificate.ts';
import type { JobRead } from '../journal/index.ts';
import { renderParts } from './renderParts.ts';

/** What is printed: plain values only, for it goes to another thread. */
export interface PrintRequest {
  /** The job's events before the seal, as stored. */
  readonly texts: readonly string[];
  readonly personal: JobRead['personal'];
  readonly shop: Shop;
  readonly seal: JobCertificate;
  readonly rootFingerprint: string;
  /** Where the bytes of the job's photos lie, by their digest; one that was erased is absent. */
  readonly photoPaths: Readonly<Record<string, string>>;
  /** The word across every page of a document that nobody signs; such a one holds no record. */
  readonly draft?: string;
}

export type PrintAnswer = Result<Uint8Array, RenderError>;

const DRAFT_ATTACHMENT = '{"format":"datumline-draft"}';

/** The document of a certificate: the same whenever it is made. A sealed one whose record is another than was sealed is a fault. */
export function printedDocument(request: PrintRequest): CertificateDocument {
  const { texts, personal, shop, seal, rootFingerprint, draft } = request;
  const events = eventsOfTexts(texts);
  const job = events.ok ? reduce(events.value) : undefined;
  invariant(job !== undefined, 'a job that is printed opens with its opening event');
  const answers = solveAll(job);
  const record = buildRecord(texts, answers, seal);
  const digest = recordDigest(record);
  invariant(
    draft !== undefined || digest === seal.recordDigest,
    `record of ${seal.number} is not the one that was sealed`,
  );
  const document = buildCertificate({
    job,
    answers,
    assessment: assess(job, answers),
    shop,
    personal: Object.fromEntries(personal.map(({ id, text }) => [id, text])),
    seal,
    numbers: record.numbers,
    recordDigest: digest,
    rootFingerprint,
    attachmentJson: draft === undefined ? attachmentJson(record, personal) : DRAFT_ATTACHMENT,
  });
  return draft === undefined ? document : asDraft(document, draft, seal);
}

/** Nobody has signed it, and it says so where a signature would stand. */
function asDraft(document: CertificateDocument, draft: string, seal: JobCertificate): CertificateDocument {
  const [label, unsigned] = inLanguage(
    seal.language ?? 'en',
    () => [say('certificate.label.signature'), say('certificate.draft.unsigned')] as const,
  );
  return {
    ...document,
    draft,
    qrText: draft,
    signerText: unsigned,
    signerFacts: [{ label, value: unsigned }],
  };
}

/** The bytes of the photos that a document shows; absent ones stay frames without a picture. */
async function pictureBytesOf(
  document: CertificateDocument,
  photoPaths: PrintRequest['photoPaths'],
): Promise<ReadonlyMap<string, Uint8Array>> {
  const bytes = new Map<string, Uint8Array>();
  for (const block of document.sections.flatMap((section) => section.blocks)) {
    if (block.block !== 'pictures') continue;
    for (const { digest } of block.pictures) {
      const path = photoPaths[digest];
      if (path !== undefined) bytes.set(digest, await readFile(path));
    }
  }
  return bytes;
}

/** Prints the certificate, unsigned. Fails when a character cannot be printed. */
export async function printJob(request: PrintRequest): Promise<PrintAnswer> {
  const document = printedDocument(request);
  const bytes = await pictureBytesOf(document, request.photoPaths);
  return renderCertificate(document, { ...renderParts, pictureBytes: (digest) => bytes.get(digest) });
}
