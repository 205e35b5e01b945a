/** Certificates: issue, list, check; and what was left half done is finished at the start. */
import { readFile } from 'node:fs/promises';
import { recompute } from '../../../core/certificate/record.ts';
import type { Input, Output } from '../../../core/contract/index.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import { checkCertificate } from '../certificate/check/checkCertificate.ts';
import type { CallError, Handlers } from '../host/handlers.ts';
import type { ServiceContext } from './context.ts';
import { draftCertificate } from './draft.ts';
import { finishJobs, issueNow } from './issue.ts';
import type { CertificateEntry, JobRow } from './jobRow.ts';
import { readsOf } from './store.ts';

type CertificateRow = Output<'certificate.issue'>;

function rowOf(row: JobRow, entry: CertificateEntry): CertificateRow {
  return {
    number: entry.number,
    edition: entry.edition,
    kind: entry.kind,
    fileDigest: entry.fileDigest,
    issuedAtUtcMs: entry.issuedAtUtcMs,
    job: row.job,
    plate: row.plate,
  };
}

function issuedOf(row: JobRow): readonly CertificateRow[] {
  return row.certificates.filter((each) => each.fileDigest !== '').map((each) => rowOf(row, each));
}

/** The issued certificates of one job, or of all, those of the job that changed last first. */
function issuedRows(
  context: ServiceContext,
  job: string | null,
): Result<readonly CertificateRow[], CallError> {
  const reads = readsOf(context.store);
  if (!reads.ok) return reads;
  if (job === null) {
    const rows = reads.value.listJobs();
    return rows.ok ? ok(rows.value.flatMap(issuedOf)) : rows;
  }
  const row = reads.value.jobRow(job);
  if (!row.ok) return row;
  return ok(row.value === undefined ? [] : issuedOf(row.value));
}

async function issue(
  context: ServiceContext,
  input: Input<'certificate.issue'>,
): Promise<Result<CertificateRow, CallError>> {
  const finished = await issueNow(context, input);
  if (!finished.ok) return finished;
  const rows = issuedRows(context, input.job);
  if (!rows.ok) return rows;
  const row = rows.value.find((each) => each.fileDigest === finished.value);
  return row === undefined ? err({ code: 'certificate/none', details: { job: input.job } }) : ok(row);
}

function list(
  context: ServiceContext,
  { job }: Input<'certificate.list'>,
): Result<Output<'certificate.list'>, CallError> {
  const rows = issuedRows(context, job);
  return rows.ok ? ok({ rows: [...rows.value] }) : rows;
}

/** The newest edition of a certificate that was issued here, or undefined for a number that was not given here. */
function currentEdition(context: ServiceContext, number: string): number | undefined {
  const reads = readsOf(context.store);
  const rows = reads.ok ? reads.value.rowsOfNumber(number) : reads;
  const editions = (rows.ok ? rows.value : [])
    .flatMap(issuedOf)
    .filter((each) => each.number === number)
    .map((each) => each.edition);
  return editions.length === 0 ? undefined : Math.max(...editions);
}

async function check(
  context: ServiceContext,
  { file }: Input<'certificate.check'>,
): Promise<Result<Output<'certificate.check'>, CallError>> {
  const located = await context.files.locate(file);
  if (located === undefined) return err({ code: 'file/missing', details: { file } });
  const root = context.keys.rootFingerprint();
  const report = checkCertificate(await readFile(located.path), {
    recompute,
    ...(root === '' ? {} : { trust: { rootFingerprints: [root] } }),
    currentEdition: (number) => currentEdition(context, number),
  });
  return ok({
    lines: report.lines.map((each) => ({ ...each, values: { ...each.values } })),
    exitCode: report.exitCode,
  });
}

/** Finishes what was sealed and not issued; an installation whose key is still locked does so when it is opened. */
export async function finishInterrupted(context: ServiceContext): Promise<void> {
  const reads = readsOf(context.store);
  const jobs = reads.ok ? reads.value.unissuedJobs() : reads;
  if (jobs.ok) await finishJobs(context, jobs.value);
}

/** The handlers of this topic. */
export function certificateHandlers(
  context: ServiceContext,
): Pick<Handlers, 'certificate.issue' | 'certificate.draft' | 'certificate.list' | 'certificate.check'> {
  return {
    'certificate.issue': (input) => issue(context, input),
    'certificate.draft': (input) => draftCertificate(context, input),
    'certificate.list': (input) => list(context, input),
    'certificate.check': (input) => check(context, input),
  };
}
