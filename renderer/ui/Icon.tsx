/** Our own small set of icons: 2 px strokes on a 24 grid. An icon always stands beside its word. */
import type { ReactNode } from 'react';

const PATHS = {
  home: 'M4 11 12 4l8 7M6 9.5V20h12V9.5M10 20v-6h4v6',
  add: 'M12 5v14M5 12h14',
  search: 'M10.5 17a6.5 6.5 0 1 0 0-13 6.5 6.5 0 0 0 0 13ZM15.5 15.5 20 20',
  person: 'M12 12a4 4 0 1 0 0-8 4 4 0 0 0 0 8ZM4 20c1-4 4-5.5 8-5.5s7 1.5 8 5.5',
  history: 'M4 12a8 8 0 1 0 2.5-5.8L4 8.5M4 4v4.5h4.5M12 8v4.5l3 2',
  strike: 'M4 12h16M8 5h8M7 19h10',
  repeat: 'M5 10a7 7 0 0 1 12-3.5L20 9M20 4v5h-5M19 14a7 7 0 0 1-12 3.5L4 15M4 20v-5h5',
  turn: 'M12 4a8 8 0 1 1-7.4 5M4 4v5h5',
  enter: 'M19 5v8H6M10 9l-4 4 4 4',
  done: 'm5 13 4.5 4.5L19 7',
  moved: 'M12 4v16M4 12h16M9 7l3-3 3 3M9 17l3 3 3-3M7 9l-3 3 3 3M17 9l3 3-3 3',
  document: 'M6 3h8l4 4v14H6ZM14 3v4h4M9 12h6M9 16h6',
  check: 'M12 3 5 6v6c0 4 3 7 7 9 4-2 7-5 7-9V6ZM9 12l2.2 2.2L15.5 10',
  caution: 'M12 4 3 20h18ZM12 10v5M12 17.6v.2',
  close: 'M6 6l12 12M18 6 6 18',
  down: 'm6 9 6 6 6-6',
  sensor: 'M5 12a7 7 0 0 1 14 0M8 12a4 4 0 0 1 8 0M12 12v8M8 20h8',
  shop: 'M4 10h16v10H4ZM4 10l2-6h12l2 6M10 20v-5h4v5',
  go: 'M5 12h14M13 6l6 6-6 6',
  keypad: 'M6 5h.01M12 5h.01M18 5h.01M6 11h.01M12 11h.01M18 11h.01M6 17h.01M12 17h.01M18 17h.01',
  far: 'M3 12s3.5-6 9-6 9 6 9 6-3.5 6-9 6-9-6-9-6ZM12 14.5a2.5 2.5 0 1 0 0-5 2.5 2.5 0 0 0 0 5Z',
  second: 'M3 5h12v9H3ZM17 8h4v10H9v-2M6 18h1',
  camera: 'M4 8h4l1.5-2.5h5L16 8h4v11H4ZM12 16.5a3.5 3.5 0 1 0 0-7 3.5 3.5 0 0 0 0 7Z',
  code: 'M4 5v14M7.5 5v14M10 5v14M14 5v14M16 5v14M20 5v14',
  speak: 'M5 9.5v5h3.5L13 19V5L8.5 9.5ZM16 9a4 4 0 0 1 0 6M18.5 6.5a8 8 0 0 1 0 11',
  lock: 'M8 11V8a4 4 0 0 1 8 0v3M5 11h14v9H5Z',
  erase: 'M9 6h11v12H9l-6-6ZM12 10l4 4M16 10l-4 4',
  sideView: 'M3 20h18M5 16h9l2-5h-4l-2 2H6ZM19 20V6M16.5 6h5',
  save: 'M12 4v11M7.5 10.5 12 15l4.5-4.5M5 20h14',
} as const;

export type IconName = keyof typeof PATHS;

/** All icons, for whoever looks at them together. */
export const ICON_NAMES = Object.keys(PATHS) as readonly IconName[];

export function Icon({ name }: { readonly name: IconName }): ReactNode {
  return (
    <svg className="icon" viewBox="0 0 24 24" aria-hidden="true">
      <path d={PATHS[name]} />
    </svg>
  );
}

/** The mark of the product: a plumb line over a datum triangle. */
export function ProductMark({ size }: { readonly size: number }): ReactNode {
  return (
    <svg width={size} height={size} viewBox="0 0 24 24" aria-hidden="true">
      <path d="M4 22 12 13l8 9Z" fill="none" stroke="currentColor" strokeWidth="2" strokeLinejoin="round" />
      <path d="M12 1.5V8" stroke="var(--accent)" strokeWidth="2" strokeLinecap="round" />
      <path d="M9.8 7.5h4.4L12 12.5Z" fill="var(--accent)" />
    </svg>
  );
}
