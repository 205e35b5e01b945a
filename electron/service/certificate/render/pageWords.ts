/** Fills the page's words with what only the renderer knows. */
import type { CertificateDocument } from '../../../../core/certificate/document.ts';

/** Replaces `{number}`, `{edition}`, `{page}` and `{pages}`. */
export function fillWords(
  document: Pick<CertificateDocument, 'number' | 'edition'>,
  words: string,
  page = 0,
  pages = 0,
): string {
  const values: Readonly<Record<string, string>> = {
    number: document.number,
    edition: String(document.edition),
    page: String(page),
    pages: String(pages),
  };
  return words.replace(/\{(\w+)\}/g, (whole, name: string) => values[name] ?? whole);
}
