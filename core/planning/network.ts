/**
 * A plan's network: the very one that placement builds from readings, fed with the nominal values, so that what is predicted
 * is what the readings will be found to have. Only the rear axle alone has a network of its own.
 */
import type { Network } from '../adjust/network.ts';
import type { Estimates } from '../adjust/solution.ts';
import { looksAlongCar } from '../placement/facing.ts';
import { frameOf } from '../placement/model.ts';
import { placementNetwork } from '../placement/network.ts';
import type { PlacementInput } from '../placement/placementInput.ts';
import type { SlotValue, SlotValues } from '../placement/readings.ts';
import { nearPoints } from '../placement/recipe.ts';
import { err, ok, type Result } from '../result.ts';
import type { VehicleFrame } from '../vehicle/frame.ts';
import { planDefaults } from './defaults.ts';
import { type Nominal, nominal } from './nominal.ts';
import { rearFrame, rearNetwork } from './rearNetwork.ts';
import { planSlots, wantsThrustLine } from './recipes.ts';
import { toesFromRims, withRimHeadings } from './rimHeadings.ts';
import type { PlanningError, PlanRecipe, PlanSetUp, PlanSlot } from './types.ts';

/** A recipe laid out for a set-up: its readings, and how its network and frame come out of them. */
export interface LaidOut {
  readonly setUp: PlanSetUp;
  readonly recipe: PlanRecipe;
  readonly layout: Nominal;
  readonly slots: readonly PlanSlot[];
  readonly input: PlacementInput;
}

/** Lays a recipe out, or says why it cannot serve the set-up at all. */
export function layOutRecipe(setUp: PlanSetUp, recipe: PlanRecipe): Result<LaidOut, PlanningError> {
  const cause = nonsense(setUp);
  if (cause !== undefined) return err({ code: 'planning/impossible', cause });
  const fromFront = setUp.stations.some(({ ahead }) => ahead.from !== 'rearAxle');
  if (recipe.axles === 'rear' && (fromFront || wantsThrustLine(setUp.stations))) {
    return err({ code: 'planning/datumNotGiven', recipe: recipe.id });
  }
  const layout = nominal(setUp);
  return ok({
    setUp,
    recipe,
    layout,
    slots: planSlots(setUp, recipe, layout),
    input: {
      readings: [],
      setUps: { car: 1, fixture: 1 },
      equipment: setUp.equipment,
      stations: setUp.stations,
      decisionRule: setUp.decisionRule,
      ...(setUp.bodyFaceHeight === undefined ? {} : { bodyFaceHeight: setUp.bodyFaceHeight }),
    },
  });
}

function nonsense({
  car,
  equipment,
  stations,
  beyondAheadMm,
  beyondBehindMm,
}: PlanSetUp): string | undefined {
  const [base] = stations;
  const lineAheadMm = car.wheelbaseMm + (beyondAheadMm ?? planDefaults.beyondMm);
  if (base === undefined) return 'there is no station';
  if (base.kind !== 'reposition') return 'the first station is a slide';
  if (!looksAlongCar(base.yaw.value)) return 'the face looks across the car';
  const lengths = {
    wheelbase: car.wheelbaseMm,
    'front track': car.trackFrontMm,
    'rear track': car.trackRearMm,
    'hub height': car.hubHeightMm,
    'bar length': equipment.fixture.barLength.mm,
    'line ahead': beyondAheadMm ?? planDefaults.beyondMm,
    'line behind': beyondBehindMm ?? planDefaults.beyondMm,
    'target height': base.up.value,
    'line of the points ahead before the body': lineAheadMm - car.bodyFaceAheadMm,
  };
  const bad = Object.entries(lengths).find(([, mm]) => !(mm > 0 && mm < 1e6));
  return bad === undefined ? undefined : `${bad[0]} is ${bad[1]} mm`;
}

/** The values of the readings that are taken at least once. */
export function valuesOf(laid: LaidOut, countOf: (slot: PlanSlot) => number): SlotValues {
  const values = new Map<string, SlotValue>();
  for (const slot of laid.slots) {
    const count = countOf(slot);
    if (count <= 0) continue;
    const { value, direction } = laid.layout.values.get(slot.key) ?? { value: 0 };
    const [id = '', station] = slot.key.split('@');
    const named = laid.setUp.instruments?.[slot.instrument];
    const instrument = laid.setUp.equipment.instruments.find((each) => each.id === named);
    values.set(slot.key, {
      slot: { id, purpose: 'proof', ...(station === undefined ? {} : { station }) },
      value,
      count,
      ...(direction === undefined ? {} : { direction }),
      ...(instrument === undefined ? {} : { instrument }),
    });
  }
  return values;
}

/** The network of values, or the readings without which it does not hold. */
export function networkOf(laid: LaidOut, values: SlotValues): Result<Network, PlanningError> {
  const missing = laid.slots.filter(({ key, least }) => least > 0 && !values.has(key));
  if (missing.length > 0) {
    return err({ code: 'planning/undetermined', readingIds: missing.map(({ key }) => key) });
  }
  if (laid.recipe.axles === 'rear') {
    const network = rearNetwork(laid.input, values, laid.layout, nearPoints(laid.setUp.stations));
    return network === undefined
      ? err({ code: 'planning/impossible', cause: 'the fixture has no network' })
      : ok(network);
  }
  const built = placementNetwork(laid.input, values);
  const problem = built.ok ? built.value.fixtureProblem : built.error;
  if (problem?.code === 'placement/undetermined') {
    return err({ code: 'planning/undetermined', readingIds: problem.readingIds });
  }
  if (!built.ok || problem !== undefined) {
    return err({ code: 'planning/impossible', cause: problem?.code ?? 'no network' });
  }
  const spanMm = laid.setUp.car.rimSpanMm ?? planDefaults.rimSpanMm;
  return ok(withRimHeadings(built.value.network, values, laid.layout, spanMm));
}

/** The vehicle frame as this recipe finds it, and the estimates as placement's model wants them. */
export function modelOf(
  laid: LaidOut,
  estimates: Estimates,
): { readonly frame: VehicleFrame; readonly estimates: Estimates } {
  if (laid.recipe.axles === 'rear') return { frame: rearFrame(estimates), estimates };
  const frame = frameOf(estimates);
  const fromRims = laid.slots.some(({ key }) => key.startsWith('rim.'));
  return { frame, estimates: fromRims ? toesFromRims(estimates, frame) : estimates };
}
