/**
 * Which readings still hold. A set-up is a numbered state of the car and of the fixture; a reading belongs to the
 * set-ups it depends on and leaves the solution when one of them ends. Older readings stay visible.
 */
import type { ReadingSpec } from './recipe.ts';
import { slotKey } from './recipe.ts';
import type { MoveKind, PlacementInput, PlacementReading, ReadingSlot } from './types.ts';

/** What may happen to a set-up: a bump or a push of either body, or a move that we asked for and that is done. */
export type SetUpEvent =
  | { readonly kind: 'carMoved' }
  | { readonly kind: 'fixtureMoved' }
  | { readonly kind: 'moveDone'; readonly move: MoveKind };

/** True while the reading's set-ups are the present ones. */
export function holds(
  reading: PlacementReading,
  spec: ReadingSpec,
  setUps: PlacementInput['setUps'],
): boolean {
  return spec.dependsOn.every((body) => {
    if (body === 'car') return reading.carSetUp === setUps.car;
    if (body === 'fixture') return reading.fixtureSetUp === setUps.fixture;
    return true;
  });
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
  return recipe
    .filter((spec) => !spec.optional && spec.purpose === 'proof' && spec.dependsOn.includes(body))
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
