/**
 * The keys of a shop. First run makes a root, whose encrypted file is handed to the owner and is not kept here, and a
 * leaf for this installation. Another bay's leaf is issued later with the owner's file and passphrase.
 */
import { X509Certificate } from 'node:crypto';
import { err, ok, type Result } from '../../../core/result.ts';
import { commonName } from './commonName.ts';
import {
  exportPrivateKey,
  generateKeyPair,
  type Issuer,
  importPrivateKey,
  importPublicKey,
  issueCertificate,
  type KeyAlgorithm,
  type KeyPair,
} from './issueCertificate.ts';
import { type KeyError, openKey, type RandomBytes, sealKey } from './keyFile.ts';

/** Years a certificate holds: a root outlives the work it vouches for, a leaf is renewed with the PC. */
const rootYears = 25;
const leafYears = 10;
const serialBytes = 16;

export interface InstallationRequest {
  readonly shopName: string;
  /** The leaf's name beside the shop's, for example `bay 2`. */
  readonly installationName: string;
  readonly passphrase: string;
  readonly now: Date;
  readonly random: RandomBytes;
  /** RSA 3072 where nothing is said: it signs the same bytes the same way, so an interrupted issue ends in the same file. */
  readonly algorithm?: KeyAlgorithm;
}

export interface ShopRequest extends InstallationRequest {
  /** The owner's own passphrase, for the file that leaves the PC. */
  readonly rootPassphrase: string;
}

export interface ShopKeys {
  /** The owner's file: written where the owner says, kept nowhere else. */
  readonly rootFile: Uint8Array;
  /** This installation's file. */
  readonly leafFile: Uint8Array;
  /** SHA-256 of the root certificate, 64 lower-case digits: what others compare. */
  readonly rootFingerprint: string;
}

/** Makes root and leaf. */
export async function createShopKeys(request: ShopRequest): Promise<ShopKeys> {
  const algorithm = request.algorithm ?? 'rsa3072';
  const pair = await generateKeyPair(algorithm);
  const issuer: Issuer = { ...pair, commonName: request.shopName, algorithm };
  const certificate = await issueCertificate(
    {
      commonName: request.shopName,
      serial: request.random(serialBytes),
      notBefore: request.now,
      notAfter: yearsLater(request.now, rootYears),
      publicKey: pair.publicKey,
    },
    issuer,
    true,
  );
  const pkcs8 = await exportPrivateKey(pair.privateKey);
  const rootFile = await sealKey(
    { purpose: 'shopRoot', pkcs8, chain: [certificate] },
    request.rootPassphrase,
    request.random,
  );
  const leafFile = await issueLeaf(request, issuer, certificate);
  return { rootFile, leafFile, rootFingerprint: fingerprintOf(certificate) };
}

/** Makes the leaf of a further installation with the owner's root file. */
export async function createInstallationKey(
  request: InstallationRequest,
  rootFile: Uint8Array,
  rootPassphrase: string,
): Promise<Result<Uint8Array, KeyError>> {
  const root = await openKey(rootFile, rootPassphrase);
  if (!root.ok) return root;
  if (root.value.purpose !== 'shopRoot') return err({ code: 'keys/damaged' });
  const [der] = root.value.chain;
  const certificate = new X509Certificate(der);
  const isRsa = certificate.publicKey.asymmetricKeyType === 'rsa';
  const algorithm: KeyAlgorithm = isRsa ? 'rsa3072' : 'ecdsaP256';
  const privateKey = await importPrivateKey(root.value.pkcs8, algorithm);
  const publicKey = await importPublicKey(certificate, algorithm);
  const issuer: Issuer = { privateKey, publicKey, algorithm, commonName: commonName(certificate) };
  return ok(await issueLeaf(request, issuer, der));
}

async function issueLeaf(
  request: InstallationRequest,
  issuer: Issuer,
  root: Uint8Array,
): Promise<Uint8Array> {
  const pair: KeyPair = await generateKeyPair(request.algorithm ?? 'rsa3072');
  const rootEnd = new X509Certificate(root).validToDate.getTime();
  const end = Math.min(rootEnd, yearsLater(request.now, leafYears).getTime());
  const certificate = await issueCertificate(
    {
      commonName: `${request.shopName}, ${request.installationName}`,
      serial: request.random(serialBytes),
      notBefore: request.now,
      notAfter: new Date(end),
      publicKey: pair.publicKey,
    },
    issuer,
    false,
  );
  const pkcs8 = await exportPrivateKey(pair.privateKey);
  const chain = [certificate, root] as const;
  return sealKey({ purpose: 'installation', pkcs8, chain: [...chain] }, request.passphrase, request.random);
}

/** SHA-256 of a certificate in DER, 64 lower-case digits. */
export function fingerprintOf(certificate: Uint8Array): string {
  return new X509Certificate(certificate).fingerprint256.replaceAll(':', '').toLowerCase();
}

function yearsLater(moment: Date, years: number): Date {
  const later = new Date(moment);
  later.setUTCFullYear(moment.getUTCFullYear() + years);
  return later;
}
