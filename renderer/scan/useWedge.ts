/** Hears a scanner while nothing else wants the keys: no field has the focus, no dialog is open. */
import { useEffect } from 'react';
import { wedgeReader } from './wedge.ts';

function isTakenElsewhere(target: EventTarget | null): boolean {
  if (!(target instanceof Element)) return false;
  return target.closest('input, textarea, select, [contenteditable], [role="dialog"]') !== null;
}

export function useWedge(onText: (text: string) => void): void {
  useEffect(() => {
    const read = wedgeReader();
    const hear = (event: KeyboardEvent): void => {
      if (isTakenElsewhere(event.target) || event.ctrlKey || event.altKey || event.metaKey) return;
      const text = read({ key: event.key, atMs: event.timeStamp });
      if (text === undefined) return;
      // The Enter that ends a scan must not press the button that happens to have the focus.
      event.preventDefault();
      event.stopPropagation();
      onText(text);
    };
    window.addEventListener('keydown', hear, true);
    return () => window.removeEventListener('keydown', hear, true);
  }, [onText]);
}
