/**
 * A clicker, a foot switch or a spare keypad that acts as a keyboard: two buttons are enough to follow the next action
 * from the fixture. Which key does what is learned from the device and kept on this PC.
 */

/** What a button can do. `next` does what the line at the top asks: done, or open, or begin the next reading. */
export const CLICKS = ['next', 'repeat', 'moved'] as const;
export type Click = (typeof CLICKS)[number];

export type ClickKeys = Readonly<Record<Click, string>>;

/** What most clickers send for "on" and "again"; the third has none until it is learned (common practice, no source). */
export const DEFAULT_KEYS: ClickKeys = { next: 'PageDown', repeat: 'PageUp', moved: '' };

export const CLICK_KEYS_KEPT = 'datumline.clicker';

/** Keys that write, move the focus or already mean something here can be no clicker's. */
export function mayBeClicker(key: string): boolean {
  if (key.length === 1) return false;
  const taken = [
    'Enter',
    'Escape',
    'Tab',
    'Backspace',
    'Delete',
    'Shift',
    'Control',
    'Alt',
    'Meta',
    'F8',
    'F9',
  ];
  return (
    !taken.includes(key) && !key.startsWith('Arrow') && !['Unidentified', 'Dead', 'Process'].includes(key)
  );
}

/** What was kept; anything else is the default. */
export function clickKeysOf(kept: string | null): ClickKeys {
  try {
    const read: unknown = JSON.parse(kept ?? '');
    if (typeof read !== 'object' || read === null) return DEFAULT_KEYS;
    const entries = Object.entries(read);
    const keyOf = (click: Click): string => {
      const found = entries.find(([name]) => name === click)?.[1];
      return typeof found === 'string' && (found === '' || mayBeClicker(found)) ? found : DEFAULT_KEYS[click];
    };
    return { next: keyOf('next'), repeat: keyOf('repeat'), moved: keyOf('moved') };
  } catch {
    return DEFAULT_KEYS;
  }
}

/** The keys with one learned anew; a key has one meaning, so another click gives it up. */
export function learned(keys: ClickKeys, click: Click, key: string): ClickKeys {
  const freed = Object.fromEntries(CLICKS.map((each) => [each, keys[each] === key ? '' : keys[each]]));
  return clickKeysOf(JSON.stringify({ ...freed, [click]: key }));
}

/** A second press within this time is the first one bouncing, ms. */
export const BOUNCE_MS = 700;

/** Reads keys as clicks, each press once. */
export function clickReader(keys: ClickKeys): (key: string, atMs: number) => Click | undefined {
  let lastMs = Number.NEGATIVE_INFINITY;
  return (key, atMs) => {
    const click = CLICKS.find((each) => keys[each] !== '' && keys[each] === key);
    if (click === undefined || atMs - lastMs < BOUNCE_MS) return undefined;
    lastMs = atMs;
    return click;
  };
}
