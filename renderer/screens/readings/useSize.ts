/** The size of an element in CSS pixels, followed as the window changes. */
import { type RefObject, useEffect, useRef, useState } from 'react';

export interface Size {
  readonly width: number;
  readonly height: number;
}

export function useSize<T extends Element>(): readonly [RefObject<T | null>, Size | undefined] {
  const ref = useRef<T>(null);
  const [size, setSize] = useState<Size | undefined>(undefined);
  useEffect(() => {
    const element = ref.current;
    if (element === null) return undefined;
    const observer = new ResizeObserver(([entry]) => {
      const box = entry?.contentRect;
      if (box !== undefined) setSize({ width: Math.floor(box.width), height: Math.floor(box.height) });
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}
