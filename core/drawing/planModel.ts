/**
 * What a plan shows, resolved to points of the vehicle frame: measured where an answer has it, typical where it has
 * not, and always known which. Rear-axle midpoint at zero, x ahead along the centreline, y to the car's left, mm.
 */
import type { PointInVehicle, PoseInVehicle } from '../frames.ts';
import type { StationFinding } from '../placement/finding.ts';
import type { VehicleFound, VehiclePoint } from '../placement/found.ts';
import type { PlacementAnswer } from '../placement/placementAnswer.ts';
import type { Wheel } from '../placement/placementReading.ts';
import { WHEELS } from '../placement/placementReading.ts';
import type { ReadingPoint, ReadingSpec } from '../placement/recipe.ts';
import type { AheadDatum, StationRequirement } from '../placement/requirement.ts';
import type { DecimalSign, LengthUnit } from '../units.ts';
import { type CarShape, NOMINAL_CAR } from './carShape.ts';
import type { PlanCovariance } from './errorEllipse.ts';
import type { ScenePoint, Sheet } from './scene.ts';

/** The lengths of the fixture that are drawn, mm. `faceOutMm` and `faceAcrossMm` as in the fixture frame. */
export interface FixtureShape {
  readonly barLengthMm: number;
  readonly boardWidthMm: number;
  readonly faceOutMm: number;
  readonly faceAcrossMm: number;
}

/** An invented bar fixture, drawn until the one in use is chosen. */
export const NOMINAL_FIXTURE: FixtureShape = {
  barLengthMm: 2000,
  boardWidthMm: 800,
  faceOutMm: 60,
  faceAcrossMm: 0,
};

/** Everything a plan is drawn from. Only the sheet is needed: without an answer the plan shows a typical layout. */
export interface PlanRequest {
  readonly sheet: Sheet;
  /** Size of ordinary labels, points: 14 on the screen, about 7.5 on A4. */
  readonly textPt: number;
  readonly view: 'asIStand' | 'carUp';
  readonly decimalSign: DecimalSign;
  readonly unit: LengthUnit;
  readonly car?: CarShape;
  readonly fixture?: FixtureShape;
  readonly answer?: PlacementAnswer;
  /** The stations of this stand of the fixture, the repositioned one first. */
  readonly stations: readonly StationRequirement[];
  /** The station whose target the detail shows; the first one when absent. */
  readonly station?: string;
  /** The readings that can be touched. */
  readonly recipe: readonly ReadingSpec[];
  /** Slot keys of the readings that are recorded and not struck. */
  readonly taken: readonly string[];
  /** Slot key of the reading that comes next, when it is not the answer's. */
  readonly next?: string;
  /** Slot keys of readings that do not fit the others: pointed at, never left out. */
  readonly suspects?: readonly string[];
  /** Where the plumb lines stand from the hubs, mm; typical when absent. */
  readonly sideArmMm?: number;
  /** How many standard uncertainties the decision rule adds: 1.645 unless another rule is frozen in the job. */
  readonly guardFactor?: number;
  /**
   * `screen`: readings can be touched and the next one pulses. `paper`: neither, but the deviations stand in figures
   * under the detail.
   */
  readonly medium: 'screen' | 'paper';
}

/** A stand of the fixture in plan: the face's centre, the heading of the face's outward normal, the bar. */
export interface FixtureStand {
  readonly face: ScenePoint;
  readonly facingRad: number;
  readonly bar: ScenePoint;
  readonly endCarLeft: ScenePoint;
  readonly endCarRight: ScenePoint;
}

/** The resolved plan. */
export interface PlanModel {
  readonly car: CarShape;
  readonly fixture: FixtureShape;
  readonly points: Readonly<Record<ReadingPoint, ScenePoint>>;
  readonly datumKnown: boolean;
  readonly vehicle?: VehicleFound;
  /** Absent when no station is asked for. */
  readonly required?: FixtureStand;
  /** Required faces of the stations that are not the one shown. */
  readonly otherFaces: readonly ScenePoint[];
  readonly found?: FixtureStand;
  readonly covariance?: PlanCovariance;
  readonly finding?: StationFinding;
  readonly requirement?: StationRequirement;
}

/** How far car-side lines run past the hubs in a typical layout, mm (common practice, no source). */
const LINE_PAST_HUB_MM = 1000;
/** A typical side arm from the hub to its plumb line, mm. */
const SIDE_ARM_MM = 250;

const at = (xMm: number, yMm: number): ScenePoint => ({ xMm, yMm });

