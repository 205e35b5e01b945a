/**
 * Who signed: the leaf of an installation, issued by a shop root that signs itself (RFC 5280 clause 6, reduced to the
 * one shape of chain this program makes).
 */
import type { X509Certificate } from 'node:crypto';
import { commonName } from '../../keys/commonName.ts';
import type { Chain } from '../sign/cms.ts';
import { derOid, readDer, tags } from '../sign/der.ts';

export interface SignerFinding {
  readonly state: 'good' | 'chain' | 'time';
  /** The common name of the leaf. */
  readonly name: string;
  /** SHA-256 of the root certificate, 64 lower-case digits. */
  readonly rootFingerprint: string;
}

type Certificates = readonly [X509Certificate, ...X509Certificate[]];

export function examineSigner(chain: Chain, certificates: Certificates, at: Date): SignerFinding {
  const [leaf] = certificates;
  const root = certificates.at(-1) ?? leaf;
  const about = {
    name: commonName(leaf),
    rootFingerprint: root.fingerprint256.replaceAll(':', '').toLowerCase(),
  };
  if (!isProperChain(chain, certificates)) return { state: 'chain', ...about };
  const holds = certificates.every(
    (certificate) => certificate.validFromDate <= at && at <= certificate.validToDate,
  );
  return { state: holds ? 'good' : 'time', ...about };
}

function isProperChain(chain: Chain, certificates: Certificates): boolean {
  const [leaf, root, ...more] = certificates;
  if (root === undefined || more.length > 0) return false;
  if (leaf.ca || !root.ca) return false;
  if (!leaf.checkIssued(root) || !root.checkIssued(root)) return false;
  if (!verifies(leaf, root) || !verifies(root, root)) return false;
  return maySign(chain[0]);
}

function verifies(certificate: X509Certificate, issuer: X509Certificate): boolean {
  try {
    return certificate.verify(issuer.publicKey);
  } catch {
    // A key that OpenSSL refuses verifies nothing.
    return false;
  }
}

const keyUsage = derOid('2.5.29.15');
const extendedKeyUsage = derOid('2.5.29.37');
const digitalSignatureBit = 0x80;
const extensionsTag = 0xa3;

/** Key usage digitalSignature, and no extended usage that would narrow it to something else. */
function maySign(certificate: Uint8Array): boolean {
  const body = readDer(readDer(certificate)?.[0]?.content ?? new Uint8Array(0))?.[0];
  const list = readDer(body?.content ?? new Uint8Array(0))?.find((element) => element.tag === extensionsTag);
  const extensions =
    readDer(readDer(list?.content ?? new Uint8Array(0))?.[0]?.content ?? new Uint8Array(0)) ?? [];
  let signs = false;
  for (const extension of extensions) {
    const parts = readDer(extension.content) ?? [];
    const name = parts[0]?.whole ?? new Uint8Array(0);
    if (Buffer.compare(name, extendedKeyUsage) === 0) return false;
    if (Buffer.compare(name, keyUsage) !== 0) continue;
    const bits = readDer(parts.at(-1)?.content ?? new Uint8Array(0))?.[0];
    signs = bits?.tag === tags.bitString && ((bits.content[1] ?? 0) & digitalSignatureBit) !== 0;
  }
  return signs;
}
