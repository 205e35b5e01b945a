/** What is known of one coordinate: words first, then the picture of the rule, then the verdict. */
import type { ReactNode } from 'react';
import type { CoordinateWords } from '../../text/coordinateWords.ts';
import { ToleranceBarView } from '../../ui/ToleranceBarView.tsx';
import { VerdictMark } from '../../ui/VerdictMark.tsx';

export function CoordinateCard({
  words,
  coordinate,
  compact = false,
}: {
  readonly words: CoordinateWords;
  readonly coordinate: string;
  readonly compact?: boolean;
}): ReactNode {
  return (
    <section className={compact ? 'card card-compact' : 'card'} data-coordinate={coordinate}>
      <div className="card-head">
        <h3>{words.title}</h3>
        <span className="quiet">{words.uncertainty}</span>
      </div>
      <p className="card-words">{words.words}</p>
      {words.bar === undefined || compact ? null : (
        <ToleranceBarView bar={words.bar} verdict={words.verdict} />
      )}
      <VerdictMark
        kind={words.verdict}
        words={words.verdictWords}
        {...(words.probability === '' ? {} : { note: words.probability })}
      />
    </section>
  );
}
