/**
 * What the side view shows. Heights of the floor are millimetres over metres and cannot be seen, so they are enlarged by
 * a stated factor; what stands on the floor keeps its own scale. x is ahead of the rear axle, y up by gravity from the
 * floor under the rear axle, mm.
 */
import type { VehicleFound } from '../placement/found.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { niceBelow, SCALE_STEPS } from './niceScale.ts';
import { scenePoint } from './pieces.ts';
import { type PlanModel, type PlanRequest, planModel } from './planModel.ts';
import type { ScenePoint } from './scene.ts';

/** The floor at one place along the car: rise by gravity over the floor under the rear axle. */
export interface FloorPlace {
  readonly aheadMm: number;
  readonly riseMm: number;
}

/** A side view is drawn from the same things as the plan, and from the floor where it was levelled. */
export interface ElevationRequest extends PlanRequest {
  /** Along the centreline, any order; absent, the floor is the plane of the tyres. */
  readonly floor?: readonly FloorPlace[];
}

/** The resolved side view. */
export interface ElevationModel {
  readonly plan: PlanModel;
  /** Floor from rear to front, rear-most first, true rises. */
  readonly floor: readonly FloorPlace[];
  /** How much rises are enlarged; 1 for a level floor. */
  readonly factor: number;
  /** Rise of the plane of the tyres at a place, mm, true. */
  readonly planeRiseMm: (aheadMm: number) => number;
  readonly floorRiseMm: (aheadMm: number) => number;
  /** The slope of the plane of the tyres along the car, radians: positive rises ahead. */
  readonly slopeRad: number;
  readonly targetAheadMm: number;
  readonly requiredUpMm?: number;
  readonly foundUpMm?: number;
  readonly requirement?: StationRequirement;
  readonly vehicle?: VehicleFound;
}

/** Rises are enlarged until the largest looks like this, mm of the drawing's world. */
const VISIBLE_RISE_MM = 320;
/** A rise under this is level for every tape and every eye, mm. */
const LEVEL_MM = 0.5;
/** How far the drawn floor runs past car and fixture, mm. */
const FLOOR_PAST_MM = 500;

function interpolate(places: readonly FloorPlace[], aheadMm: number): number {
  const [first] = places;
  const last = places[places.length - 1];
  if (first === undefined || last === undefined) return 0;
  if (aheadMm <= first.aheadMm) return first.riseMm;
  if (aheadMm >= last.aheadMm) return last.riseMm;
  const after = places.findIndex((place) => place.aheadMm >= aheadMm);
  const b = places[after] ?? last;
  const a = places[after - 1] ?? first;
  const span = b.aheadMm - a.aheadMm;
  return span === 0 ? a.riseMm : a.riseMm + ((b.riseMm - a.riseMm) * (aheadMm - a.aheadMm)) / span;
}

/** Resolves a side view. */
export function elevationModel(request: ElevationRequest): ElevationModel {
  const plan = planModel(request);
  const slopeRad = plan.vehicle?.slopeAheadRad ?? 0;
  const planeRiseMm = (aheadMm: number): number => Math.tan(slopeRad) * aheadMm;
  const targetAheadMm = plan.points.target.xMm;
  const front = Math.max(plan.car.wheelbaseMm + plan.car.frontOverhangMm, targetAheadMm) + FLOOR_PAST_MM;
  const rear = Math.min(-plan.car.rearOverhangMm, targetAheadMm) - FLOOR_PAST_MM;
  const levelled = [...(request.floor ?? [])].sort((a, b) => a.aheadMm - b.aheadMm);
  const floor =
    levelled.length > 0
      ? [
          { aheadMm: rear, riseMm: interpolate(levelled, rear) },
          ...levelled.filter((place) => place.aheadMm > rear && place.aheadMm < front),
          { aheadMm: front, riseMm: interpolate(levelled, front) },
        ]
      : [rear, front].map((aheadMm) => ({ aheadMm, riseMm: planeRiseMm(aheadMm) }));
  const largest = Math.max(...floor.map((place) => Math.abs(place.riseMm)), Math.abs(planeRiseMm(front)));
  const { finding, requirement, vehicle } = plan;
  const requiredUpMm = finding?.required.upMm ?? requirement?.up.value;
  return {
    plan,
    floor,
    factor: largest < LEVEL_MM ? 1 : Math.max(1, niceBelow(VISIBLE_RISE_MM / largest, SCALE_STEPS)),
    planeRiseMm,
    floorRiseMm: (aheadMm) => interpolate(floor, aheadMm),
    slopeRad,
    targetAheadMm,
    ...(requiredUpMm === undefined ? {} : { requiredUpMm }),
    ...(finding === undefined ? {} : { foundUpMm: finding.target.upMm }),
    ...(requirement === undefined ? {} : { requirement }),
    ...(vehicle === undefined ? {} : { vehicle }),
  };
}

/** Staff readings on the floor, mm: under the wheels and under the fixture's two bar ends. */
export type StaffReadings = Readonly<
  Partial<Record<'FL' | 'FR' | 'RL' | 'RR' | 'fixtureLeft' | 'fixtureRight', number>>
>;

/**
 * The floor along the car from staff readings: the mean of car's left and right at each axle and at the fixture, over
 * the rear axle. The staff reads more where the floor is lower. Empty while a pair that is needed is incomplete.
 */
export function floorFromStaff(
  staff: StaffReadings,
  wheelbaseMm: number,
  fixtureAheadMm: number,
): readonly FloorPlace[] {
  const mean = (a: number | undefined, b: number | undefined): number | undefined =>
    a === undefined || b === undefined ? undefined : (a + b) / 2;
  const rear = mean(staff.RL, staff.RR);
  const front = mean(staff.FL, staff.FR);
  const fixture = mean(staff.fixtureLeft, staff.fixtureRight);
  if (rear === undefined || front === undefined) return [];
  return [
    { aheadMm: 0, riseMm: 0 },
    { aheadMm: wheelbaseMm, riseMm: rear - front },
    ...(fixture === undefined ? [] : [{ aheadMm: fixtureAheadMm, riseMm: rear - fixture }]),
  ];
}

/** A place of the drawing: enlarged rise of the floor, and a true height over it. */
export function overFloor(model: ElevationModel, aheadMm: number, upMm: number): ScenePoint {
  return scenePoint(aheadMm, model.factor * model.floorRiseMm(aheadMm) + upMm);
}

/** A place of the drawing: enlarged rise of the plane of the tyres, and a true height over it. */
export function overPlane(model: ElevationModel, aheadMm: number, upMm: number): ScenePoint {
  return scenePoint(aheadMm, model.factor * model.planeRiseMm(aheadMm) + upMm);
}
