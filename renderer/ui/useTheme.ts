/** Light or dark as the system says, marked on the root for the tokens. */
import { useEffect } from 'react';

export function useTheme(): void {
  useEffect(() => {
    const dark = window.matchMedia('(prefers-color-scheme: dark)');
    const mark = (): void => {
      document.documentElement.dataset.theme = dark.matches ? 'dark' : 'light';
    };
    mark();
    dark.addEventListener('change', mark);
    return () => dark.removeEventListener('change', mark);
  }, []);
}
