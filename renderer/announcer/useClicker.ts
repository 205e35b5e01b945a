/** Hears the clicker while a job is open and no cover lies over it but the view for a person across the bay. */
import { useEffect } from 'react';
import { create } from 'zustand';
import { useWindow } from '../state/windowContext.tsx';
import { CLICK_KEYS_KEPT, type Click, type ClickKeys, clickKeysOf, clickReader } from './clicker.ts';

export const useClickKeys = create<{ readonly keys: ClickKeys }>(() => ({
  keys: clickKeysOf(globalThis.localStorage?.getItem(CLICK_KEYS_KEPT) ?? null),
}));

export function keepClickKeys(keys: ClickKeys): void {
  globalThis.localStorage?.setItem(CLICK_KEYS_KEPT, JSON.stringify(keys));
  useClickKeys.setState({ keys });
}

export function useClicker(onClick: (click: Click) => void): void {
  const keys = useClickKeys((state) => state.keys);
  const wiping = useWindow((state) => state.cover === 'wipe');
  useEffect(() => {
    if (wiping) return undefined;
    const read = clickReader(keys);
    const hear = (event: KeyboardEvent): void => {
      const click = event.repeat ? undefined : read(event.key, event.timeStamp);
      const isClicker = Object.values(keys).includes(event.key);
      if (isClicker) event.preventDefault();
      if (click !== undefined) onClick(click);
    };
    window.addEventListener('keydown', hear, true);
    return () => window.removeEventListener('keydown', hear, true);
  }, [keys, wiping, onClick]);
}
