/**
 * What an instrument shows in the bay of a rehearsal. The errors are those the way of working is stated to have
 * (`core/placement/defaults.ts`): marks lie beside their points and stay there, a tape errs anew each time it is held.
 */
import type { EntrySpec } from '../entry/index.ts';
import { lineExtensionU } from '../placement/carNetwork.ts';
import { defaultUncertainties, type WorkUncertainties, workUncertainties } from '../placement/defaults.ts';
import type { PlacementEquipment } from '../placement/equipment.ts';
import type { TiltDirection } from '../placement/placementReading.ts';
import { type ReadingSpec, slotKey } from '../placement/recipe.ts';
import { nearPoints } from '../placement/recipeSpec.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { degFromRad, formatFixed, MM_PER_INCH } from '../units.ts';
import { type RehearsalState, rehearsalLayout, streamOf } from './rehearsalBay.ts';
import { type Errors, type TrueLayout, trueReadings } from './trueBay.ts';

/** What the rehearsal measures with, and for. */
export interface RehearsalWork {
  readonly equipment: PlacementEquipment;
  readonly stations: readonly StationRequirement[];
  /** Set-up of the fixture: its bar ends are dropped anew in each. */
  readonly fixtureSetUp: number;
  /** Set-up of the car: its marks are made anew in each. */
  readonly carSetUp: number;
}

/** One reading as it is taken: mm or radians, never negative; a tilt has its way. */
export interface SimulatedReading {
  readonly value: number;
  readonly direction?: TiltDirection;
}

/** What a slide sags by at its ends, mm: enough to be seen at the target's height. */
const SAG_MM = 2;

/** Standard deviation of one reading, in mm or radians by its kind. */
function readingError(spec: ReadingSpec, work: WorkUncertainties): number {
  switch (spec.kind) {
    case 'floorHeight':
      return defaultUncertainties.staffMm;
    case 'drop':
      return defaultUncertainties.hubHeightMm;
    case 'height':
      return Math.hypot(work.heightSetMm, work.tapeRepeatMm);
    case 'tilt':
      return work.inclinometerRad;
    case 'toe':
      return defaultUncertainties.toeRad;
    case 'slide':
      return defaultUncertainties.slideMm;
    case 'distance':
    case 'offset':
      return Math.hypot(work.tapeSetMm, work.tapeRepeatMm);
  }
}

/** Where a mark or a stretched point lies beside its place: the same for every reading of one set-up. */
function besideOf(
  { seed }: RehearsalState,
  layout: TrueLayout,
  work: WorkUncertainties,
  { carSetUp, fixtureSetUp }: RehearsalWork,
): Errors['beside'] {
  return (point) => {
    const setUp = point.startsWith('barMark.') ? `fixture ${fixtureSetUp}` : `car ${carSetUp}`;
    const { normal } = streamOf(seed, `${setUp} ${point}`);
    const dropU = Math.hypot(work.plumbMm, work.markMm);
    if (point.startsWith('barMark.')) return [dropU * normal(), dropU * normal()];
    if (point.startsWith('mark.')) {
      const u = Math.hypot(dropU, work.hubCentreMm);
      return [u * normal(), u * normal()];
    }
    const beyondMm = point.startsWith('ahead') ? layout.beyondAhead : layout.beyondBehind;
    const baseMm = Math.abs(layout.hubs.FL[0] - layout.hubs.RL[0]);
    return [0, lineExtensionU(work, baseMm, beyondMm) * normal()];
  };
}

/** The slide set as the screen asks: at its place from the required centre, so that the bar's own side error is taken off. */
function slidesOf({ pose }: RehearsalState, stations: readonly StationRequirement[]): TrueLayout['slides'] {
  const slides = stations.filter((each) => each.kind === 'slide');
  return Object.fromEntries(
    slides.map((each) => [each.id, { towardCarLeft: each.left.value - pose.left, sag: SAG_MM }]),
  );
}

/**
 * The reading of a slot as the instrument shows it now, before it is rounded to what can be read. `taken` counts the readings
 * of the slot so far: a repeat errs anew. Undefined for a reading the rehearsal's bay does not have.
 */
export function simulatedReading(
  state: RehearsalState,
  work: RehearsalWork,
  spec: ReadingSpec,
  taken: number,
): SimulatedReading | undefined {
  const u = workUncertainties(work.equipment);
  const layout = { ...rehearsalLayout(state), slides: slidesOf(state, work.stations) ?? {} };
  const key = slotKey(spec);
  const { normal } = streamOf(state.seed, `${key} ${work.carSetUp} ${work.fixtureSetUp} ${taken}`);
  const error = readingError(spec, u) * normal();
  const errors: Errors = {
    beside: besideOf(state, layout, u, work),
    read: (read, value) => (read === key ? value + error : value),
  };
  const seen = trueReadings(layout, work.equipment, nearPoints(work.stations), errors)[key];
  return seen === undefined ? undefined : { ...seen, value: Math.abs(seen.value) };
}

/** Smallest step a person reads off a tape, mm. */
const TAPE_READ_MM = 0.5;
const TAPE_START_MM = 100;

/** What is read off and typed: in the instrument's own numbers, with the 100 mm of a tape that starts there. */
export function shownText(value: number, spec: Pick<ReadingSpec, 'unit'>, entry: EntrySpec): string {
  if (spec.unit === 'deg') return formatFixed(degFromRad(value), 2);
  const startMm = entry.startsAt === 'hundred' ? TAPE_START_MM : 0;
  const shownMm = Math.round((value + startMm) / TAPE_READ_MM) * TAPE_READ_MM;
  if (entry.numbersIn === 'cm') return formatFixed(shownMm / 10, 2);
  if (entry.numbersIn === 'in') return formatFixed((value + startMm) / MM_PER_INCH, 2);
  return formatFixed(shownMm, 1);
}
