/** A line of text as large as fits its width: the first of some sizes at which nothing of it is cut. */
import { type RefObject, useEffect, useLayoutEffect, useRef, useState } from 'react';

/**
 * The element to measure and its size in CSS pixels. `sizes` fall from the largest; `first` is where to start in a window
 * of this width. Starts anew with another text or another width of the window.
 */
export function useFittingSize<E extends HTMLElement>(
  text: string,
  sizes: readonly number[],
  first: () => number = () => 0,
): readonly [RefObject<E | null>, number] {
  const ref = useRef<E>(null);
  const [fit, setFit] = useState(() => ({ text, step: first() }));
  useEffect(() => {
    const start = (): void => setFit((before) => ({ ...before, step: first() }));
    window.addEventListener('resize', start);
    return () => window.removeEventListener('resize', start);
  }, [first]);
  useLayoutEffect(() => {
    const element = ref.current;
    if (fit.text !== text) setFit({ text, step: first() });
    else if (element !== null && element.scrollWidth > element.clientWidth && fit.step < sizes.length - 1) {
      setFit({ text, step: fit.step + 1 });
    }
  });
  return [ref, sizes[fit.step] ?? sizes.at(-1) ?? 16];
}
