/**
 * A draft of the certificate that would be issued now: the same document, with the word DRAFT across every page, no number, no
 * signature and no record inside. It is kept until the next one and never enters the record.
 */
import { buildCertificate } from '../../../core/certificate/build.ts';
import { buildRecord, recordDigest } from '../../../core/certificate/record.ts';
import type { Input, Output } from '../../../core/contract/index.ts';
import { assess } from '../../../core/job/assess.ts';
import type { JobCertificate } from '../../../core/job/job.ts';
import { solveAll } from '../../../core/job/solve.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import { inLanguage, say } from '../../../core/words/index.ts';
import { renderCertificate } from '../certificate/render/renderCertificate.ts';
import type { CallError } from '../host/handlers.ts';
import type { ServiceContext } from './context.ts';
import { jobBefore, partsFor } from './issue.ts';
import { currentShop } from './shop.ts';
import { readsOf } from './store.ts';

const NO_DIGEST = '0'.repeat(64);

export async function draftCertificate(
  context: ServiceContext,
  input: Input<'certificate.draft'>,
): Promise<Result<Output<'certificate.draft'>, CallError>> {
  const reads = readsOf(context.store);
  if (!reads.ok) return reads;
  const read = reads.value.readJob(input.job);
  if (!read.ok) return read;
  const shop = currentShop(context);
  if (shop === undefined) return err({ code: 'shop/none', details: {} });
  const { job, texts } = jobBefore(read.value, Number.POSITIVE_INFINITY);
  const { utcMs, offsetMin } = context.clock.now();
  const answers = solveAll(job);
  const mark = inLanguage(input.language ?? 'en', () => say('certificate.draft'));
  const seal: JobCertificate = {
    certificate: 'draft',
    number: mark,
    edition: 1,
    replaces: null,
    kind: input.kind,
    reason: input.reason,
    recordDigest: NO_DIGEST,
    head: NO_DIGEST,
    signer: input.person,
    issuedAtUtcMs: utcMs,
    issuedOffsetMin: offsetMin,
    paper: shop.paper,
    program: `datumline/${context.version}`,
    sealed: job.last,
    fileDigest: null,
    ...(input.language === undefined ? {} : { language: input.language }),
  };
  const record = buildRecord(texts, answers, seal);
  const document = {
    ...buildCertificate({
      job,
      answers,
      assessment: assess(job, answers),
      shop,
      personal: Object.fromEntries(read.value.personal.map(({ id, text }) => [id, text])),
      seal,
      numbers: record.numbers,
      recordDigest: recordDigest(record),
      rootFingerprint: context.keys.rootFingerprint(),
      attachmentJson: '{"format":"datumline-draft"}',
    }),
    draft: mark,
    qrText: mark,
  };
  const rendered = await renderCertificate(document, await partsFor(context, document));
  if (!rendered.ok) return err({ code: rendered.error.code, details: { missing: rendered.error.missing } });
  return ok({ digest: await context.files.putPassing(rendered.value) });
}
