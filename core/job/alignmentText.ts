/** The totals of an alignment report in words, without a sign: in or out, to the car's left or right. */
import { formatDeg } from '../units.ts';
import { say } from '../words/index.ts';
import type { AlignmentFacts } from './alignment.ts';

/** Decimals of a degree: alignment reports give hundredths. */
const DECIMALS = 2;

type Way = readonly [
  above: 'alignment.in' | 'alignment.toCarLeft',
  below: 'alignment.out' | 'alignment.toCarRight',
];

function inWords(valueRad: number, [above, below]: Way): string {
  const angle = formatDeg(Math.abs(valueRad), DECIMALS);
  // What rounds to nothing has no direction.
  if (angle === formatDeg(0, DECIMALS)) return say('alignment.zero', { angle });
  return say(valueRad > 0 ? above : below, { angle });
}

/** Label and value of each total that is known: `0.30° in`, `0.05° to the car's left`. */
export function alignmentTexts(
  facts: AlignmentFacts,
): readonly { readonly label: string; readonly value: string }[] {
  const toe: Way = ['alignment.in', 'alignment.out'];
  const line = (key: 'totalFront' | 'totalRear' | 'thrust', valueRad: number | undefined, way: Way) =>
    valueRad === undefined ? [] : [{ label: say(`alignment.${key}`), value: inWords(valueRad, way) }];
  return [
    ...line('totalFront', facts.totalFrontRad, toe),
    ...line('totalRear', facts.totalRearRad, toe),
    ...line('thrust', facts.thrustRad, ['alignment.toCarLeft', 'alignment.toCarRight']),
  ];
}
