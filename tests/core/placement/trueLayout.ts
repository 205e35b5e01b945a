/**
 * Layouts of tests: an ordinary car and fixture, the station that wants the target there, and the input a faultless person
 * would hand to the solver. The bay itself, and what is read in it, is `core/rehearsal/trueBay.ts`.
 */
import type { PlacementEquipment } from '../../../core/placement/equipment.ts';
import type { PlacementInput } from '../../../core/placement/placementInput.ts';
import type { PlacementReading } from '../../../core/placement/placementReading.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { type Numbers, type TrueLayout, trueReadings } from '../../../core/rehearsal/trueBay.ts';

/** Slot keys as readings of the present set-ups. */
export function asReadings(numbers: Numbers, leaveOut: readonly string[] = []): readonly PlacementReading[] {
  return Object.entries(numbers)
    .filter(([key]) => !leaveOut.includes(key))
    .map(([key, { value, direction }]) => {
      const [idAt = '', purpose = 'proof'] = key.split('!');
      const [id = '', station] = idAt.split('@');
      return {
        ref: key,
        id,
        purpose: purpose === 'control' ? 'control' : 'proof',
        value,
        carSetUp: 1,
        fixtureSetUp: 1,
        ...(station === undefined ? {} : { station }),
        ...(direction === undefined ? {} : { direction }),
      } satisfies PlacementReading;
    });
}

/** An invented bar fixture with its arms and the instruments of careful work. */
export const EQUIPMENT: PlacementEquipment = {
  work: 'careful',
  fixture: {
    barLength: { mm: 2000, uMm: 0.3 },
    face: { outMm: 80, acrossMm: 0, upMm: 150, uMm: 0.5 },
  },
  sideArms: { left: { mm: 280, uMm: 0.3 }, right: { mm: 280, uMm: 0.3 } },
  instruments: [],
};

const DEG = Math.PI / 180;

/** A car of ordinary size on a level floor with a target squarely ahead: 1.5 m before the bumper, 5 m from the rear axle. */
export const SQUARE: TrueLayout = {
  carAt: [0, 0],
  carHeading: 0,
  floorSlope: [0, 0],
  hubs: { FL: [2650, 780, 318], FR: [2650, -780, 318], RL: [0, 775, 318], RR: [0, -775, 318] },
  armLeft: 280,
  armRight: 280,
  beyondAhead: 1000,
  beyondBehind: 1000,
  face: [3500, 0, 520],
  toeLeft: 0,
  toeRight: 0,
  target: { ahead: 5000, left: 0, up: 1350, yaw: 180 * DEG, pitch: 0, roll: 0 },
};

/** A station that wants the target where `SQUARE` has it, with permitted deviations of a usual size. */
export const CENTRE: StationRequirement = {
  id: 'centre',
  kind: 'reposition',
  place: 'ahead',
  ahead: { value: 5000, from: 'rearAxle', permitted: { lower: -10, upper: 10, stated: true } },
  left: { value: 0, from: 'centreline', permitted: { lower: -10, upper: 10, stated: true } },
  up: { value: 1350, from: 'contactPlane', permitted: { lower: -10, upper: 10, stated: true } },
  yaw: {
    value: 180 * DEG,
    from: 'centreline',
    permitted: { lower: -0.5 * DEG, upper: 0.5 * DEG, stated: true },
  },
  pitch: { value: 0, from: 'contactPlane', permitted: { lower: -0.5 * DEG, upper: 0.5 * DEG, stated: true } },
  roll: { value: 0, from: 'contactPlane', permitted: { lower: -0.5 * DEG, upper: 0.5 * DEG, stated: true } },
};

/** The slide stations 550 mm to either side of the centre (common practice, no source). */
export const SLIDES: readonly StationRequirement[] = [
  { ...CENTRE, id: 'west', kind: 'slide', left: { ...CENTRE.left, value: 550 } },
  { ...CENTRE, id: 'east', kind: 'slide', left: { ...CENTRE.left, value: -550 } },
];

/** The input of a layout read without a fault. */
export function inputOf(
  layout: TrueLayout,
  stations: readonly StationRequirement[] = [CENTRE],
  options: {
    readonly leaveOut?: readonly string[];
    readonly equipment?: PlacementEquipment;
    readonly near?: 'ahead' | 'behind';
  } = {},
): PlacementInput {
  const equipment = options.equipment ?? EQUIPMENT;
  const numbers = trueReadings(layout, equipment, options.near);
  return {
    readings: asReadings(numbers, options.leaveOut),
    setUps: { car: 1, fixture: 1 },
    equipment,
    stations,
    decisionRule: 'guarded',
    bodyFaceHeight: { mm: layout.face[2], uMm: 5 },
    sensor: { aheadMm: 1800, leftMm: 0, upMm: 1300 },
  };
}
