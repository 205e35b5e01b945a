/** The words of the page itself in the spoken language: templates, which the renderer fills once it has counted. */
import { invariant } from '../result.ts';
import { templateOf, type WordKey } from '../words/index.ts';
import type { PageWords } from './document.ts';

function template(name: keyof PageWords): string {
  const key: WordKey = `certificate.page.${name}`;
  const words = templateOf(key);
  invariant(words !== undefined, `no words for ${key}`);
  return words;
}

/** The page's words, asked for in the language of the document. */
export function pageWords(): PageWords {
  return {
    pageOf: template('pageOf'),
    numberAndEdition: template('numberAndEdition'),
    end: template('end'),
    recordDigest: template('recordDigest'),
    qrAlt: template('qrAlt'),
    signatureHeading: template('signatureHeading'),
    signatureFieldAlt: template('signatureFieldAlt'),
    signatureReason: template('signatureReason'),
    limitHeading: template('limitHeading'),
    continued: template('continued'),
  };
}
