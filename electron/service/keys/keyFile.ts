/**
 * A private key at rest: PKCS#8 in AES-256-GCM under a key derived from a passphrase with scrypt (RFC 7914), with the
 * certificate chain beside it in the open.
 *
 * Three lines of text: the magic word with its version, the header as JSON, the sealed key as base64. Everything above
 * the sealed key is authenticated with it. A fourth line, SHA-256 of the first three, tells a damaged file from a wrong
 * passphrase, which the cipher alone cannot.
 */
import { createCipheriv, createDecipheriv, createHash, scrypt } from 'node:crypto';
import { z } from 'zod';
import { err, ok, type Result } from '../../../core/result.ts';

const magic = 'DATUMLINE-KEY 1';

/** scrypt cost: about a third of a second and 128 MiB for each guess (N = 2^17, r = 8). */
const cost = { N: 131_072, r: 8, p: 1, maxmem: 160 * 1024 * 1024 } as const;
const saltBytes = 16;
const nonceBytes = 12;
const tagBytes = 16;

/** `shopRoot` issues the leaves of the shop and is kept by the owner; `installation` signs certificates on one PC. */
export type KeyPurpose = 'shopRoot' | 'installation';

const base64 = z.string().regex(/^[A-Za-z0-9+/]+={0,2}$/);
const header = z.strictObject({
  purpose: z.enum(['shopRoot', 'installation']),
  kdf: z.strictObject({
    name: z.literal('scrypt'),
    N: z.literal(cost.N),
    r: z.literal(cost.r),
    p: z.literal(cost.p),
    salt: base64,
  }),
  cipher: z.strictObject({ name: z.literal('aes-256-gcm'), nonce: base64 }),
  /** Certificates as DER in base64: the key's own first. */
  chain: z.array(base64).min(1).max(4),
});

/**
 * - `keys/missing`: there is no such file, or it may not be read
 * - `keys/wrongPassphrase`: the file is whole and the passphrase does not open it
 * - `keys/damaged`: the file is not what was written; take the copy
 */
export interface KeyError {
  readonly code: 'keys/missing' | 'keys/wrongPassphrase' | 'keys/damaged';
}

/** A key as it is kept: `pkcs8` in DER, and its certificate with those of its issuers. */
export interface StoredKey {
  readonly purpose: KeyPurpose;
  readonly pkcs8: Uint8Array;
  readonly chain: readonly [Uint8Array, ...Uint8Array[]];
}

/** Gives `count` random bytes. */
export type RandomBytes = (count: number) => Uint8Array;

/** The bytes of a key file. The same random bytes give the same file. */
export async function sealKey(key: StoredKey, passphrase: string, random: RandomBytes): Promise<Uint8Array> {
  const salt = random(saltBytes);
  const nonce = random(nonceBytes);
  const head: z.infer<typeof header> = {
    purpose: key.purpose,
    kdf: { name: 'scrypt', N: cost.N, r: cost.r, p: cost.p, salt: toBase64(salt) },
    cipher: { name: 'aes-256-gcm', nonce: toBase64(nonce) },
    chain: key.chain.map(toBase64),
  };
  const open = `${magic}\n${JSON.stringify(head)}\n`;
  const cipher = createCipheriv('aes-256-gcm', await derive(passphrase, salt), nonce);
  cipher.setAAD(Buffer.from(open));
  const sealed = Buffer.concat([cipher.update(key.pkcs8), cipher.final(), cipher.getAuthTag()]);
  const body = `${open}${toBase64(sealed)}\n`;
  return Buffer.from(`${body}${checksum(body)}\n`);
}

/** Opens a key file. */
export async function openKey(bytes: Uint8Array, passphrase: string): Promise<Result<StoredKey, KeyError>> {
  const file = readKeyFile(bytes);
  if (file === undefined) return err({ code: 'keys/damaged' });
  const { head, open, sealed } = file;
  const decipher = createDecipheriv(
    'aes-256-gcm',
    await derive(passphrase, fromBase64(head.kdf.salt)),
    fromBase64(head.cipher.nonce),
    { authTagLength: tagBytes },
  );
  decipher.setAAD(Buffer.from(open));
  decipher.setAuthTag(sealed.subarray(-tagBytes));
  const pkcs8 = finish(decipher, sealed.subarray(0, -tagBytes));
  if (pkcs8 === undefined) return err({ code: 'keys/wrongPassphrase' });
  return ok({ purpose: head.purpose, pkcs8, chain: file.chain });
}

/** What a key file says in the open: purpose and chain. No passphrase is needed. */
export function readKeyFileHead(bytes: Uint8Array): Result<Omit<StoredKey, 'pkcs8'>, KeyError> {
  const file = readKeyFile(bytes);
  return file === undefined
    ? err({ code: 'keys/damaged' })
    : ok({ purpose: file.head.purpose, chain: file.chain });
}

function finish(decipher: ReturnType<typeof createDecipheriv>, sealed: Uint8Array): Uint8Array | undefined {
  try {
    return Buffer.concat([decipher.update(sealed), decipher.final()]);
  } catch {
    // The file is whole (its checksum held), so a tag that does not fit means another key.
    return undefined;
  }
}

/** The file taken apart, if it is whole. */
function readKeyFile(bytes: Uint8Array) {
  const text = Buffer.from(bytes).toString('latin1');
  const [word, headText, sealedText, sum, rest, ...more] = text.split('\n');
  if (word !== magic || headText === undefined || sealedText === undefined) return undefined;
  if (rest !== '' || more.length > 0) return undefined;
  const open = `${magic}\n${headText}\n`;
  if (sum !== checksum(`${open}${sealedText}\n`)) return undefined;
  const head = header.safeParse(parseJson(headText));
  const sealed = fromBase64(sealedText);
  if (!head.success || sealed.length <= tagBytes) return undefined;
  const [own, ...issuers] = head.data.chain.map(fromBase64);
  if (own === undefined) return undefined;
  const chain: StoredKey['chain'] = [own, ...issuers];
  return { head: head.data, open, sealed, chain };
}

function derive(passphrase: string, salt: Uint8Array): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    // One spelling of a passphrase, however the keyboard composed its letters (RFC 8265 clause 4.2).
    scrypt(passphrase.normalize('NFC'), salt, 32, cost, (error, key) => {
      if (error === null) resolve(key);
      else reject(error);
    });
  });
}

function checksum(text: string): string {
  return createHash('sha256').update(text, 'latin1').digest('hex');
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function toBase64(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64');
}

function fromBase64(text: string): Uint8Array {
  return Buffer.from(text, 'base64');
}
