/**
 * What goes wrong when a person measures a bay, drawn by physics and not by the solver's rows. Every size is the product's
 * stated default for the way of working (core/placement/defaults.ts), which is what is being put to the test:
 *
 * - a hub mark lies beside its hub by the hub's centre (kept by every drop of it), and by bob and mark, averaged over drops;
 * - a point set on a line lies beside it by the marks it was stretched between, by its bend and by its own mark;
 * - a bar end's mark lies beside it by bob and mark;
 * - the tape is off by one scale and one hook for all readings, and for each reading by the rest of its class limit (limits
 *   alone are known: rectangular), by holding it to the marks, and by repeatability; then it is read to its step;
 * - staff, hub height, target height, toe values of a report: one normal error each;
 * - a tilt is off by the seat and scale of the inclinometer, kept by every reading of that tilt, and by each reading's own error;
 * - repeatability of tape, bob and inclinometer is stated as pooled with 20 degrees of freedom: its true size is therefore not
 *   the stated one but, person by person, one that may have given it;
 * - side arms, bar and face differ from their stated sizes within their stated u.
 */
import { lineExtensionU } from '../../core/placement/carNetwork.ts';
import {
  defaultUncertainties,
  hookUncertaintyMm,
  splitTapeClass,
  type WorkUncertainties,
} from '../../core/placement/defaults.ts';
import type { PlacementEquipment, PlacementInstrument } from '../../core/placement/equipment.ts';
import type { PlacementReading, TiltDirection } from '../../core/placement/placementReading.ts';
import { TAPE_STEP_MM } from '../../core/placement/tape.ts';
import { type Errors, type TrueLayout, trueReadings } from '../../core/rehearsal/trueBay.ts';
import { tiltAfterReversal } from '../../core/uncertainty/instruments.ts';
import { asReadings } from '../core/placement/trueLayout.ts';
import type { Draws } from './draws.ts';

/** How a job is measured. */
export interface Measuring {
  readonly equipment: PlacementEquipment;
  /** Drops of each hub. */
  readonly drops: number;
  readonly near: 'ahead' | 'behind';
  /** One of `equipment.instruments`; absent is the default tape of the way of working. */
  readonly tape?: PlacementInstrument;
}

/** A person in a bay: what is wrong with equipment and marks stays, what is wrong with a reading is new each time. */
export interface SimulatedPerson {
  readonly measuring: Measuring;
  /** The equipment as it truly is. */
  readonly truly: PlacementEquipment;
  readonly arms: { readonly armLeft: number; readonly armRight: number };
  /** Error of one tape reading of a length, before it is read to the step. */
  tapeMm(lengthMm: number): number;
  /** A mark made again: for the bar ends, which are dropped anew in every round. */
  dropAgain(): void;
  readonly errors: Errors;
}

const STEP_OF_HEIGHT_MM = TAPE_STEP_MM;

/** Draws a person's lasting errors. */
export function personIn(layout: TrueLayout, measuring: Measuring, draws: Draws): SimulatedPerson {
  const { equipment, drops } = measuring;
  const work = defaultUncertainties.byWork[equipment.work];
  const tapeClass = measuring.tape?.accuracyClass ?? work.tapeClass;
  const { normal } = draws;
  const scale = draws.withinLimits(splitTapeClass(tapeClass, 0).scale);
  const hook = measuring.tape?.hook === true ? draws.withinLimits(hookUncertaintyMm(tapeClass)) : 0;
  const repeat = work.tapeRepeatMm * trueOverPooled(draws);
  const plumbMm = work.plumbMm * trueOverPooled(draws);
  const tiltErrorRad = tiltErrors(work, draws);
  const really: WorkUncertainties = { ...work, plumbMm, tapeRepeatMm: repeat };
  const tapeMm = (lengthMm: number): number =>
    scale * lengthMm +
    hook +
    draws.withinLimits(splitTapeClass(tapeClass, lengthMm).ownMm) +
    work.tapeSetMm * normal() +
    repeat * normal();
  const marks = new Map<string, readonly [number, number]>();
  const beside = (point: string): readonly [number, number] => {
    const known = marks.get(point);
    if (known !== undefined) return known;
    const made = madeBeside(point, layout, really, drops, normal);
    marks.set(point, made);
    return made;
  };
  return {
    measuring,
    truly: trulyMade(equipment, normal),
    arms: {
      armLeft: layout.armLeft + equipment.sideArms.left.uMm * normal(),
      armRight: layout.armRight + equipment.sideArms.right.uMm * normal(),
    },
    tapeMm,
    dropAgain: () => {
      for (const side of ['carLeft', 'carRight']) marks.delete(`barMark.${side}`);
    },
    errors: {
      beside,
      read: (key, value, direction) =>
        key.startsWith('fixture.')
          ? value + tiltErrorRad(key, direction)
          : readingOf(key, value, measuring, really, tapeMm, draws),
    },
  };
}

/**
 * The error of each reading of a tilt: what is kept is drawn once for each tilt, the rest anew with every seating. What is kept
 * leans one way whichever way the tilt itself goes.
 */
