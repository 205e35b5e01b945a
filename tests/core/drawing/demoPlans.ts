/**
 * Invented situations to draw: nothing read yet, datum only, a fixture off by a centimetre, one nearly right, one far
 * away, a target behind the car. Answers are written by hand as the solver would give them; no drawing test solves.
 */
import type { CarShape } from '../../../core/drawing/carShape.ts';
import { NOMINAL_CAR } from '../../../core/drawing/carShape.ts';
import { NOMINAL_FIXTURE, type PlanRequest } from '../../../core/drawing/planModel.ts';
import { pointInVehicle, poseInVehicle } from '../../../core/frames.ts';
import type { CoordinateFinding } from '../../../core/placement/finding.ts';
import type { VehicleFound } from '../../../core/placement/found.ts';
import type { Move } from '../../../core/placement/instruction.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import { defaultRecipe, slotKey } from '../../../core/placement/recipe.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';

/** The screen that matters most: the drawing's panel at 1366 by 768, CSS pixels. */
export const PANEL = { widthPt: 700, heightPt: 520 };
/** A4 between its margins: 180 mm wide, 150 mm high, points. */
export const A4_PLAN = { widthPt: (180 * 72) / 25.4, heightPt: (150 * 72) / 25.4 };

const CAR: CarShape = { ...NOMINAL_CAR, wheelbaseMm: 2712.4 };

/** A forward-camera station 1500 mm ahead of the body face, with two slides. */
export const CAMERA_STATIONS: readonly StationRequirement[] = (['centre', 'left', 'right'] as const).map(
  (id) => ({
    id,
    kind: id === 'centre' ? 'reposition' : 'slide',
    place: 'ahead',
    ahead: { value: 1500, from: 'bodyFace', permitted: { lower: -5, upper: 5, stated: true } },
    left: {
      value: id === 'left' ? 550 : id === 'right' ? -550 : 0,
      from: 'centreline',
      permitted: { lower: -5, upper: 5, stated: true },
    },
    up: { value: 1350, from: 'contactPlane', permitted: { lower: -5, upper: 5, stated: true } },
    yaw: {
      value: Math.PI,
      from: 'centreline',
      permitted: { lower: -0.0052, upper: 0.0052, stated: false },
    },
    pitch: { value: 0, from: 'contactPlane' },
    roll: { value: 0, from: 'contactPlane' },
  }),
);

/** A rear target that stands behind the car and faces it. */
export const REAR_STATION: StationRequirement = {
  id: 'rear',
  kind: 'reposition',
  place: 'behind',
  ahead: { value: -2600, from: 'rearAxle', permitted: { lower: -10, upper: 10, stated: true } },
  left: { value: 0, from: 'centreline', permitted: { lower: -10, upper: 10, stated: true } },
  up: { value: 900, from: 'contactPlane' },
  yaw: { value: 0, from: 'centreline' },
  pitch: { value: 0, from: 'contactPlane' },
  roll: { value: 0, from: 'contactPlane' },
};

const quantity = (value: number, u: number) => ({ value, u, dof: 30 });

const VEHICLE: VehicleFound = {
  points: {
    'hub.FL': pointInVehicle(2711.8, 780.4, 312),
    'hub.FR': pointInVehicle(2713, -780.4, 312),
    'hub.RL': pointInVehicle(0.2, 778.9, 312),
    'hub.RR': pointInVehicle(-0.2, -778.9, 312),
    'mark.FL': pointInVehicle(2711, 1030.1, 0),
    'mark.FR': pointInVehicle(2713.6, -1030.8, 0),
    'mark.RL': pointInVehicle(1.1, 1028.7, 0),
    'mark.RR': pointInVehicle(-0.9, -1028.6, 0),
    'ahead.L': pointInVehicle(3711.4, 1030.6, 0),
    'ahead.R': pointInVehicle(3713.2, -1031.4, 0),
    'behind.L': pointInVehicle(-998.7, 1028.2, 0),
    'behind.R': pointInVehicle(-1001.1, -1028, 0),
    bodyFace: pointInVehicle(3602.4, 0, 480),
  },
  wheelbase: quantity(2712.4, 0.6),
  trackFront: quantity(1560.8, 0.8),
  trackRear: quantity(1557.8, 0.8),
  slopeAheadRad: 0.0042,
  slopeLeftRad: -0.0011,
  warpMm: { FL: 0.4, FR: -0.4, RL: -0.4, RR: 0.4 },
  frontAxleAheadMm: 2712.4,
  bodyFaceAheadMm: 3602.4,
};

