/** Light or dark as chosen here, else as the system says, marked on the root for the tokens. */
import { useEffect } from 'react';
import type { ThemeChoice } from '../state/screenChoice.ts';

export function useTheme(choice: ThemeChoice): void {
  useEffect(() => {
    const dark = window.matchMedia('(prefers-color-scheme: dark)');
    const mark = (): void => {
      const system = dark.matches ? 'dark' : 'light';
      document.documentElement.dataset.theme = choice === 'system' ? system : choice;
    };
    mark();
    dark.addEventListener('change', mark);
    return () => dark.removeEventListener('change', mark);
  }, [choice]);
}
