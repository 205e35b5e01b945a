// Every wording of the catalogue made a third longer, as another language would be: a build of the window for seeing
// what is cut off then. Slots, numbers and short words stay; the length is inside the words, where none can be broken.
import type { Plugin } from 'vite';

/** A template with each of its words longer by 30 %, rounded up; `{slots}` and what holds a digit stay as they are. */
export function longerWording(template: string): string {
  return template.replace(/\{[^}]*\}|[\p{L}'’]{2,}/gu, (word) =>
    word.startsWith('{') ? word : word + 'n'.repeat(Math.ceil(word.length * 0.3)),
  );
}

const CATALOGUE = /[\\/]core[\\/]words[\\/]index\.ts$/;

/** Lengthens the catalogue as it is loaded, so that everything that speaks through it is longer. */
export const longerWords: Plugin = {
  name: 'longer-words',
  enforce: 'pre',
  transform(code, id) {
    if (!CATALOGUE.test(id)) return null;
    return `${code}
for (const key of WORD_KEYS) WORDS[key] = (${longerWording.toString()})(WORDS[key]);
`;
  },
};
