/**
 * What to set on a fixture that stands upright by gravity on another place of a real floor: the number on its own scale,
 * and the pitch and roll against gravity. The procedure gives the target in the vehicle frame, whose up is the normal of the
 * contact plane; on a slope that is not the fixture's up. A car 0.5 % nose down asks 5 m ahead for 25 mm less, and for a
 * face that leans by the same 0.5 %. A level floor is the special case, not an assumption.
 *
 * u: every height at the wheels and at the fixture's foot, the tilt of the level plane they were read from, the scale's
 * zero, and what the rock of the car leaves open. The tilt turns the contact plane and lowers the foot alike, so it drops
 * out of the scale's number and stays in pitch and roll.
 */
import { type ContactError, contactPlane } from '../bay/contactPlane.ts';
import type { KnownHeight } from '../bay/weightedPlane.ts';
import { type AtWheels, atWheels, WHEEL_NAMES, wheelList } from '../bay/wheels.ts';
import { rotationMatrix, type YawPitchRoll, yawPitchRoll } from '../geometry/rotation.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { type Matrix, multiply, transpose, zeroMatrix } from '../linalg/matrix.ts';
import { invariant, ok, type Result } from '../result.ts';
import { type Budget, propagateJointly, quantity, type Values } from '../uncertainty/index.ts';
import { wrapRad } from '../units.ts';
import { type FrameError, pointFromVehicle, type VehicleFrame, vehicleFrame } from './frame.ts';
import { type JointInputs, joined, jointInputs } from './knownPlaces.ts';

/** A target as the procedure wants it: face centre and attitude in the vehicle frame, mm and rad (ISO 8855). */
export interface RequiredTarget extends YawPitchRoll {
  readonly aheadMm: number;
  readonly leftMm: number;
  readonly upMm: number;
}

/** Everything the setting is computed from; heights in one frame with Z up by gravity, from one level plane, mm. */
export interface FixtureSettingInput {
  /** Hub centres, which give the car's heading and origin; taken as exact here (a few mm move nothing on a slope). */
  readonly hubs: AtWheels<Vec3>;
  /** Contact heights at the wheels. */
  readonly contacts: AtWheels<KnownHeight>;
  /** Height of the floor under the fixture's foot, where its scale counts from. */
  readonly foot: KnownHeight;
  /**
   * Of the heights at front left, front right, rear left, rear right and foot, mm^2, where they share readings (see
   * `standingOn`); absent, they were read apart, each with its own u.
   */
  readonly covariance?: Matrix;
  /** u of the level plane's tilt, a pure number. */
  readonly uTilt: number;
  readonly required: RequiredTarget;
  /**
   * What the scale reads when the face centre is `zeroAboveFootMm` over the foot, with the u of that height; a scale that
   * counts from the floor has 0. The scale runs along the upright mast.
   */
  readonly zeroAboveFootMm: number;
  readonly uZeroMm: number;
}

/** The setting. */
export interface FixtureSetting {
  /** Number to set on the scale, mm. */
  readonly scale: Budget;
  /** Attitude of the face against gravity, in the fixture frame, rad: pitch positive when the face looks down (top toward the car). */
  readonly pitch: Budget;
  /** Roll positive with the fixture frame's own left side up: for a face that looks at the car that is the car's right. */
  readonly roll: Budget;
  /** Heading of the face in the frame of the heights, rad. */
  readonly yawRad: number;
  /** Face centre in the frame of the heights, mm. */
  readonly faceCentre: Vec3;
  /** How much the scale's number differs from the required height over the contact plane, mm: the work of the slope. */
  readonly overLevelMm: number;
}

/** What keeps a setting from being computed. */
export type FixtureSettingError = ContactError | FrameError;

type X = Values<string>;
const of = (x: X, name: string): number => {
  const found = x[name];
  invariant(found !== undefined, `no input named ${name}`);
  return found;
};

/** Names of the uncertain inputs beside the heights at the wheels. */
const OTHERS = { foot: 'foot', zero: 'scale zero', tiltX: 'level tilt x', tiltY: 'level tilt y' } as const;
const ROCK = { x: 'rock along x', y: 'rock along y' } as const;

