/** One part of the gallery: a title, and lines of the same component in its states. */
import type { ReactNode } from 'react';

export function Part({
  title,
  children,
}: {
  readonly title: string;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <section className="gallery-part">
      <h2 className="overline">{title}</h2>
      {children}
    </section>
  );
}

export function Line({ children }: { readonly children: ReactNode }): ReactNode {
  return <div className="gallery-line">{children}</div>;
}
