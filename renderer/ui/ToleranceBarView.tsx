/** Draws a tolerance bar; everything it shows stands beside it in words too. */
import type { ReactNode } from 'react';
import type { ToleranceBar, VerdictKind } from '../../core/certificate/document.ts';
import { barPlaces } from './toleranceScale.ts';

const WIDTH = 288;
const HEIGHT = 28;
const MID = 14;

const x = (share: number): number => 6 + share * (WIDTH - 12);

export function ToleranceBarView({
  bar,
  verdict,
}: {
  readonly bar: ToleranceBar;
  readonly verdict: VerdictKind;
}): ReactNode {
  const at = barPlaces(bar);
  const from = x(at.boxFrom);
  const to = x(at.boxTo);
  return (
    <svg className={`bar bar-${verdict}`} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      <path className="bar-scale" d={`M6 ${MID}H${WIDTH - 6}`} />
      <path className="bar-zero" d={`M${x(at.zero)} ${MID - 4}v8`} />
      {at.lower === undefined ? null : <path className="bar-tick" d={`M${x(at.lower)} 2v24`} />}
      {at.upper === undefined ? null : <path className="bar-tick" d={`M${x(at.upper)} 2v24`} />}
      <path
        className="bar-whisker"
        d={`M${x(at.whiskerFrom)} ${MID}H${x(at.whiskerTo)}M${x(at.whiskerFrom)} ${MID - 4}v8M${x(at.whiskerTo)} ${MID - 4}v8`}
      />
      <rect className="bar-box" x={from} y={MID - 7} width={Math.max(to - from, 1)} height={14} />
      <path className="bar-found" d={`M${x(at.found)} ${MID - 10}v20`} />
    </svg>
  );
}
