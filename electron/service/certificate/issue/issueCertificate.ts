/**
 * The order of issuing: seal in the journal, render, sign, store, note in the journal. After a stop at any point the
 * journal and the store together say what is left to do, and `finishSealed` does it.
 */
import { err, ok, type Result } from '../../../../core/result.ts';
import { type CertificateIdentity, identifyCertificate } from '../check/identifyCertificate.ts';
import type { CertificateStore, StoreError } from './certificateStore.ts';

/** `certificate/selfCheckFailed`: the finished file is not the one that was sealed; it is not handed out. */
export interface SelfCheckError {
  readonly code: 'certificate/selfCheckFailed';
}

/** What issuing needs from outside. `S` is the sealed certificate as the journal knows it, `E` the parts' own errors. */
export interface IssuePorts<S extends CertificateIdentity, E> {
  /** The unsigned file of a sealed certificate: the same each time. */
  readonly render: (sealed: S) => Promise<Result<Uint8Array, E>>;
  readonly sign: (bytes: Uint8Array, sealed: S) => Promise<Result<Uint8Array, E>>;
  readonly store: CertificateStore;
  /** Appends `certificateIssued`; it is durable when this resolves. */
  readonly recordIssued: (sealed: S, fileDigest: string) => Promise<Result<void, E>>;
}

export interface Issued<S> {
  readonly sealed: S;
  readonly fileDigest: string;
}

type IssueError<E> = E | StoreError | SelfCheckError;

/** Issues a certificate. `seal` appends `certificateSealed`, durable when it resolves. */
export async function issueCertificate<S extends CertificateIdentity, E>(
  seal: () => Promise<Result<S, E>>,
  ports: IssuePorts<S, E>,
): Promise<Result<Issued<S>, IssueError<E>>> {
  const sealed = await seal();
  return sealed.ok ? finish(sealed.value, ports) : sealed;
}

async function finish<S extends CertificateIdentity, E>(
  sealed: S,
  ports: IssuePorts<S, E>,
): Promise<Result<Issued<S>, IssueError<E>>> {
  const rendered = await ports.render(sealed);
  if (!rendered.ok) return rendered;
  const signed = await ports.sign(rendered.value, sealed);
  if (!signed.ok) return signed;
  if (!isThis(sealed, identifyCertificate(signed.value))) return err({ code: 'certificate/selfCheckFailed' });
  const stored = await ports.store.write(signed.value);
  if (!stored.ok) return stored;
  return note(sealed, stored.value, ports);
}

async function note<S extends CertificateIdentity, E>(
  sealed: S,
  fileDigest: string,
  ports: IssuePorts<S, E>,
): Promise<Result<Issued<S>, IssueError<E>>> {
  const noted = await ports.recordIssued(sealed, fileDigest);
  return noted.ok ? ok({ sealed, fileDigest }) : noted;
}

function isThis(sealed: CertificateIdentity, found: CertificateIdentity | undefined): boolean {
  return (
    found !== undefined &&
    found.number === sealed.number &&
    found.edition === sealed.edition &&
    found.recordDigest === sealed.recordDigest
  );
}

/**
 * Finishes every certificate that was sealed and not issued, at start. A file that reached the store before the stop
 * is adopted: it may already have been seen, and another signature of the same record would be a second original.
 */
export async function finishSealed<S extends CertificateIdentity, E>(
  unissued: readonly S[],
  ports: IssuePorts<S, E>,
): Promise<readonly Result<Issued<S>, IssueError<E>>[]> {
  const outcomes: Result<Issued<S>, IssueError<E>>[] = [];
  if (unissued.length === 0) return outcomes;
  await ports.store.sweep();
  const stored = await identifyStored(ports.store);
  for (const sealed of unissued) {
    const adopted = stored.find(({ identity }) => isThis(sealed, identity));
    outcomes.push(
      adopted === undefined ? await finish(sealed, ports) : await note(sealed, adopted.digest, ports),
    );
  }
  return outcomes;
}

async function identifyStored(store: CertificateStore) {
  const found: { readonly digest: string; readonly identity: CertificateIdentity }[] = [];
  for (const digest of await store.list()) {
    const bytes = await store.read(digest);
    const identity = bytes === undefined ? undefined : identifyCertificate(bytes);
    if (identity !== undefined) found.push({ digest, identity });
  }
  return found;
}
