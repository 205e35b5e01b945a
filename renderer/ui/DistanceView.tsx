/**
 * What is read across the bay: the next action, three numbers with words and arrows, one row of verdicts; nothing else.
 * Digits stand a fifth of the window high. A touch anywhere, Escape or F8 leads out again.
 */
import type { ReactNode } from 'react';
import { Dialog, Modal, ModalOverlay } from 'react-aria-components';
import type { VerdictKind } from '../../core/certificate/document.ts';
import { say } from '../../core/words/index.ts';
import { useFittingSize } from './useFittingSize.ts';
import { VerdictMark } from './VerdictMark.tsx';

/** Where the fixture, or an end of it, goes, seen by a person who faces the car. */
export type Arrow = 'toward' | 'away' | 'handLeft' | 'handRight' | 'clockwise' | 'counter' | 'stay';

export interface DistanceRow {
  readonly key: string;
  readonly title: string;
  /** "12.0". */
  readonly amount: string;
  readonly unit: string;
  readonly words: string;
  readonly arrow: Arrow;
  readonly verdict: VerdictKind;
  readonly verdictWords: string;
}

/** 2 px strokes on a 24 grid, as the icons. */
const ARROWS: Readonly<Record<Arrow, string>> = {
  toward: 'M12 21V3M5 10l7-7 7 7',
  away: 'M12 3v18M5 14l7 7 7-7',
  handLeft: 'M21 12H3M10 5l-7 7 7 7',
  handRight: 'M3 12h18M14 5l7 7-7 7',
  clockwise: 'M4 13a8 8 0 0 1 15-4M20 3v6.5h-6.5',
  counter: 'M20 13a8 8 0 0 0-15-4M4 3v6.5h6.5',
  stay: 'm4 13 5.5 5.5L20 7',
};

/** Sizes of the line, CSS pixels. */
const SIZES = [72, 64, 56, 48, 44, 40, 36, 32, 28, 24, 20] as const;

function Row({ row }: { readonly row: DistanceRow }): ReactNode {
  return (
    <li className="distance-row" data-row={row.key} data-arrow={row.arrow}>
      <span className="distance-amount">
        {row.amount}
        <span className="distance-unit">{row.unit}</span>
      </span>
      <svg className="distance-arrow" viewBox="0 0 24 24" aria-hidden="true">
        <path d={ARROWS[row.arrow]} />
      </svg>
      <span className="distance-words">
        <span className="overline">{row.title}</span>
        {row.words}
      </span>
    </li>
  );
}

/** The three parts of the view, for whatever holds them: the cover over the window, or a window of its own. */
export function DistanceBody({
  line,
  rows,
  empty,
  note,
}: {
  readonly line: string;
  readonly rows: readonly DistanceRow[];
  /** Said instead of the numbers while there are none. */
  readonly empty: string;
  /** Said of numbers that are typed and not recorded. */
  readonly note?: string;
}): ReactNode {
  const [ref, size] = useFittingSize<HTMLHeadingElement>(line, SIZES);
  return (
    <>
      <h1 ref={ref} className={`distance-line distance-line-${size}`} aria-live="polite">
        {line}
      </h1>
      {rows.length === 0 ? <p className="distance-empty">{empty}</p> : null}
      <ul className="distance-rows">
        {rows.map((row) => (
          <Row key={row.key} row={row} />
        ))}
      </ul>
      <div className="distance-verdicts" data-testid="distance-verdicts">
        {note === undefined
          ? rows.map((row) => (
              <div key={row.key} className="distance-verdict">
                <span className="overline">{row.title}</span>
                <VerdictMark kind={row.verdict} words={row.verdictWords} />
              </div>
            ))
          : note}
      </div>
    </>
  );
}

export function DistanceView({
  onClose,
  ...body
}: Parameters<typeof DistanceBody>[0] & { readonly onClose: () => void }): ReactNode {
  return (
    <ModalOverlay className="cover" isOpen isDismissable onOpenChange={onClose}>
      <Modal className="cover-frame">
        <Dialog aria-label={say('distance.title')} className="distance" data-testid="distance">
          <DistanceBody {...body} />
          <button
            type="button"
            className="distance-close"
            aria-label={say('distance.close')}
            data-testid="distance-close"
            onClick={onClose}
          />
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
