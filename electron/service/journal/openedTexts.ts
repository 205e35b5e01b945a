/**
 * Stored texts already hashed and read, by the text itself: what is verified on every read is the same as without, for
 * a changed text is another key. Without it each entry would hash and parse the whole job again.
 */
import { type OpenedText, openText } from '../../../core/job/event.ts';

/** Some forty jobs; a text has about 800 characters. */
const MOST_TEXTS = 5_000;

/** `openText` that remembers the texts met last. */
export function rememberingOpenText(most: number = MOST_TEXTS): (text: string) => OpenedText {
  const known = new Map<string, OpenedText>();
  return (text) => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const opened = openText(text);
    if (known.size >= most) known.delete(known.keys().next().value ?? '');
    known.set(text, opened);
    return opened;
  };
}