const WITH_THRUST: VehicleFound = {
  ...VEHICLE,
  thrustLine: { angle: quantity(0.0021, 0.0003), expandedRad: 0.0006, differs: true },
};

/** Standard uncertainty of a demo height, mm. */
const U_UP_MM = 0.9;

/** Deviations of a demo fixture: mm and radians, with standard uncertainties. */
export interface DemoDeviation {
  readonly aheadMm: number;
  readonly leftMm: number;
  readonly yawRad: number;
  readonly upMm: number;
  readonly pitchRad: number;
  readonly uAheadMm: number;
  readonly uLeftMm: number;
  readonly correlation: number;
}

function finding(
  coordinate: 'ahead' | 'left' | 'up' | 'yaw' | 'pitch',
  deviation: number,
  u: number,
  limit: number | undefined,
): CoordinateFinding {
  return {
    coordinate,
    datum: coordinate === 'ahead' ? 'bodyFace' : 'centreline',
    required: 0,
    found: deviation,
    deviation,
    u,
    dof: 30,
    k: 2.04,
    U: 2.04 * u,
    ...(limit === undefined ? {} : { permitted: { lower: -limit, upper: limit, stated: true } }),
    verdict: 'within',
    shares: [],
  };
}

function covariance(demo: DemoDeviation): readonly (readonly number[])[] {
  const xy = demo.correlation * demo.uAheadMm * demo.uLeftMm;
  const rows = [
    [demo.uAheadMm * demo.uAheadMm, xy, 0, 0, 0, 0],
    [xy, demo.uLeftMm * demo.uLeftMm, 0, 0, 0, 0],
  ];
  return [...rows, [0, 0, U_UP_MM * U_UP_MM, 0, 0, 0], ...[0, 1, 2].map(() => [0, 0, 0, 0, 0, 0])];
}

function move(kind: Move['kind'], aheadMm: number, leftMm: number, yawRad: number): Move {
  return {
    kind,
    wordKey: kind === 'turn' ? 'move.turn.carLeftEndAway' : 'move.roll.away',
    values: {},
    amountMm: Math.max(Math.abs(aheadMm), Math.abs(leftMm), Math.abs(yawRad) * 1000),
    predictedEffect: { ahead: aheadMm, left: leftMm, up: 0, yaw: yawRad, pitch: 0, roll: 0 },
    thenRead: [],
  };
}

/** The answer for a fixture off its required place by a deviation. */
export function answerFor(
  demo: DemoDeviation,
  moves: readonly Move[],
  vehicle: VehicleFound = WITH_THRUST,
): PlacementAnswer {
  const required = { aheadMm: 5102.4, leftMm: 0, upMm: 1350, yawRad: Math.PI, pitchRad: 0, rollRad: 0 };
  const target = {
    ...required,
    aheadMm: required.aheadMm + demo.aheadMm,
    leftMm: demo.leftMm,
    yawRad: required.yawRad + demo.yawRad,
    upMm: required.upMm + demo.upMm,
    // A face that looks at the car from ahead has turned by half a turn: its own pitch has the other sign.
    pitchRad: -demo.pitchRad,
  };
  const half = NOMINAL_FIXTURE.barLengthMm / 2;
  const bar = { ...target, aheadMm: target.aheadMm + NOMINAL_FIXTURE.faceOutMm };
  const end = (side: 1 | -1) =>
    pointInVehicle(
      bar.aheadMm - side * half * Math.sin(demo.yawRad),
      bar.leftMm + side * half * Math.cos(demo.yawRad),
      0,
    );
  const poseCovariance = covariance(demo);
  return {
    stage: 'fixture',
    vehicle,
    fixture: {
      bar: poseInVehicle(bar),
      target: poseInVehicle(target),
      covariance: poseCovariance,
      barEnds: { carLeft: end(1), carRight: end(-1) },
    },
    stations: [
      {
        station: 'centre',
        kind: 'reposition',
        basis: 'found',
        required: poseInVehicle(required),
        target: poseInVehicle(target),
        covariance: poseCovariance,
        coordinates: [
          finding('ahead', demo.aheadMm, demo.uAheadMm, 5),
          finding('left', demo.leftMm, demo.uLeftMm, 5),
          finding('up', demo.upMm, U_UP_MM, 5),
          finding('pitch', demo.pitchRad, 0.0009, undefined),
          finding('yaw', demo.yawRad, 0.0011, 0.0052),
        ],
        worst: 'within',
      },
    ],
    worst: 'within',
    moves,
    nextAction: { wordKey: 'next.read', values: {} },
    nextReading: { id: 'bar.diagLR', purpose: 'proof' },
    missing: [],
    controls: [],
    spreads: [],
    suspects: [],
    problems: [],
    diagnostics: { iterations: 4, redundancy: 9, residuals: [] },
  };
}

