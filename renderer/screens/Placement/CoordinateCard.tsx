/** What is known of one coordinate: the verdict, the deviation in words, and the picture of the rule. */
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
        <h2 className="overline">{words.title}</h2>
        <VerdictMark kind={words.verdict} words={words.verdictWords} />
      </div>
      <p className="card-words">{words.words}</p>
      {words.bar === undefined ? null : <ToleranceBarView bar={words.bar} verdict={words.verdict} />}
      {compact ? null : (
        <>
          <p className="card-foot">
            <span>{words.uncertainty}</span>
            <span data-testid="probability">{words.probability}</span>
          </p>
          {words.consequence === '' ? null : (
            <p className="card-foot" data-testid="consequence">
              {words.consequence}
            </p>
          )}
        </>
      )}
    </section>
  );
}
