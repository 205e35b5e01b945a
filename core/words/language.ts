/**
 * The languages of the catalogue and the one that is spoken. The language is the single thing in `core` that is set
 * rather than passed: a sentence is asked for in more than a hundred places, all of one window or of one document at a
 * time. An entry point sets it once (`speak`); a text for somebody else is made inside `inLanguage`, which is
 * synchronous, so that nothing else can speak in between.
 */

/** The languages there are wordings for. */
export const LANGUAGES = ['en', 'de'] as const;

/** A language of the catalogue. */
export type Language = (typeof LANGUAGES)[number];

/** The tag of each language as a document or a page states it (BCP 47). */
export const LANGUAGE_TAGS: Readonly<Record<Language, string>> = { en: 'en-GB', de: 'de-DE' };

/** Each language by its own name, as a person who reads only that one looks for it. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' };

let spoken: Language = 'en';

/** The language `say` speaks at this moment. */
export function spokenLanguage(): Language {
  return spoken;
}

/** Sets the language from now on: for an entry point (window, command line), never for one sentence. */
export function speak(language: Language): void {
  spoken = language;
}

/** What `make` returns while `language` is spoken; the language before it speaks again afterwards, also after a throw. */
export function inLanguage<T>(language: Language, make: () => T extends PromiseLike<unknown> ? never : T): T {
  const before = spoken;
  spoken = language;
  try {
    return make();
  } finally {
    spoken = before;
  }
}

/** The language of a tag (`de`, `de-DE`, `de_AT`), or undefined where the catalogue does not speak it. */
export function languageOfTag(tag: string): Language | undefined {
  const first = tag.toLowerCase().split(/[-_]/)[0];
  return LANGUAGES.find((language) => language === first);
}
