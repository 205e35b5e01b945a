/**
 * The six deviations of the placed target for many trials of one network at once: `frameOf`, `targetAtCentre` and
 * `deviations` of model.ts written out on plain numbers, without an object per trial. A test holds the two together.
 */
import { LANES } from '../adjust/trials/laneState.ts';
import type { Readjuster } from '../adjust/trials/readjust.ts';
import { rotationMatrix } from '../geometry/rotation.ts';
import { at } from '../linalg/at.ts';
import { FIXTURE_ID, hubId, markId, pointId } from './names.ts';
import { WHEELS } from './placementReading.ts';
import type { StationRequirement } from './requirement.ts';

/** Writes the deviations of all lanes: result k (ahead, left, up in mm, yaw, pitch, roll in rad) to into[k][from + lane]. */
export type DeviationWriter = (into: readonly Float64Array[], from: number) => void;

/** The vehicle frame of one lane: origin and three axes in the bay. */
interface LaneFrame {
  readonly origin: Float64Array;
  readonly ahead: Float64Array;
  readonly left: Float64Array;
  readonly up: Float64Array;
  /** Front-axle midpoint less rear-axle midpoint. */
  readonly axis: Float64Array;
}

/** Writer for a station that the fixture itself is placed for (no slide). */
export function deviationWriter(trials: Readjuster, station: StationRequirement): DeviationWriter {
  const { numbers, rotation } = trials.state;
  const frame: LaneFrame = {
    origin: new Float64Array(3),
    ahead: new Float64Array(3),
    left: new Float64Array(3),
    up: new Float64Array(3),
    axis: new Float64Array(3),
  };
  const frameAt = frameReader(trials, frame);
  const target = trials.placeOffset(pointId('target'));
  const body = trials.rotationOffset(FIXTURE_ID);
  const datum = aheadDatum(trials, station, frame);
  const lineAt = lineReader(trials, station.left.from === 'thrustLine' || station.yaw.from === 'thrustLine');
  const [leftLine, yawLine] = [station.left.from === 'thrustLine', station.yaw.from === 'thrustLine'];
  const required = rotationMatrix({
    yawRad: station.yaw.value,
    pitchRad: station.pitch.value,
    rollRad: station.roll.value,
  }).data;
  const turn = new Float64Array(9);
  return (into, from) => {
    const [outAhead, outLeft, outUp, outYaw, outPitch, outRoll] = into;
    if (!outAhead || !outLeft || !outUp || !outYaw || !outPitch || !outRoll) return;
    for (let i = 0; i < LANES; i++) {
      frameAt(i);
      const { origin, ahead, left, up } = frame;
      const dx = at(numbers, target + i) - at(origin, 0);
      const dy = at(numbers, target + LANES + i) - at(origin, 1);
      const dz = at(numbers, target + 2 * LANES + i) - at(origin, 2);
      const aheadMm = along(ahead, dx, dy, dz);
      const leftMm = along(left, dx, dy, dz);
      const line = lineAt(i);
      outAhead[from + i] = aheadMm - datum(i) - station.ahead.value;
      outLeft[from + i] =
        (leftLine ? Math.cos(line) * leftMm - Math.sin(line) * aheadMm : leftMm) - station.left.value;
      outUp[from + i] = along(up, dx, dy, dz) - station.up.value;
      turnFrom(turn, frame, rotation, body + i, required);
      if (yawLine) turnBackBy(turn, line);
      const t00 = at(turn, 0);
      const t10 = at(turn, 3);
      outYaw[from + i] = Math.atan2(t10, t00);
      outPitch[from + i] = Math.atan2(-at(turn, 6), Math.sqrt(t00 * t00 + t10 * t10));
      outRoll[from + i] = Math.atan2(at(turn, 7), at(turn, 8));
    }
  };
}

const along = (axis: Float64Array, dx: number, dy: number, dz: number): number =>
  at(axis, 0) * dx + at(axis, 1) * dy + at(axis, 2) * dz;

/** Takes off a turn of the required heading about up: a heading that follows the thrust line turns with it. */
function turnBackBy(turn: Float64Array, line: number): void {
  const c = Math.cos(line);
  const s = Math.sin(line);
  for (let k = 0; k < 9; k += 3) {
    const first = at(turn, k);
    const second = at(turn, k + 1);
    turn[k] = first * c - second * s;
    turn[k + 1] = first * s + second * c;
  }
}

