/** Opens this installation's key for signing. The key then lives only in the service's memory. */
import { createPrivateKey, type KeyObject, X509Certificate } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { err, ok, type Result } from '../../../core/result.ts';
import { type KeyError, openKey } from './keyFile.ts';
import { fingerprintOf } from './shopKeys.ts';

export interface OpenedKey {
  readonly leafKey: KeyObject;
  /** The leaf first, then the shop root; each as DER. */
  readonly chain: readonly [Uint8Array, ...Uint8Array[]];
  readonly rootFingerprint: string;
}

/** Opens the bytes of an installation's key file. */
export async function openSigningKey(
  bytes: Uint8Array,
  passphrase: string,
): Promise<Result<OpenedKey, KeyError>> {
  const stored = await openKey(bytes, passphrase);
  if (!stored.ok) return stored;
  const { purpose, pkcs8, chain } = stored.value;
  const leafKey = createPrivateKey({ key: Buffer.from(pkcs8), format: 'der', type: 'pkcs8' });
  const [leaf] = chain;
  const root = chain.at(-1) ?? leaf;
  if (purpose !== 'installation' || !new X509Certificate(leaf).checkPrivateKey(leafKey)) {
    return err({ code: 'keys/damaged' });
  }
  return ok({ leafKey, chain, rootFingerprint: fingerprintOf(root) });
}

/** The same from a file; a file that is not there is `keys/missing`. */
export async function openSigningKeyFile(
  path: string,
  passphrase: string,
): Promise<Result<OpenedKey, KeyError>> {
  const bytes = await readKeyBytes(path);
  return bytes.ok ? openSigningKey(bytes.value, passphrase) : bytes;
}

async function readKeyBytes(path: string): Promise<Result<Uint8Array, KeyError>> {
  try {
    return ok(await readFile(path));
  } catch {
    return err({ code: 'keys/missing' });
  }
}