function carOf(request: PlanRequest): CarShape {
  const drawn = request.car ?? NOMINAL_CAR;
  const vehicle = request.answer?.vehicle;
  if (vehicle === undefined) return drawn;
  const face = vehicle.bodyFaceAheadMm;
  return {
    ...drawn,
    wheelbaseMm: vehicle.wheelbase.value,
    trackFrontMm: vehicle.trackFront.value,
    trackRearMm: vehicle.trackRear.value,
    frontOverhangMm: face === undefined ? drawn.frontOverhangMm : face - vehicle.wheelbase.value,
  };
}

function wheelPlace(wheel: Wheel, car: CarShape): ScenePoint {
  const track = wheel.startsWith('F') ? car.trackFrontMm : car.trackRearMm;
  return at(wheel.startsWith('F') ? car.wheelbaseMm : 0, wheel.endsWith('L') ? track / 2 : -track / 2);
}

type CarPoints = Record<Exclude<VehiclePoint, 'barEnd.carLeft' | 'barEnd.carRight'>, ScenePoint>;

function typicalPoints(car: CarShape, armMm: number): CarPoints {
  const hub = (wheel: Wheel): ScenePoint => wheelPlace(wheel, car);
  const mark = (wheel: Wheel): ScenePoint => {
    const place = hub(wheel);
    return at(place.xMm, place.yMm + (wheel.endsWith('L') ? armMm : -armMm));
  };
  const past = (wheel: Wheel, byMm: number): ScenePoint => at(mark(wheel).xMm + byMm, mark(wheel).yMm);
  return {
    'hub.FL': hub('FL'),
    'hub.FR': hub('FR'),
    'hub.RL': hub('RL'),
    'hub.RR': hub('RR'),
    'mark.FL': mark('FL'),
    'mark.FR': mark('FR'),
    'mark.RL': mark('RL'),
    'mark.RR': mark('RR'),
    'ahead.L': past('FL', LINE_PAST_HUB_MM),
    'ahead.R': past('FR', LINE_PAST_HUB_MM),
    'behind.L': past('RL', -LINE_PAST_HUB_MM),
    'behind.R': past('RR', -LINE_PAST_HUB_MM),
    bodyFace: at(car.wheelbaseMm + car.frontOverhangMm, 0),
  };
}

/** The plan of a fixture whose target face is at `face` and looks along `facingRad`. */
export function fixtureStand(face: ScenePoint, facingRad: number, shape: FixtureShape): FixtureStand {
  const out = at(Math.cos(facingRad), Math.sin(facingRad));
  const across = at(-out.yMm, out.xMm);
  const bar = at(
    face.xMm - out.xMm * shape.faceOutMm - across.xMm * shape.faceAcrossMm,
    face.yMm - out.yMm * shape.faceOutMm - across.yMm * shape.faceAcrossMm,
  );
  const half = shape.barLengthMm / 2;
  const plus = at(bar.xMm + across.xMm * half, bar.yMm + across.yMm * half);
  const minus = at(bar.xMm - across.xMm * half, bar.yMm - across.yMm * half);
  const plusIsLeft = across.yMm > 0 || (across.yMm === 0 && across.xMm > 0);
  return {
    face,
    facingRad,
    bar,
    endCarLeft: plusIsLeft ? plus : minus,
    endCarRight: plusIsLeft ? minus : plus,
  };
}

function datumAheadMm(from: AheadDatum, car: CarShape, vehicle: VehicleFound | undefined): number {
  switch (from) {
    case 'rearAxle':
      return 0;
    case 'frontAxle':
      return vehicle?.frontAxleAheadMm ?? car.wheelbaseMm;
    case 'bodyFace':
      return vehicle?.bodyFaceAheadMm ?? car.wheelbaseMm + car.frontOverhangMm;
  }
}

/** Where a station's target must be by its own datums, for a plan without a solved fixture. */
function requiredFace(
  station: StationRequirement,
  car: CarShape,
  vehicle: VehicleFound | undefined,
): { readonly face: ScenePoint; readonly facingRad: number } {
  const aheadMm = datumAheadMm(station.ahead.from, car, vehicle) + station.ahead.value;
  const lineRad = vehicle?.thrustLine?.angle.value ?? 0;
  const leftLine = station.left.from === 'thrustLine' ? lineRad : 0;
  const yawLine = station.yaw.from === 'thrustLine' ? lineRad : 0;
  return {
    face: at(aheadMm, aheadMm * Math.tan(leftLine) + station.left.value / Math.cos(leftLine)),
    facingRad: station.yaw.value + yawLine,
  };
}

