/** The common name of a certificate's subject, as it was given and not escaped for a line of text. */
import type { X509Certificate } from 'node:crypto';

export function commonName(certificate: X509Certificate): string {
  const name: unknown = certificate.toLegacyObject().subject.CN;
  return typeof name === 'string' ? name : '?';
}
