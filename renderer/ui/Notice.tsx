/** A framed message: a caution, or trouble in plain words with what to do next and whether the work is safe. */
import type { ReactNode } from 'react';
import type { CallError } from '../state/ports.ts';
import { errorWords } from '../text/errorWords.ts';
import { Icon } from './Icon.tsx';

export function Notice({
  tone = 'calm',
  title,
  children,
  buttons,
}: {
  readonly tone?: 'calm' | 'trouble';
  readonly title?: string;
  readonly children?: ReactNode;
  readonly buttons?: ReactNode;
}): ReactNode {
  return (
    <section className={`notice notice-${tone}`} role={tone === 'trouble' ? 'alert' : 'note'}>
      <Icon name="caution" />
      <div className="notice-body">
        {title === undefined ? null : <h2>{title}</h2>}
        {children}
      </div>
      {buttons}
    </section>
  );
}

/** What an error means: what happened, what to do next, whether the work is safe, and where to find it in the log. */
export function ErrorNotice({
  error,
  buttons,
}: {
  readonly error: CallError;
  readonly buttons?: ReactNode;
}): ReactNode {
  const words = errorWords(error);
  return (
    <Notice tone="trouble" title={words.what} buttons={buttons}>
      <p>{words.next}</p>
      <p>{words.safe}</p>
      {words.trace === '' ? null : <p className="quiet">{words.trace}</p>}
    </Notice>
  );
}
