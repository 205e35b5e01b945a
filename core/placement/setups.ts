/**
 * Which readings still hold. A set-up is a numbered state of the car and of the fixture; a reading belongs to the
 * set-ups it depends on and leaves the solution when one of them ends, unless the move that ended it left what the reading
 * knows as it was (a raised mast leaves the bar's place over the floor). Older readings stay visible.
 */

import type { MoveKind } from './instruction.ts';
import type { PlacementInput } from './placementInput.ts';
import {
  FIXTURE_PARTS,
  type FixturePart,
  type PlacementReading,
  type ReadingSlot,
  type SetUps,
} from './placementReading.ts';
import type { ReadingSpec } from './recipe.ts';
import { slotKey } from './recipe.ts';

/** What may happen to a set-up: a bump or a push of either body, or a move that we asked for and that is done. */
export type SetUpEvent =
  | { readonly kind: 'carMoved' }
  | { readonly kind: 'fixtureMoved' }
  | { readonly kind: 'moveDone'; readonly move: MoveKind; readonly keeps?: readonly FixturePart[] };

/** True while the reading's set-ups are the present ones, or ones from which its part of the fixture was left as it was. */
export function holds(
  reading: Pick<PlacementReading, 'carSetUp' | 'fixtureSetUp'>,
  spec: Pick<ReadingSpec, 'dependsOn' | 'part'>,
  setUps: SetUps,
): boolean {
  return spec.dependsOn.every((body) => {
    if (body === 'car') return reading.carSetUp === setUps.car;
    if (body === 'fixture') {
      const since =
        (spec.part === undefined ? undefined : setUps.fixtureSince?.[spec.part]) ?? setUps.fixture;
      return reading.fixtureSetUp >= since && reading.fixtureSetUp <= setUps.fixture;
    }
    return true;
  });
}

/**
 * The fixture's set-ups after it was moved. Parts in `keeps` go on holding from where they held before; of the others,
 * and of all where nothing is said, everything must be read again.
 */
export function fixtureMovedTo(
  before: SetUps,
  setUp: number,
  keeps: readonly FixturePart[] = [],
): Pick<SetUps, 'fixture' | 'fixtureSince'> {
  if (keeps.length === 0) return { fixture: setUp };
  const since = keeps.map((part) => [part, before.fixtureSince?.[part] ?? before.fixture] as const);
  return { fixture: setUp, fixtureSince: Object.fromEntries(since) };
}

/** What several moves made one after the other leave as it was: only what each of them leaves. */
export function keptByAll(
  moves: readonly { readonly keeps?: readonly FixturePart[] }[],
): readonly FixturePart[] {
  if (moves.length === 0) return [];
  return FIXTURE_PARTS.filter((part) => moves.every((move) => move.keeps?.includes(part) === true));
}

/** The readings of the recipe that hold now; readings that the recipe does not know are left out. */
export function heldReadings(
  recipe: readonly ReadingSpec[],
  input: Pick<PlacementInput, 'readings' | 'setUps'>,
): readonly PlacementReading[] {
  const specs = new Map(recipe.map((spec) => [slotKey(spec), spec] as const));
  return input.readings.filter((reading) => {
    const spec = specs.get(slotKey(reading));
    return spec !== undefined && holds(reading, spec, input.setUps);
  });
}

function slotOf(spec: ReadingSpec): ReadingSlot {
  return {
    id: spec.id,
    purpose: spec.purpose,
    ...(spec.station === undefined ? {} : { station: spec.station }),
  };
}

/**
 * What an event opens a new set-up of. Setting the slide opens none: the bar stands where it stood, and the
 * slide's own reading is new anyway.
 */
export function opensSetUpOf(event: SetUpEvent): 'car' | 'fixture' | undefined {
  if (event.kind === 'carMoved') return 'car';
  if (event.kind === 'moveDone' && event.move === 'setSlide') return undefined;
  return 'fixture';
}

/**
 * What must be read again after an event, in walking order. A car that moved takes every reading that knows it, a
 * fixture that moved every reading that knows it; the floor keeps its heights. Optional readings are not asked for.
 */
export function retakeAfter(recipe: readonly ReadingSpec[], event: SetUpEvent): readonly ReadingSlot[] {
  const body = opensSetUpOf(event);
  if (body === undefined) return [];
  const keeps = event.kind === 'moveDone' ? (event.keeps ?? []) : [];
  const kept = (spec: ReadingSpec): boolean => spec.part !== undefined && keeps.includes(spec.part);
  return recipe
    .filter((spec) => !spec.optional && spec.purpose === 'proof' && spec.dependsOn.includes(body))
    .filter((spec) => body === 'car' || !kept(spec))
    .map(slotOf);
}

/** The slots of a recipe that have no holding reading yet and are needed, in walking order. */
export function missingSlots(
  recipe: readonly ReadingSpec[],
  held: readonly PlacementReading[],
): readonly ReadingSlot[] {
  const present = new Set(held.map(slotKey));
  return recipe.filter((spec) => !spec.optional && !present.has(slotKey(spec))).map(slotOf);
}
