/** The keys that lay a cover over the window: F8 for a person across the bay, F9 to wipe the glass. */
import { useEffect } from 'react';
import { coverOfKey } from './screenChoice.ts';
import { useActions, useWindow } from './windowContext.tsx';

export function useCoverKeys(): void {
  const actions = useActions();
  const cover = useWindow((state) => state.cover);
  const possible = useWindow(
    ({ route }) => route.screen === 'job' && (route.view === 'placement' || route.view === 'stations'),
  );
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const next = event.repeat ? undefined : coverOfKey(event.key, cover, possible);
      if (next === undefined) return;
      event.preventDefault();
      actions.coverWith(next);
    };
    window.addEventListener('keydown', press, true);
    return () => window.removeEventListener('keydown', press, true);
  }, [actions, cover, possible]);
}