const EMPTY: PlacementAnswer = {
  stage: 'nothing',
  stations: [],
  moves: [],
  nextAction: { wordKey: 'next.read', values: {} },
  nextReading: { id: 'drop.FL', purpose: 'proof' },
  missing: [],
  controls: [],
  spreads: [],
  suspects: [],
  problems: [],
  diagnostics: { iterations: 0, redundancy: 0, residuals: [] },
};

const DATUM_ONLY: PlacementAnswer = {
  ...EMPTY,
  stage: 'datum',
  vehicle: VEHICLE,
  nextReading: { id: 'bar.sameL', purpose: 'proof' },
};

const recipe = defaultRecipe({ stations: CAMERA_STATIONS });
const datumReadings = recipe.filter((reading) => reading.stage === 'datum');
const placementReadings = recipe.filter((reading) => reading.stage === 'placement');

const SCREEN: PlanRequest = {
  sheet: PANEL,
  textPt: 14,
  view: 'asIStand',
  decimalSign: '.',
  unit: 'mm',
  car: CAR,
  stations: CAMERA_STATIONS,
  recipe: placementReadings,
  taken: [],
  medium: 'screen',
};

const takenDatum = datumReadings.map(slotKey);

const OFF = {
  aheadMm: -12,
  leftMm: 3.6,
  yawRad: 0.0068,
  upMm: 7.5,
  pitchRad: -0.004,
  uAheadMm: 1.8,
  uLeftMm: 3.1,
  correlation: 0.35,
};
const NEAR = {
  aheadMm: 1.2,
  leftMm: -0.8,
  yawRad: 0.0008,
  upMm: -1.1,
  pitchRad: 0.0008,
  uAheadMm: 1.1,
  uLeftMm: 1.9,
  correlation: -0.2,
};
const FAR = {
  aheadMm: 240,
  leftMm: -90,
  yawRad: -0.05,
  upMm: 30,
  pitchRad: 0.01,
  uAheadMm: 1.9,
  uLeftMm: 3.3,
  correlation: 0.1,
};

/** Name to request: every drawing the tests hold to account and the look script shows. */
export const DEMO_PLANS: Readonly<Record<string, PlanRequest>> = {
  nothing: { ...SCREEN, recipe: datumReadings, answer: EMPTY },
  datum: { ...SCREEN, answer: DATUM_ONLY, taken: takenDatum },
  turn: {
    ...SCREEN,
    answer: answerFor(OFF, [move('turn', 0, 0, -0.0068)]),
    taken: ['bar.sameL'],
  },
  shift: {
    ...SCREEN,
    answer: answerFor({ ...OFF, yawRad: 0.0004 }, [move('roll', 12, 0, 0)]),
    taken: placementReadings.map(slotKey),
  },
  near: { ...SCREEN, answer: answerFor(NEAR, []), taken: placementReadings.map(slotKey) },
  far: { ...SCREEN, answer: answerFor(FAR, [move('shift', -240, 90, 0)]) },
  carUp: { ...SCREEN, view: 'carUp', answer: answerFor(OFF, [move('turn', 0, 0, -0.0068)]) },
  rear: { ...SCREEN, stations: [REAR_STATION], recipe: [] },
  paper: {
    ...SCREEN,
    sheet: A4_PLAN,
    textPt: 7.5,
    medium: 'paper',
    answer: answerFor(NEAR, []),
    recipe,
    taken: recipe.map(slotKey),
  },
  paperOff: {
    ...SCREEN,
    sheet: A4_PLAN,
    textPt: 7.5,
    medium: 'paper',
    decimalSign: ',',
    answer: answerFor(OFF, [move('turn', 0, 0, -0.0068)]),
    recipe,
    taken: recipe.map(slotKey),
  },
};
