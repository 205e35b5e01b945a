// The integrity string of a package registry: algorithm, a dash, the digest in base64 (W3C Subresource Integrity).
import { createHash, timingSafeEqual } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';

/**
 * Whether the file's bytes have the published digest. Only sha512 is accepted: a weaker one is a mistake.
 * @param {string} file
 * @param {string} integrity
 */
export async function hasIntegrity(file, integrity) {
  const match = /^sha512-([A-Za-z0-9+/]{86}==)$/.exec(integrity);
  if (!match?.[1]) throw new Error(`not a sha512 integrity: ${integrity}`);
  const hash = createHash('sha512');
  await pipeline(createReadStream(file), hash);
  return timingSafeEqual(hash.digest(), Buffer.from(match[1], 'base64'));
}