/** The heights with what they share, and the rest, each on its own. */
function inputsOf(input: FixtureSettingInput, rock: { readonly x: number; readonly y: number }): JointInputs {
  const heights = [...wheelList(input.contacts), input.foot];
  const names = [...WHEEL_NAMES, OTHERS.foot];
  const apart = zeroMatrix(heights.length, heights.length);
  heights.forEach((h, i) => {
    apart.data[i * heights.length + i] = h.uMm * h.uMm;
  });
  const list = [
    quantity(OTHERS.zero, input.zeroAboveFootMm, input.uZeroMm),
    quantity(OTHERS.tiltX, 0, input.uTilt),
    quantity(OTHERS.tiltY, 0, input.uTilt),
    quantity(ROCK.x, 0, rock.x),
    quantity(ROCK.y, 0, rock.y),
  ];
  const known = jointInputs(
    names,
    heights.map((h) => h.zMm),
    input.covariance ?? apart,
    Number.POSITIVE_INFINITY,
  );
  return joined(known, { inputs: Object.fromEntries(list.map((q) => [q.id, q])), correlations: [] });
}

/** Height at a place when the level plane was tilted: what is read too high is taken off again. */
const levelled = (x: X, name: string, at: KnownHeight): number =>
  of(x, name) + of(x, OTHERS.tiltX) * at.xMm + of(x, OTHERS.tiltY) * at.yMm;

function frameAt(x: X, input: FixtureSettingInput): Result<VehicleFrame, FrameError> {
  const lean = (at: KnownHeight): number => of(x, ROCK.x) * at.xMm + of(x, ROCK.y) * at.yMm;
  const middle = WHEEL_NAMES.reduce((sum, wheel) => sum + lean(input.contacts[wheel]) / 4, 0);
  const floor = atWheels((wheel): Vec3 => {
    const at = input.contacts[wheel];
    return [at.xMm, at.yMm, levelled(x, wheel, at) + lean(at) - middle];
  });
  return vehicleFrame(input.hubs, floor);
}

/** The face centre and the attitude against gravity for one set of heights. */
function poseAt(
  x: X,
  input: FixtureSettingInput,
): Result<{ readonly centre: Vec3; readonly face: YawPitchRoll }, FrameError> {
  const frame = frameAt(x, input);
  if (!frame.ok) return frame;
  const { required } = input;
  const centre = pointFromVehicle(frame.value, [required.aheadMm, required.leftMm, required.upMm]);
  const face = yawPitchRoll(multiply(transpose(frame.value.axes), rotationMatrix(required)));
  return ok({ centre, face });
}

/** The scale number, pitch and roll to set, each with its u and the share of every height. */
export function fixtureSetting(input: FixtureSettingInput): Result<FixtureSetting, FixtureSettingError> {
  const contact = contactPlane(input.contacts, input.uTilt);
  if (!contact.ok) return contact;
  const known = inputsOf(input, { x: contact.value.uDefinitionX, y: contact.value.uDefinitionY });
  const found = Object.fromEntries(Object.entries(known.inputs).map(([name, q]) => [name, q.value]));
  const pose = poseAt(found, input);
  if (!pose.ok) return pose;
  const { centre, face } = pose.value;
  const moved = (x: X): { readonly centre: Vec3; readonly face: YawPitchRoll } => {
    const there = poseAt(x, input);
    invariant(there.ok, 'a frame stands when its heights move by their u');
    return there.value;
  };
  const joint = propagateJointly(known, {
    scale: (x) => moved(x).centre[2] - levelled(x, OTHERS.foot, input.foot) - of(x, OTHERS.zero),
    pitch: (x) => moved(x).face.pitchRad,
    roll: (x) => wrapRad(moved(x).face.rollRad - face.rollRad) + face.rollRad,
  });
  return ok({
    scale: joint.results.scale,
    pitch: joint.results.pitch,
    roll: joint.results.roll,
    yawRad: face.yawRad,
    faceCentre: centre,
    overLevelMm: joint.results.scale.value + input.zeroAboveFootMm - input.required.upMm,
  });
}
