/**
 * The signature value: CMS SignedData (RFC 5652) for PAdES-B-B (ETSI EN 319 142-1 clause 6.3).
 *
 * Built by hand because then there is exactly one encoding for given certificates, digest and signature: the check
 * builds it again and compares bytes, so not one byte of it can change unseen. The chain's further certificates are
 * named in the signed attributes too (RFC 5035 clause 5.4), which puts their bytes under the signature.
 */
import { createHash } from 'node:crypto';
import { der, derOid, derSetOf, derSmallInteger, readDer, tags } from './der.ts';

export const oid = {
  data: '1.2.840.113549.1.7.1',
  signedData: '1.2.840.113549.1.7.2',
  contentType: '1.2.840.113549.1.9.3',
  messageDigest: '1.2.840.113549.1.9.4',
  signingCertificateV2: '1.2.840.113549.1.9.16.2.47',
  sha256: '2.16.840.1.101.3.4.2.1',
  rsaWithSha256: '1.2.840.113549.1.1.11',
  ecdsaWithSha256: '1.2.840.10045.4.3.2',
} as const;

export type SignatureAlgorithm = 'rsa' | 'ecdsa';

/** The signer's certificate first, then its issuers; each as DER. */
export type Chain = readonly [Uint8Array, ...Uint8Array[]];

export interface CmsParts {
  readonly chain: Chain;
  /** SHA-256 of the signed bytes. */
  readonly digest: Uint8Array;
  readonly algorithm: SignatureAlgorithm;
  readonly signature: Uint8Array;
}

export function sha256(...parts: readonly Uint8Array[]): Uint8Array {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest();
}

const sha256Identifier = der(tags.sequence, derOid(oid.sha256));

/** The signed attributes as a SET: the bytes that are signed. PAdES keeps the time in the file, so it is not here. */
export function signedAttributes(chain: Chain, digest: Uint8Array): Uint8Array {
  return derSetOf(tags.set, attributeList(chain, digest));
}

function attributeList(chain: Chain, digest: Uint8Array): readonly Uint8Array[] {
  // SHA-256 is the default digest of ESSCertIDv2 (RFC 5035 clause 4) and is therefore left out.
  const identifiers = chain.map((certificate) =>
    der(tags.sequence, der(tags.octetString, sha256(certificate))),
  );
  return [
    attribute(oid.contentType, derOid(oid.data)),
    attribute(oid.messageDigest, der(tags.octetString, digest)),
    attribute(oid.signingCertificateV2, der(tags.sequence, der(tags.sequence, ...identifiers))),
  ];
}

function attribute(type: string, value: Uint8Array): Uint8Array {
  return der(tags.sequence, derOid(type), der(tags.set, value));
}

/** The whole value, in the only encoding this program writes. Throws on a chain that is not X.509. */
export function buildCms(parts: CmsParts): Uint8Array {
  const signerInfo = der(
    tags.sequence,
    derSmallInteger(1),
    issuerAndSerialNumber(parts.chain[0]),
    sha256Identifier,
    derSetOf(tags.context0, attributeList(parts.chain, parts.digest)),
    algorithmIdentifier(parts.algorithm),
    der(tags.octetString, parts.signature),
  );
  const signedData = der(
    tags.sequence,
    derSmallInteger(1),
    der(tags.set, sha256Identifier),
    der(tags.sequence, derOid(oid.data)),
    derSetOf(tags.context0, parts.chain),
    der(tags.set, signerInfo),
  );
  return der(tags.sequence, derOid(oid.signedData), der(tags.context0, signedData));
}

/** The algorithm as written beside the signature. */
export function algorithmIdentifier(algorithm: SignatureAlgorithm): Uint8Array {
  // RFC 5754 clauses 3.2 and 3.3: NULL parameters for RSA, none for ECDSA.
  return algorithm === 'rsa'
    ? der(tags.sequence, derOid(oid.rsaWithSha256), der(tags.null))
    : der(tags.sequence, derOid(oid.ecdsaWithSha256));
}

/** What names the signer. Throws on a certificate that is not X.509. */
export function issuerAndSerialNumber(certificate: Uint8Array): Uint8Array {
  const names = certificateNames(certificate);
  if (names === undefined) throw new Error('the signer certificate is not an X.509 certificate');
  return der(tags.sequence, names.issuer, names.serialNumber);
}

/** Issuer and serial number as encoded in a certificate (RFC 5280 clause 4.1). */
export function certificateNames(
  certificate: Uint8Array,
): { readonly issuer: Uint8Array; readonly serialNumber: Uint8Array } | undefined {
  const [outer, ...more] = readDer(certificate) ?? [];
  if (outer?.tag !== tags.sequence || more.length > 0) return undefined;
  const body = readDer(outer.content)?.[0];
  if (body?.tag !== tags.sequence) return undefined;
  const [version, serialNumber, , issuer] = readDer(body.content) ?? [];
  if (version?.tag !== tags.context0 || serialNumber?.tag !== tags.integer) return undefined;
  if (issuer?.tag !== tags.sequence) return undefined;
  return { issuer: issuer.whole, serialNumber: serialNumber.whole };
}