/** The frame of vehicleFrame (core/vehicle/frame.ts): plane of the four marks, axle midpoints of the four hubs. */
function frameReader(trials: Readjuster, frame: LaneFrame): (lane: number) => void {
  const { numbers } = trials.state;
  const marks = Int32Array.from(WHEELS, (wheel) => trials.placeOffset(markId(wheel)));
  const hubs = Int32Array.from(WHEELS, (wheel) => trials.placeOffset(hubId(wheel)));
  const coordinate = (places: Int32Array, p: number, axis: number, lane: number): number =>
    at(numbers, (places[p] ?? 0) + axis * LANES + lane);
  const mean = new Float64Array(3);
  return (lane) => {
    for (let axis = 0; axis < 3; axis++) {
      let sum = 0;
      for (let p = 0; p < 4; p++) sum += coordinate(marks, p, axis, lane);
      mean[axis] = sum / 4;
    }
    let xx = 0;
    let xy = 0;
    let yy = 0;
    let xz = 0;
    let yz = 0;
    for (let p = 0; p < 4; p++) {
      const x = coordinate(marks, p, 0, lane) - at(mean, 0);
      const y = coordinate(marks, p, 1, lane) - at(mean, 1);
      const z = coordinate(marks, p, 2, lane) - at(mean, 2);
      xx += x * x;
      xy += x * y;
      yy += y * y;
      xz += x * z;
      yz += y * z;
    }
    const determinant = xx * yy - xy * xy;
    const slopeX = (yy * xz - xy * yz) / determinant;
    const slopeY = (xx * yz - xy * xz) / determinant;
    const scale = 1 / Math.sqrt(1 + slopeX * slopeX + slopeY * slopeY);
    const { origin, ahead, left, up, axis } = frame;
    up[0] = -slopeX * scale;
    up[1] = -slopeY * scale;
    up[2] = scale;
    // WHEELS runs FL, FR, RL, RR.
    for (let a = 0; a < 3; a++) {
      const rear = (coordinate(hubs, 2, a, lane) + coordinate(hubs, 3, a, lane)) / 2;
      origin[a] = rear;
      axis[a] = (coordinate(hubs, 0, a, lane) + coordinate(hubs, 1, a, lane)) / 2 - rear;
    }
    const z0 = at(mean, 2) - slopeX * at(mean, 0) - slopeY * at(mean, 1);
    const above = along(up, at(origin, 0), at(origin, 1), at(origin, 2) - z0);
    const climb = along(up, at(axis, 0), at(axis, 1), at(axis, 2));
    let square = 0;
    for (let a = 0; a < 3; a++) {
      origin[a] = at(origin, a) - above * at(up, a);
      const level = at(axis, a) - climb * at(up, a);
      ahead[a] = level;
      square += level * level;
    }
    const length = Math.sqrt(square);
    for (let a = 0; a < 3; a++) ahead[a] = at(ahead, a) / length;
    left[0] = at(up, 1) * at(ahead, 2) - at(up, 2) * at(ahead, 1);
    left[1] = at(up, 2) * at(ahead, 0) - at(up, 0) * at(ahead, 2);
    left[2] = at(up, 0) * at(ahead, 1) - at(up, 1) * at(ahead, 0);
  };
}

/** How far ahead of the rear axle the station's datum lies in a lane; the frame is that of the lane. */
function aheadDatum(
  trials: Readjuster,
  { ahead: { from } }: StationRequirement,
  { axis, ahead, origin }: LaneFrame,
): (lane: number) => number {
  if (from === 'rearAxle') return () => 0;
  if (from === 'frontAxle') return () => along(ahead, at(axis, 0), at(axis, 1), at(axis, 2));
  const { numbers } = trials.state;
  const face = trials.placeOffset(pointId('bodyFace'));
  const height = trials.offsetOf('bodyFace.height/value');
  return (i) => {
    const dx = at(numbers, face + i) - at(origin, 0);
    const dy = at(numbers, face + LANES + i) - at(origin, 1);
    const dz = at(numbers, face + 2 * LANES + i) + at(numbers, height + i) - at(origin, 2);
    return along(ahead, dx, dy, dz);
  };
}

/** Heading of the thrust line in a lane, from the two rear toes; 0 where nothing is counted from it. */
function lineReader(trials: Readjuster, wanted: boolean): (lane: number) => number {
  if (!wanted) return () => 0;
  const { numbers } = trials.state;
  const [left, right] = [trials.offsetOf('toe.RL/value'), trials.offsetOf('toe.RR/value')];
  return (i) => (at(numbers, right + i) - at(numbers, left + i)) / 2;
}

/** The turn from the required to the found attitude: axes times the body's rotation times the required one turned back. */
function turnFrom(
  turn: Float64Array,
  { ahead, left, up }: LaneFrame,
  rotation: Float64Array,
  body: number,
  required: Float64Array,
): void {
  for (let k = 0; k < 3; k++) {
    const axis = k === 0 ? ahead : k === 1 ? left : up;
    const a0 = at(axis, 0);
    const a1 = at(axis, 1);
    const a2 = at(axis, 2);
    let t0 = 0;
    let t1 = 0;
    let t2 = 0;
    for (let j = 0; j < 3; j++) {
      const found =
        a0 * at(rotation, body + j * LANES) +
        a1 * at(rotation, body + (3 + j) * LANES) +
        a2 * at(rotation, body + (6 + j) * LANES);
      t0 += found * at(required, j);
      t1 += found * at(required, 3 + j);
      t2 += found * at(required, 6 + j);
    }
    turn[3 * k] = t0;
    turn[3 * k + 1] = t1;
    turn[3 * k + 2] = t2;
  }
}
