/**
 * A draft of the certificate that would be issued now: the same document, with the word DRAFT across every page, no number, no
 * signature and no record inside. It is kept until the next one and never enters the record.
 */
import type { Input, Output } from '../../../core/contract/index.ts';
import type { JobCertificate } from '../../../core/job/job.ts';
import { err, invariant, ok, type Result } from '../../../core/result.ts';
import { inLanguage, say } from '../../../core/words/index.ts';
import type { CallError } from '../host/handlers.ts';
import type { ServiceContext } from './context.ts';
import { printed } from './issue.ts';
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
  const last = read.value.events.at(-1);
  invariant(last !== undefined, 'a job that is read has events');
  const { utcMs, offsetMin } = context.clock.now();
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
    sealed: { seq: last.event.seq + 1, utcMs, offsetMin, person: input.person },
    fileDigest: null,
    ...(input.language === undefined ? {} : { language: input.language }),
  };
  const texts = read.value.events.map((each) => each.text);
  const file = await printed(context, read.value, { texts, shop, seal, draft: mark });
  return file.ok ? ok({ digest: await context.files.putPassing(file.value) }) : file;
}
