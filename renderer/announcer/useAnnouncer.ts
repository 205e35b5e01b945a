/** The announcer of this window: on or off, and what it has said. One for all jobs. */
import { useCallback, useEffect } from 'react';
import { create } from 'zustand';
import { LANGUAGE_TAGS, spokenLanguage } from '../../core/words/language.ts';
import type { NextLine } from '../state/nextLine.ts';
import { announce, type Said, type ToneKind, toneOf } from './announcer.ts';
import { windowSound } from './sound.ts';

const KEPT = 'datumline.announcer';

/** A line that changes again within this time was on its way to another, ms. */
const SETTLED_MS = 400;

interface Announcer {
  readonly on: boolean;
  readonly said: readonly Said[];
}

export const useAnnouncerState = create<Announcer>(() => ({
  on: globalThis.localStorage?.getItem(KEPT) === 'on',
  said: [],
}));

const sound = windowSound();

export function switchAnnouncer(on: boolean): void {
  globalThis.localStorage?.setItem(KEPT, on ? 'on' : 'off');
  useAnnouncerState.setState({ on });
}

function say(text: string, kind: ToneKind): void {
  const at = { utcMs: Date.now(), languageTag: LANGUAGE_TAGS[spokenLanguage()] };
  useAnnouncerState.setState(({ said }) => ({ said: announce(text, kind, said, at, sound) }));
}

/** Gives out the line whenever it becomes another; answers the function that says it once more. */
export function useAnnouncer(line: NextLine): () => void {
  const on = useAnnouncerState((state) => state.on);
  const { text } = line;
  const kind = toneOf(line);
  useEffect(() => {
    if (!on || text === '') return undefined;
    const timer = window.setTimeout(() => say(text, kind), SETTLED_MS);
    return () => window.clearTimeout(timer);
  }, [on, text, kind]);
  return useCallback(() => say(text, kind), [text, kind]);
}
