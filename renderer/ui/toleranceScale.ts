/**
 * The picture of the decision rule: tolerance as ticks, the found deviation as a line, what the rule adds as a box
 * round it, U as whiskers. *Proven* means that the box lies between the ticks. Positions are shares of the width.
 */
import type { ToleranceBar } from '../../core/certificate/document.ts';

export interface BarPlaces {
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly zero: number;
  readonly found: number;
  readonly boxFrom: number;
  readonly boxTo: number;
  readonly whiskerFrom: number;
  readonly whiskerTo: number;
  /** True when the found value lies beyond the scale and is drawn at its end. */
  readonly beyond: boolean;
}

/** How much wider than the tolerance the scale is on each side. */
const MARGIN = 1.6;

/** Places on a scale that keeps the tolerance large: what lies farther out is drawn at the end of the scale. */
export function barPlaces(bar: ToleranceBar): BarPlaces {
  const limit = Math.max(Math.abs(bar.lower ?? 0), Math.abs(bar.upper ?? 0));
  const reach =
    (limit > 0 ? limit : Math.max(Math.abs(bar.found), bar.boxHalfWidth, Number.MIN_VALUE)) * MARGIN;
  const place = (value: number): number => Math.min(1, Math.max(0, (value / reach + 1) / 2));
  const whisker = bar.whiskerHalfWidth ?? bar.boxHalfWidth;
  return {
    lower: bar.lower === undefined ? undefined : place(bar.lower),
    upper: bar.upper === undefined ? undefined : place(bar.upper),
    zero: 0.5,
    found: place(bar.found),
    boxFrom: place(bar.found - bar.boxHalfWidth),
    boxTo: place(bar.found + bar.boxHalfWidth),
    whiskerFrom: place(bar.found - whisker),
    whiskerTo: place(bar.found + whisker),
    beyond: Math.abs(bar.found) > reach,
  };
}
