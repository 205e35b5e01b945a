/** Brings a field that a list led to into sight and gives it the focus, once. */
import { useEffect } from 'react';
import { useActions, useWindow } from './windowContext.tsx';

/** The key that assessment gives a reading slot: `reading:bar.sameL@` or `reading:slide@carLeft550`. */
export function readingFocusKey(spec: { readonly id: string; readonly station?: string }): string {
  return `reading:${spec.id}@${spec.station ?? ''}`;
}

export function useFocusKey(): void {
  const focus = useWindow((state) => state.focus);
  const actions = useActions();
  useEffect(() => {
    if (focus === null || focus.startsWith('reading:')) return;
    const field = document.querySelector(`[data-field="${CSS.escape(focus)}"]`);
    field?.scrollIntoView({ block: 'center' });
    field?.querySelector<HTMLElement>('input, button')?.focus();
    if (field !== null) actions.lookAt(null);
  }, [focus, actions]);
}
