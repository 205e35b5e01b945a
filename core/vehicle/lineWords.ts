/** What is to be set on the fixture, and whether the lines differ, as word keys with their values: sides, never signs. */
import { formatDeg, formatLength, type LengthUnit } from '../units.ts';
import type { SlotValues } from '../words/say.ts';
import type { FixtureSetting } from './fixtureSetting.ts';
import type { LineDifference } from './lineDifference.ts';

/** A sentence of the catalogue that is still to be said. */
export interface Sentence<Key extends string> {
  readonly key: Key;
  readonly values: SlotValues;
}

/** Leans below this are told as upright, rad: 0.005 degrees, which no inclinometer in a bay shows. */
const UPRIGHT_RAD = 0.00009;
/** A number that differs by less from level ground needs no reason, mm. */
const LEVEL_MM = 0.5;

/**
 * What to set on a fixture whose face looks at the car: the scale, the lean, and why the number is not the procedure's own.
 */
export function settingSentences(
  setting: FixtureSetting,
  unit: LengthUnit = 'mm',
): readonly Sentence<`fixture.set.${'scale' | 'leanToward' | 'leanAway' | 'upright' | 'why.less' | 'why.more'}`>[] {
  const pitch = setting.pitch.value;
  const amount = formatDeg(Math.abs(pitch), 2);
  const over = setting.overLevelMm;
  return [
    { key: 'fixture.set.scale', values: { number: formatLength(setting.scale.value, 0, unit) } },
    Math.abs(pitch) < UPRIGHT_RAD
      ? { key: 'fixture.set.upright', values: {} }
      : { key: pitch > 0 ? 'fixture.set.leanToward' : 'fixture.set.leanAway', values: { amount } },
    ...(Math.abs(over) < LEVEL_MM
      ? []
      : [
          {
            key: over > 0 ? 'fixture.set.why.more' : 'fixture.set.why.less',
            values: { amount: formatLength(Math.abs(over), 0, unit) },
          } as const,
        ]),
  ];
}

/** Whether thrust line and centreline differ, with the angle and its U. */
export function differenceSentence(
  difference: LineDifference,
): Sentence<'datum.linesDiffer' | 'datum.linesAlike'> {
  return {
    key: difference.differs ? 'datum.linesDiffer' : 'datum.linesAlike',
    values: {
      angle: formatDeg(Math.abs(difference.angleRad), 2),
      expanded: formatDeg(difference.expandedRad, 2),
    },
  };
}
