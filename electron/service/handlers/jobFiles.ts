/** Facts that name a stored file are taken only when that file is here and is what the fact says it is. */
import { readFile } from 'node:fs/promises';
import type { Input } from '../../../core/contract/index.ts';
import { payloadSchema } from '../../../core/job/events.ts';
import { keptPhotoFacts } from '../../../core/job/picture.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import type { CallError } from '../host/handlers.ts';
import type { ServiceContext } from './context.ts';

type Entries = Input<'job.record'>['entries'];

/** What a fact says about its file. */
interface Named {
  readonly digest: string;
  readonly mediaType: string;
  readonly sizeBytes: number;
  readonly widthPx?: number;
  readonly heightPx?: number;
}

const photo = payloadSchema('photoAdded').pick({
  digest: true,
  mediaType: true,
  sizeBytes: true,
  widthPx: true,
  heightPx: true,
});
const report = payloadSchema('reportAttached').pick({ digest: true, mediaType: true, sizeBytes: true });

/** The file an entry names. A payload of another form is refused by the journal's own schema, in its own words. */
function namedFile({ type, payload }: Entries[number]): Named | undefined {
  const schema = type === 'photoAdded' ? photo : type === 'reportAttached' ? report : undefined;
  const picked = schema?.loose().safeParse(payload);
  return picked?.success === true ? (picked.data as unknown as Named) : undefined;
}

async function problemOf(context: ServiceContext, named: Named): Promise<CallError | undefined> {
  const located = await context.files.locate(named.digest);
  if (located === undefined) return { code: 'file/missing', details: { file: named.digest } };
  const bytes = await readFile(located.path);
  const fits = located.mediaType === named.mediaType && bytes.length === named.sizeBytes;
  if (!fits) return { code: 'picture/otherFile', details: { file: named.digest } };
  if (named.mediaType !== 'image/jpeg') return undefined;
  const facts = keptPhotoFacts(bytes);
  if (!facts.ok) return { code: facts.error, details: { file: named.digest } };
  const { widthPx = facts.value.widthPx, heightPx = facts.value.heightPx } = named;
  return widthPx === facts.value.widthPx && heightPx === facts.value.heightPx
    ? undefined
    : { code: 'picture/otherFile', details: { file: named.digest } };
}

/** Whether any entry names a file: only then is there something to wait for. */
export function nameFiles(entries: Entries): boolean {
  return entries.some((entry) => namedFile(entry) !== undefined);
}

/** Refuses entries whose files are missing or other than said. */
export async function filesFit(
  context: ServiceContext,
  entries: Entries,
): Promise<Result<undefined, CallError>> {
  for (const entry of entries) {
    const named = namedFile(entry);
    const problem = named === undefined ? undefined : await problemOf(context, named);
    if (problem !== undefined) return err(problem);
  }
  return ok(undefined);
}
