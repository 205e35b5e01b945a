/** Where a station wants its target, in words: an amount and a side from its datum, never a signed number. */
import type { StationRequirement } from '../../core/placement/requirement.ts';
import { say } from '../../core/words/index.ts';
import { lengthText } from './lengthText.ts';

/** Below this a target stands on its line, mm. */
const ON_LINE_MM = 0.05;

/** Along the car, across it, and its height. */
export function requiredWords({ ahead, left, up }: StationRequirement): readonly string[] {
  const amount = (mm: number): string => lengthText(Math.abs(mm), 0);
  const line = say(`stations.datum.${left.from}`);
  return [
    say('stations.required.ahead', {
      amount: amount(ahead.value),
      datum: say(`stations.datum.${ahead.from}`),
    }),
    Math.abs(left.value) < ON_LINE_MM
      ? say('stations.required.leftNone', { datum: line })
      : say('stations.required.left', {
          amount: amount(left.value),
          side: say(left.value > 0 ? 'side.carLeft' : 'side.carRight'),
          datum: line,
        }),
    say('stations.required.up', { amount: amount(up.value), datum: say(`stations.datum.${up.from}`) }),
  ];
}
