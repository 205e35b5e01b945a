/** Fills the empty signature field of a rendered certificate: PAdES-B-B, ISO 32000-1 clause 12.8.1. */
import { type KeyObject, sign, X509Certificate } from 'node:crypto';
import { err, ok, type Result } from '../../../../core/result.ts';
import { attempt, openPdfFile } from '../file/pdfFile.ts';
import { findSignature, type SignatureDictionary } from '../file/signatureDictionary.ts';
import { buildCms, type Chain, type SignatureAlgorithm, sha256, signedAttributes } from './cms.ts';
import { byteRangePlace } from './emptySignature.ts';

export interface SigningKey {
  readonly leafKey: KeyObject;
  /** The certificate of `leafKey` first, then its issuers; each as DER. */
  readonly chain: Chain;
  /** The moment of signing the file claims. */
  readonly signedAt: Date;
}

/**
 * - `certificate/noEmptySignature`: the bytes are no certificate waiting for a signature
 * - `certificate/wrongKey`: the key does not belong to the first certificate, or is of a kind not used here
 */
export interface SignError {
  readonly code: 'certificate/noEmptySignature' | 'certificate/wrongKey';
}

/** The signed file. `bytes` stay as they are. */
export function signPdf(bytes: Uint8Array, key: SigningKey): Result<Uint8Array, SignError> {
  const algorithm = algorithmOf(key);
  if (algorithm === undefined) return err({ code: 'certificate/wrongKey' });
  const place = findEmptySignature(bytes);
  if (place === undefined) return err({ code: 'certificate/noEmptySignature' });
  const signed = Buffer.from(bytes);
  const { start, end } = place.contents;
  writeMoment(signed, place, key.signedAt);
  writeByteRange(signed, place);
  const digest = sha256(signed.subarray(0, start), signed.subarray(end));
  const signature = sign('sha256', signedAttributes(key.chain, digest), key.leafKey);
  const value = Buffer.from(buildCms({ chain: key.chain, digest, algorithm, signature })).toString('hex');
  const room = end - start - 2;
  if (value.length > room) return err({ code: 'certificate/noEmptySignature' });
  signed.write(value.padEnd(room, '0'), start + 1, 'latin1');
  return ok(signed);
}

function algorithmOf(key: SigningKey): SignatureAlgorithm | undefined {
  const certificate = new X509Certificate(key.chain[0]);
  if (!certificate.checkPrivateKey(key.leafKey)) return undefined;
  const { asymmetricKeyType: type, asymmetricKeyDetails: details } = key.leafKey;
  if (type === 'rsa' && (details?.modulusLength ?? 0) >= 3072) return 'rsa';
  if (type === 'ec' && details?.namedCurve === 'prime256v1') return 'ecdsa';
  return undefined;
}

function findEmptySignature(bytes: Uint8Array): SignatureDictionary | undefined {
  const file = openPdfFile(bytes);
  if (!file.ok) return undefined;
  const found = attempt(() => findSignature(file.value));
  if (!found.ok || found.value === undefined) return undefined;
  const [, ...places] = found.value.byteRange.items;
  const empty =
    places.length === 3 && places.every((item) => item.type === 'name' && item.value === byteRangePlace);
  return empty ? found.value : undefined;
}

function writeByteRange(signed: Buffer, place: SignatureDictionary): void {
  const { start, end } = place.contents;
  const { byteRange } = place;
  const text = `[0 ${start} ${end} ${signed.length - end}`;
  signed.write(`${text.padEnd(byteRange.end - byteRange.start - 1)}]`, byteRange.start, 'latin1');
}

/** `D:20260305140709Z`, the width the renderer left. */
function writeMoment(signed: Buffer, place: SignatureDictionary, moment: Date): void {
  const digits = moment.toISOString().slice(0, 19).replace(/\D/g, '');
  signed.write(`(D:${digits}Z)`, place.moment.start, 'latin1');
}
