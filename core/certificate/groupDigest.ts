/** A digest in groups of eight digits, which an eye can compare: `3b7e01aa 94...`. */
export function groupDigest(digest: string): string {
  return digest.match(/.{1,8}/g)?.join(' ') ?? digest;
}
