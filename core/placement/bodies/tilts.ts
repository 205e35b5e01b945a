/** Lean and tilt of whatever carries a target: signs in the fixture's own axes, readings, and what is held where none is. */
import type { Body, Reading, Shared } from '../../adjust/network.ts';
import { err, ok, type Result } from '../../result.ts';
import { tiltAfterReversal } from '../../uncertainty/instruments.ts';
import type { WorkUncertainties } from '../defaults.ts';
import { leftSign } from '../facing.ts';
import { FIXTURE_ID } from '../names.ts';
import type { PlacementError } from '../placementError.ts';
import type { PlacementInput } from '../placementInput.ts';
import type { SlotValue, SlotValues } from '../readings.ts';
import { slotKey } from '../recipeSpec.ts';
import { meanOfRepeats } from '../tape.ts';
import { tiltByReversal } from './reversal.ts';

/**
 * The signed tilts of the fixture in its own axes (ISO 8855): pitch is positive when the top leans out of the face, that
 * is toward the car it faces; roll lifts the end along Y, which is the car's right for a face that looks at the car from
 * ahead, so that "car's-left end low" is positive there and negative behind the car.
 */
export function signedTilts(
  values: SlotValues,
  yawRad: number,
): Result<{ readonly pitchRad: number; readonly rollRad: number }, PlacementError> {
  const pitch = values.get('fixture.pitch');
  const roll = values.get('fixture.roll');
  return tiltsOf(pitch, roll, yawRad);
}

function tiltsOf(
  pitch: SlotValue | undefined,
  roll: SlotValue | undefined,
  yawRad: number,
): Result<{ readonly pitchRad: number; readonly rollRad: number }, PlacementError> {
  const open = [pitch, roll].flatMap((value) =>
    value !== undefined && value.direction === undefined && value.value !== 0 ? [slotKey(value.slot)] : [],
  );
  if (open.length > 0) return err({ code: 'placement/directionMissing', readingIds: open });
  const towardCar = pitch?.direction === 'awayFromCar' ? -1 : 1;
  const carLeftLow = roll?.direction === 'carRightLow' ? -1 : 1;
  return ok({
    pitchRad: towardCar * (pitch?.value ?? 0),
    rollRad: -leftSign(yawRad) * carLeftLow * (roll?.value ?? 0),
  });
}

/** One inclinometer reading of a tilt, signed in the fixture's own axes. */
export function tiltReading(
  value: SlotValue,
  axis: 'pitch' | 'roll',
  signedRad: number,
  work: WorkUncertainties,
): Reading {
  const { keptRad, repeatRad } = tiltAfterReversal(work.inclinometerRad, work.inclinometerKeptRad);
  const { u, dof } = meanOfRepeats([keptRad], repeatRad, value.count);
  return {
    kind: 'tilt',
    id: `fixture.${axis}`,
    instrument: 'inclinometer',
    body: FIXTURE_ID,
    axis,
    valueRad: signedRad,
    uRad: u,
    dof,
  };
}

/** A tilt as the network takes it: the start of its angle, its readings, and whether it is free at all. */
export interface TiltPart {
  readonly startRad: number;
  readonly readings: readonly Reading[];
  readonly shared: readonly Shared[];
}

/** Pitch and roll of a body from its readings; a tilt that is free and not read stands at nothing. */
export function tiltParts(
  input: PlacementInput,
  values: SlotValues,
  yawRad: number,
  work: WorkUncertainties,
): Result<{ readonly pitch: TiltPart; readonly roll: TiltPart }, PlacementError> {
  const [roll, pitch] = [values.get('fixture.roll'), values.get('fixture.pitch')];
  const tilts = tiltsOf(pitch, roll, yawRad);
  if (!tilts.ok) return tilts;
  const one = (axis: 'pitch' | 'roll', value: SlotValue | undefined, signedRad: number): TiltPart => ({
    startRad: signedRad,
    readings: value === undefined ? [] : [tiltReading(value, axis, signedRad, work)],
    shared: [],
  });
  const rollPart = one('roll', roll, tilts.value.rollRad);
  if (input.body !== 'plate') return ok({ pitch: one('pitch', pitch, tilts.value.pitchRad), roll: rollPart });
  const reversal = tiltByReversal(values, work);
  return reversal.ok ? ok({ pitch: reversal.value, roll: rollPart }) : reversal;
}

/** How a tilt of the body's pose is known: from its readings, or held where nobody reads it. */
export const tiltKnowledge = ({ readings, startRad }: TiltPart): Body['pose']['pitch'] =>
  readings.length === 0 ? { state: 'fixed', valueRad: 0 } : { state: 'free', startRad };
