/**
 * Says the next action aloud for a person who looks at the fixture: in words where the PC has a voice of the language, in
 * tones where it has none. Whatever is said stands in a list in the window: nothing is only heard.
 */
import type { NextLine } from '../state/nextLine.ts';

/** What a tone means: something is to be moved, something is to be read or entered, something is finished here. */
export type ToneKind = 'move' | 'next' | 'finished';

/** How a line was given out. */
export type Given = 'voice' | 'tone';

export interface Said {
  readonly atUtcMs: number;
  readonly text: string;
  readonly given: Given;
}

/** Sound, handed in: the window's own, or a test's. */
export interface Sound {
  /** Speaks and answers true, or answers false where there is no voice for the language. */
  speak(text: string, languageTag: string): boolean;
  tone(kind: ToneKind): void;
}

/** As many as a person looks back for. */
export const MOST_KEPT = 20;

export function toneOf(line: NextLine): ToneKind {
  if (line.moves.length > 0) return 'move';
  return line.go === undefined ? 'next' : 'finished';
}

/** Gives a line out and answers the list with it at the top. */
export function announce(
  text: string,
  kind: ToneKind,
  before: readonly Said[],
  at: { readonly utcMs: number; readonly languageTag: string },
  sound: Sound,
): readonly Said[] {
  const spoken = sound.speak(text, at.languageTag);
  if (!spoken) sound.tone(kind);
  const said: Said = { atUtcMs: at.utcMs, text, given: spoken ? 'voice' : 'tone' };
  return [said, ...before].slice(0, MOST_KEPT);
}
