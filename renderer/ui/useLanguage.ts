/** The language of the page as a reader for the blind and the hyphenation must know it. */
import { useEffect } from 'react';
import { LANGUAGE_TAGS, type Language } from '../../core/words/index.ts';

export function useLanguage(language: Language): void {
  useEffect(() => {
    document.documentElement.lang = LANGUAGE_TAGS[language];
  }, [language]);
}
