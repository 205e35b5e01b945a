/** What was typed of a procedure and not recorded yet, kept on this PC: a reload or a power cut loses nothing. */
import type { ProcedureDraft } from './procedureDraft.ts';

const KEPT = 'datumline.procedureDraft.';

/** Where texts outlive the window. */
export interface DraftPlace {
  readonly read: (key: string) => string | null;
  readonly write: (key: string, value: string) => void;
  readonly remove: (key: string) => void;
}

/** The window's own place. */
export const localPlace: DraftPlace = {
  read: (key) => window.localStorage.getItem(key),
  write: (key, value) => window.localStorage.setItem(key, value),
  remove: (key) => window.localStorage.removeItem(key),
};

function isDraft(value: unknown, like: ProcedureDraft): value is ProcedureDraft {
  if (typeof value !== 'object' || value === null) return false;
  return Object.entries(like).every(([key, part]) => {
    const kept: unknown = Reflect.get(value, key);
    return part === undefined || (typeof kept === typeof part && Array.isArray(kept) === Array.isArray(part));
  });
}

/** The draft kept under a name, or undefined: none, or one of another shape than `like`. */
export function keptDraft(place: DraftPlace, name: string, like: ProcedureDraft): ProcedureDraft | undefined {
  const text = place.read(KEPT + name);
  if (text === null) return undefined;
  try {
    const value: unknown = JSON.parse(text);
    return isDraft(value, like) ? value : undefined;
  } catch {
    return undefined;
  }
}

export function keepDraft(place: DraftPlace, name: string, draft: ProcedureDraft): void {
  place.write(KEPT + name, JSON.stringify(draft));
}

export function forgetDraft(place: DraftPlace, name: string): void {
  place.remove(KEPT + name);
}