function tiltErrors(
  work: WorkUncertainties,
  draws: Draws,
): (key: string, direction: TiltDirection | undefined) => number {
  const { keptRad, repeatRad } = tiltAfterReversal(work.inclinometerRad, work.inclinometerKeptRad);
  const really = repeatRad * trueOverPooled(draws);
  const kept = new Map<string, number>();
  return (key, direction) => {
    const known = kept.get(key);
    const own = known ?? keptRad * draws.normal();
    if (known === undefined) kept.set(key, own);
    const otherWay = direction === 'awayFromCar' || direction === 'carRightLow';
    return (otherWay ? -own : own) + really * draws.normal();
  };
}

/** The true spread over the pooled one, as 20 degrees of freedom leave it open: root of dof over chi-square. */
function trueOverPooled({ normal }: Draws): number {
  const dof = defaultUncertainties.repeatDof;
  let squares = 0;
  for (let i = 0; i < dof; i++) {
    const z = normal();
    squares += z * z;
  }
  return Math.sqrt(dof / squares);
}

function madeBeside(
  point: string,
  layout: TrueLayout,
  work: WorkUncertainties,
  drops: number,
  normal: () => number,
): readonly [number, number] {
  if (point.startsWith('mark.')) {
    const u = Math.hypot(work.hubCentreMm, work.markMm, work.plumbMm / Math.sqrt(drops));
    return [u * normal(), u * normal()];
  }
  if (point.startsWith('barMark.')) {
    const u = Math.hypot(work.plumbMm, work.markMm);
    return [u * normal(), u * normal()];
  }
  const side = point.endsWith('L') ? 'L' : 'R';
  const baseMm = Math.abs(layout.hubs[`F${side}`][0] - layout.hubs[`R${side}`][0]);
  const beyondMm = point.startsWith('ahead') ? layout.beyondAhead : layout.beyondBehind;
  return [0, lineExtensionU(work, baseMm, beyondMm) * normal()];
}

function trulyMade(equipment: PlacementEquipment, normal: () => number): PlacementEquipment {
  const { barLength, face } = equipment.fixture;
  return {
    ...equipment,
    fixture: {
      barLength: { mm: barLength.mm + barLength.uMm * normal(), uMm: 0 },
      face: {
        ...face,
        outMm: face.outMm + face.uMm * normal(),
        // The centre mark halves the bar within half of its length's u, which moves the target along the bar.
        acrossMm: face.acrossMm + Math.hypot(face.uMm, barLength.uMm / 2) * normal(),
        upMm: face.upMm + face.uMm * normal(),
      },
    },
  };
}

const toStep = (value: number, step: number): number => Math.round(value / step) * step;

function readingOf(
  key: string,
  value: number,
  { equipment, tape, drops }: Measuring,
  work: WorkUncertainties,
  tapeMm: (lengthMm: number) => number,
  { normal, withinLimits }: Draws,
): number {
  if (key.startsWith('floor.')) return value + defaultUncertainties.staffMm * normal();
  if (key.startsWith('drop.')) {
    return value + (defaultUncertainties.hubHeightMm * normal()) / Math.sqrt(drops);
  }
  if (key.startsWith('target.height')) {
    const { ownMm, scale } = splitTapeClass(work.tapeClass, value);
    const own = withinLimits(Math.hypot(ownMm, scale * value));
    const held = Math.hypot(work.heightSetMm, work.tapeRepeatMm) * normal();
    return toStep(value + own + held, STEP_OF_HEIGHT_MM);
  }
  if (key.startsWith('toe.')) return value + defaultUncertainties.toeRad * normal();
  const eye = key === 'face' ? defaultUncertainties.bodyFacePlumbMm * normal() : 0;
  const step = tape === undefined ? TAPE_STEP_MM : equipmentStep(equipment, tape);
  return toStep(value + eye + tapeMm(value), step);
}

function equipmentStep(equipment: PlacementEquipment, tape: PlacementInstrument): number {
  const known = equipment.instruments.some(({ id }) => id === tape.id);
  if (!known) throw new Error(`the tape ${tape.id} is not among the equipment`);
  return tape.resolution;
}

const TAPED = /^(?:base|ahead|behind|width|diagonal|bar|face)\b/;

/** All readings of the recipe as this person takes them in this layout. A drop taken n times stands there n times. */
export function readBy(person: SimulatedPerson, layout: TrueLayout): readonly PlacementReading[] {
  const { measuring, truly, arms, errors } = person;
  const { tape, drops, near } = measuring;
  const once = asReadings(trueReadings({ ...layout, ...arms }, truly, near, errors));
  return once.flatMap((reading) => {
    const taken =
      tape !== undefined && TAPED.test(reading.id) ? { ...reading, instrument: tape.id } : reading;
    const times = reading.id.startsWith('drop.') ? drops : 1;
    return Array.from({ length: times }, (_none, i) => ({ ...taken, ref: `${reading.ref}/${i}` }));
  });
}
