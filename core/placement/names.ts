/**
 * Names inside the network, and the way from them to what a person knows. A point is `@` and its name, a reading is
 * its slot key, and what is known beforehand has a name of its own; several of those are told as one thing.
 */
import type { RecipeWordKey } from '../words/recipe.ts';
import type { VehiclePoint } from './found.ts';
import type { CarSide, Wheel } from './placementReading.ts';

/** A network point's name. */
export const pointId = (
  point: VehiclePoint | 'target' | 'floorUnder.target' | `floorUnder.${CarSide}`,
): string => `@${point}`;
/** The hub centre of a wheel. */
export const hubId = (wheel: Wheel): string => pointId(`hub.${wheel}`);
/** The floor mark of a wheel. */
export const markId = (wheel: Wheel): string => pointId(`mark.${wheel}`);
/** The floor mark under a bar end. */
export const barMarkId = (side: CarSide): string => pointId(`floorUnder.${side}`);
/** The fixture as a body. */
export const FIXTURE_ID = 'fixture';
/** The staff's reading error of a slide, the height's at that slide, and the bar's tilt under the slid target. */
export const slideErrorId = (station: string): string => `slide@${station}`;
/** Error of the height read at a slide. */
export const slideHeightErrorId = (station: string): string => `target.height@${station}`;
/** Tilt of the bar under the slid target. */
export const slideTiltId = (station: string): string => `slideTilt@${station}`;

/** Prefixes of network sources that are told as one known thing; the first that fits counts. */
const KNOWN: readonly (readonly [string, string])[] = [
  ['@barEnd.', 'fixture.bar'],
  ['@target', 'fixture.face'],
  ['plumb.barEnd.', 'plumb.barEnd'],
  ['plumb.target', 'plumb.target'],
  ['floorBeyond.', 'floor.beyond'],
  ['bodyFace.', 'bodyFace'],
  ['slideTilt@', 'slide.tilt'],
  ['sideArm.left', 'sideArm.left'],
  ['sideArm.right', 'sideArm.right'],
  ['line.', ''],
];

/** The name a share of the variance is told under: a reading's slot key, or a known thing (`sideArm.left`). */
export function shareName(source: string): string {
  if (source.startsWith('tape:')) return source.endsWith(':scale') ? 'tape.scale' : 'tape.hook';
  for (const [prefix, name] of KNOWN) if (source.startsWith(prefix)) return name === '' ? source : name;
  return source.endsWith(':height') ? source.slice(0, -':height'.length) : source;
}

const KNOWN_WORDS: Readonly<Record<string, RecipeWordKey>> = {
  'sideArm.left': 'known.sideArm.left',
  'sideArm.right': 'known.sideArm.right',
  'tape.scale': 'known.tape.scale',
  'tape.hook': 'known.tape.hook',
  'line.ahead.L': 'known.line.ahead.L',
  'line.ahead.R': 'known.line.ahead.R',
  'line.behind.L': 'known.line.behind.L',
  'line.behind.R': 'known.line.behind.R',
  'floor.beyond': 'known.floor.beyond',
  'fixture.bar': 'known.fixture.bar',
  'fixture.face': 'known.fixture.face',
  'plumb.barEnd': 'known.plumb.barEnd',
  'plumb.target': 'known.plumb.target',
  'plate.zero': 'known.plate.zero',
  'plate.seat': 'known.plate.seat',
  bodyFace: 'known.bodyFace',
  'slide.tilt': 'known.slide.tilt',
};

/** The catalogue key of a known thing; undefined for a reading, whose label is in its `ReadingSpec`. */
export function knownWordKey(name: string): RecipeWordKey | undefined {
  return Object.hasOwn(KNOWN_WORDS, name) ? KNOWN_WORDS[name] : undefined;
}
