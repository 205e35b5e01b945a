/**
 * X.509 certificates of the shop: a root that signs itself, and the leaf of one installation (RFC 5280).
 *
 * The leaf carries key usage digitalSignature and nonRepudiation and no extended key usage: with one, common readers
 * call the signer's certificate unsuitable.
 */
import 'reflect-metadata';
import type { X509Certificate } from 'node:crypto';
import {
  AuthorityKeyIdentifierExtension,
  BasicConstraintsExtension,
  KeyUsageFlags,
  KeyUsagesExtension,
  Name,
  SubjectKeyIdentifierExtension,
  X509CertificateGenerator,
} from '@peculiar/x509';

export type KeyAlgorithm = 'rsa3072' | 'ecdsaP256';
/** The key of whichever Web Crypto types are in force: Node's alone, or the window's too where tests have both. */
export type Key = Awaited<ReturnType<typeof crypto.subtle.importKey>>;
export interface KeyPair {
  readonly publicKey: Key;
  readonly privateKey: Key;
}

const algorithms = {
  rsa3072: {
    name: 'RSASSA-PKCS1-v1_5',
    hash: 'SHA-256',
    modulusLength: 3072,
    publicExponent: Uint8Array.of(1, 0, 1),
  },
  ecdsaP256: { name: 'ECDSA', namedCurve: 'P-256' },
} as const;

const importParameters = {
  rsa3072: { name: 'RSASSA-PKCS1-v1_5', hash: 'SHA-256' },
  ecdsaP256: { name: 'ECDSA', namedCurve: 'P-256' },
} as const;

/** A new key pair. The library draws its own randomness from the operating system. */
export function generateKeyPair(algorithm: KeyAlgorithm): Promise<KeyPair> {
  return crypto.subtle.generateKey(algorithms[algorithm], true, ['sign', 'verify']);
}

/** A private key from its PKCS#8 form, to issue with. */
export function importPrivateKey(pkcs8: Uint8Array, algorithm: KeyAlgorithm): Promise<Key> {
  return crypto.subtle.importKey('pkcs8', Buffer.from(pkcs8), importParameters[algorithm], false, ['sign']);
}

/** The public key of a certificate. */
export function importPublicKey(certificate: X509Certificate, algorithm: KeyAlgorithm): Promise<Key> {
  const spki = certificate.publicKey.export({ format: 'der', type: 'spki' });
  return crypto.subtle.importKey('spki', spki, importParameters[algorithm], true, ['verify']);
}

export interface CertificateRequest {
  readonly commonName: string;
  /** 16 random bytes: the serial number no two certificates of a shop share (RFC 5280 clause 4.1.2.2). */
  readonly serial: Uint8Array;
  readonly notBefore: Date;
  readonly notAfter: Date;
  readonly publicKey: Key;
}

export interface Issuer {
  readonly commonName: string;
  readonly privateKey: Key;
  readonly publicKey: Key;
  readonly algorithm: KeyAlgorithm;
}

/** A certificate in DER. Without `isRoot` it is a leaf: it may sign documents and issue nothing. */
export async function issueCertificate(
  request: CertificateRequest,
  issuer: Issuer,
  isRoot: boolean,
): Promise<Uint8Array> {
  const usage = isRoot
    ? KeyUsageFlags.keyCertSign | KeyUsageFlags.cRLSign
    : KeyUsageFlags.digitalSignature | KeyUsageFlags.nonRepudiation;
  const certificate = await X509CertificateGenerator.create(
    {
      serialNumber: serialNumber(request.serial),
      subject: nameOf(request.commonName),
      issuer: nameOf(issuer.commonName),
      notBefore: request.notBefore,
      notAfter: request.notAfter,
      publicKey: request.publicKey,
      signingKey: issuer.privateKey,
      signingAlgorithm: { ...algorithms[issuer.algorithm], hash: 'SHA-256' },
      extensions: [
        new BasicConstraintsExtension(isRoot, isRoot ? 0 : undefined, true),
        new KeyUsagesExtension(usage, true),
        await SubjectKeyIdentifierExtension.create(request.publicKey, false, crypto),
        await AuthorityKeyIdentifierExtension.create(issuer.publicKey, false, crypto),
      ],
    },
    crypto,
  );
  return new Uint8Array(certificate.rawData);
}

/** A name that is one common name, in UTF-8 whatever its letters (RFC 5280 clause 4.1.2.4). */
function nameOf(commonName: string): Name {
  return new Name([{ CN: [{ utf8String: commonName }] }]);
}

/** Positive and not zero, whatever the random bytes are. */
function serialNumber(bytes: Uint8Array): string {
  const serial = Buffer.from(bytes);
  serial[0] = ((serial[0] ?? 0) & 0x3f) | 0x40;
  return serial.toString('hex');
}

/** The private key as PKCS#8 in DER. */
export async function exportPrivateKey(key: Key): Promise<Uint8Array> {
  return new Uint8Array(await crypto.subtle.exportKey('pkcs8', key));
}
