/**
 * Whether the signature holds, byte for byte.
 *
 * The value is built again from what it claims and the digest of the file as it is now. Only if that gives the very
 * bytes in the file, and the key confirms the signed attributes, does the signature hold: so a change anywhere, inside
 * the signed bytes or in the value beside them, is seen.
 */
import { verify, X509Certificate } from 'node:crypto';
import type { PdfFile } from '../file/pdfFile.ts';
import { findSignature } from '../file/signatureDictionary.ts';
import { buildCms, type Chain, type CmsParts, sha256, signedAttributes } from '../sign/cms.ts';
import { readCms } from './readCms.ts';
import { signedRanges } from './signedRanges.ts';

export type SignatureFinding =
  | { readonly state: 'none' }
  | { readonly state: 'ranges' }
  /** The signed bytes are not those that were signed. */
  | { readonly state: 'content'; readonly appended: number }
  /** The value is not one this program writes for these bytes, or no key confirms it. */
  | { readonly state: 'block'; readonly appended: number }
  | {
      readonly state: 'intact';
      readonly appended: number;
      readonly chain: Chain;
      readonly certificates: readonly [X509Certificate, ...X509Certificate[]];
      /** The time the signer states. */
      readonly claimedAt: Date;
    };

/** Reads unreadable bytes as `PdfSyntaxError`, like everything in `file/`: call it inside `attempt`. */
export function verifySignature(file: PdfFile): SignatureFinding {
  const signature = findSignature(file);
  if (signature === undefined) return { state: 'none' };
  const ranges = signedRanges(file.bytes, signature);
  if (ranges === undefined) return { state: 'ranges' };
  const { appended } = ranges;
  const claims = readCms(ranges.hole);
  if (claims === undefined) return { state: 'block', appended };
  const digest = sha256(...ranges.parts);
  if (!equal(rebuilt(claims, ranges.hole.length), ranges.hole)) return { state: 'block', appended };
  if (!equal(digest, claims.digest)) return { state: 'content', appended };
  const certificates = readCertificates(claims.chain);
  const claimedAt = momentOf(signature.moment.bytes);
  if (certificates === undefined || claimedAt === undefined || !confirms(certificates[0], claims)) {
    return { state: 'block', appended };
  }
  return { state: 'intact', appended, chain: claims.chain, certificates, claimedAt };
}

/** The value in the one encoding this program writes, padded with zeros to the length of the hole. */
function rebuilt(claims: CmsParts, length: number): Uint8Array {
  const padded = new Uint8Array(length);
  const value = buildCms(claims);
  if (value.length <= length) padded.set(value);
  return padded;
}

function equal(a: Uint8Array, b: Uint8Array): boolean {
  return Buffer.compare(a, b) === 0;
}

/** `undefined` when one of them is no certificate: OpenSSL throws on what it cannot read. */
export function readCertificates(chain: Chain): readonly [X509Certificate, ...X509Certificate[]] | undefined {
  try {
    const [leaf, ...issuers] = chain;
    return [new X509Certificate(leaf), ...issuers.map((issuer) => new X509Certificate(issuer))];
  } catch {
    return undefined;
  }
}

function confirms(signer: X509Certificate, claims: CmsParts): boolean {
  const kind = { rsa: 'rsa', ecdsa: 'ec' }[claims.algorithm];
  const attributes = signedAttributes(claims.chain, claims.digest);
  try {
    const { publicKey } = signer;
    if (publicKey.asymmetricKeyType !== kind) return false;
    return verify('sha256', attributes, publicKey, claims.signature);
  } catch {
    // A key that OpenSSL refuses confirms nothing.
    return false;
  }
}

function momentOf(bytes: Uint8Array): Date | undefined {
  const text = Buffer.from(bytes).toString('latin1');
  const parts = /^D:(\d{4})(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)Z$/.exec(text);
  if (parts === null) return undefined;
  const [, year, month, day, hour, minute, second] = parts;
  const moment = new Date(`${year}-${month}-${day}T${hour}:${minute}:${second}Z`);
  return Number.isNaN(moment.getTime()) ? undefined : moment;
}