const planOf = (pose: PoseInVehicle): ScenePoint => at(pose.aheadMm, pose.leftMm);
const pointOf = (point: PointInVehicle): ScenePoint => at(point.aheadMm, point.leftMm);

function chosen<T>(items: readonly T[], id: string | undefined, idOf: (item: T) => string): T | undefined {
  return id === undefined ? items[0] : items.find((item) => idOf(item) === id);
}

/** Rows and columns of ahead and left in a pose's covariance. */
function planCovariance(finding: StationFinding): PlanCovariance {
  const cell = (row: number, column: number): number => finding.covariance[row]?.[column] ?? 0;
  return { xx: cell(0, 0), xy: cell(0, 1), yy: cell(1, 1) };
}

/** Resolves a request: every point a reading can name has a place, measured or typical. */
export function planModel(request: PlanRequest): PlanModel {
  const car = carOf(request);
  const fixture = request.fixture ?? NOMINAL_FIXTURE;
  const vehicle = request.answer?.vehicle;
  const requirement = chosen(request.stations, request.station, (station) => station.id);
  const finding = chosen(request.answer?.stations ?? [], request.station, (station) => station.station);
  const required = requiredStand(request, finding, requirement, car, vehicle, fixture);
  const found = foundStand(request, finding);
  const standing = found ?? required ?? fixtureStand(at(car.wheelbaseMm + 2400, 0), Math.PI, fixture);
  const measured = vehicle?.points ?? {};
  const points: Record<ReadingPoint, ScenePoint> = {
    ...typicalPoints(car, request.sideArmMm ?? SIDE_ARM_MM),
    'barEnd.carLeft': standing.endCarLeft,
    'barEnd.carRight': standing.endCarRight,
    'floor.carLeftEnd': standing.endCarLeft,
    'floor.carRightEnd': standing.endCarRight,
    target: standing.face,
    barCentre: standing.bar,
  };
  for (const [name, place] of Object.entries(measured)) {
    if (isReadingPoint(name, points)) points[name] = at(place.aheadMm, place.leftMm);
  }
  return {
    car,
    fixture,
    points,
    datumKnown: vehicle !== undefined,
    ...(vehicle === undefined ? {} : { vehicle }),
    ...(required === undefined ? {} : { required }),
    otherFaces: request.stations
      .filter((station) => station.id !== requirement?.id)
      .map((station) => requiredFace(station, car, vehicle).face),
    ...(found === undefined ? {} : { found }),
    ...(finding === undefined ? {} : { finding, covariance: planCovariance(finding) }),
    ...(requirement === undefined ? {} : { requirement }),
  };
}

function isReadingPoint(name: string, points: Record<ReadingPoint, ScenePoint>): name is ReadingPoint {
  return Object.hasOwn(points, name);
}

/** A slide station keeps the bar of the station the fixture was placed for and has a face of its own. */
function requiredStand(
  request: PlanRequest,
  finding: StationFinding | undefined,
  requirement: StationRequirement | undefined,
  car: CarShape,
  vehicle: VehicleFound | undefined,
  fixture: FixtureShape,
): FixtureStand | undefined {
  const [placedFor] = request.stations;
  if (requirement === undefined || placedFor === undefined) return undefined;
  const byDatum = requiredFace(requirement, car, vehicle);
  const face = finding === undefined ? byDatum.face : planOf(finding.required);
  const facingRad = finding === undefined ? byDatum.facingRad : finding.required.yawRad;
  if (requirement.kind === 'reposition') return fixtureStand(face, facingRad, fixture);
  return { ...fixtureStand(requiredFace(placedFor, car, vehicle).face, facingRad, fixture), face };
}

function foundStand(request: PlanRequest, finding: StationFinding | undefined): FixtureStand | undefined {
  const standing = request.answer?.fixture;
  if (finding === undefined || standing === undefined) return undefined;
  return {
    face: planOf(finding.target),
    facingRad: finding.target.yawRad,
    bar: planOf(standing.bar),
    endCarLeft: pointOf(standing.barEnds.carLeft),
    endCarRight: pointOf(standing.barEnds.carRight),
  };
}

/** True while a wheel of the car has a measured hub. */
export function hubKnown(model: PlanModel, wheel: Wheel): boolean {
  return model.vehicle?.points[`hub.${wheel}`] !== undefined;
}

/** The four wheels in walking order. */
export const PLAN_WHEELS: readonly Wheel[] = WHEELS;
