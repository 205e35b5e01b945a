/**
 * The radius of a tyre under its car: from hub to road. Measured, it is the hub's height over the contact plane. From the
 * size alone it is roughly 0.47 of the diameter (common practice, no source), known to about a hundredth of the diameter:
 * good enough to see a wrong tyre, not to set a target's height. A mismatch of radii lifts that corner of the car.
 */
import type { KnownHeight } from '../bay/weightedPlane.ts';
import { type AtWheels, atWheels } from '../bay/wheels.ts';
import { err, ok, type Result } from '../result.ts';
import { rectangular } from '../uncertainty/quantity.ts';
import { type BodyAttitude, type BodyCornersError, bodyAttitude, type KnownMm } from './bodyAttitude.ts';
import { type TyreSize, tyreDiameterMm } from './tyre.ts';

/** Loaded radius over diameter, and how far it may be off either way (common practice, no source). */
const LOADED_SHARE = 0.47;
const LOADED_SHARE_LIMIT = 0.01;

/** How well the pressure rule below holds, share of the change it gives (common practice, no source). */
const PRESSURE_RULE_DOUBT = 0.3;

/** Loaded radius by the size alone, mm: 205/55R16 gives 297.0 with u 3.6. */
export function loadedRadiusOfSize(size: TyreSize): KnownMm {
  const diameter = tyreDiameterMm(size);
  return { mm: LOADED_SHARE * diameter, uMm: rectangular(LOADED_SHARE_LIMIT * diameter) };
}

/**
 * Loaded radii as measured: each hub's height over its own contact, mm, on a floor whose slopes cost nothing here (1 % is
 * 0.005 % of the radius). Hub and contact are read from one level plane a few decimetres apart: its tilt drops out.
 */
export function loadedRadii(hubs: AtWheels<KnownHeight>, contacts: AtWheels<KnownHeight>): AtWheels<KnownMm> {
  return atWheels((wheel) => ({
    mm: hubs[wheel].zMm - contacts[wheel].zMm,
    uMm: Math.hypot(hubs[wheel].uMm, contacts[wheel].uMm),
  }));
}

/** What cannot be a loaded radius or a pressure. */
export type LoadedRadiusError =
  | { readonly code: 'vehicle/radiusImplausible'; readonly radiusMm: number; readonly diameterMm: number }
  | { readonly code: 'vehicle/pressureImplausible'; readonly pressureKPa: number };

/** A loaded tyre is flattened by at least nothing and, on a car that may be driven, by less than a sixth of its diameter. */
const MOST_FLATTENED_SHARE = 1 / 6;

/**
 * Change of the loaded radius when the pressure changes at the same load, mm: the tyre's flattening goes about inversely
 * with the pressure (contact area times pressure carries the load; a coarse rule, common practice, no source). From 250 to
 * 220 kPa a tyre of 632 mm diameter on 297 mm goes down by 2.6 mm.
 */
export function radiusChangeByPressure(
  diameterMm: number,
  radiusMm: number,
  fromKPa: number,
  toKPa: number,
): Result<KnownMm, LoadedRadiusError> {
  const flattened = diameterMm / 2 - radiusMm;
  if (!(flattened >= 0 && flattened < MOST_FLATTENED_SHARE * diameterMm)) {
    return err({ code: 'vehicle/radiusImplausible', radiusMm, diameterMm });
  }
  for (const pressureKPa of [fromKPa, toKPa]) {
    if (!(pressureKPa >= 50 && pressureKPa <= 1000))
      return err({ code: 'vehicle/pressureImplausible', pressureKPa });
  }
  const change = flattened * (1 - fromKPa / toKPa);
  return ok({ mm: change, uMm: rectangular(PRESSURE_RULE_DOUBT * Math.abs(change)) });
}

/** Where the wheels stand in the car. mm. */
export interface WheelPlaces {
  readonly wheelbaseMm: number;
  readonly trackFrontMm: number;
  readonly trackRearMm: number;
}

/** Loaded radii at the four wheels with what their mismatch does. */
export interface TyreMismatch {
  /** Left minus right at each axle, and front mean minus rear mean, mm. */
  readonly front: KnownMm;
  readonly rear: KnownMm;
  readonly frontOverRear: KnownMm;
  /** The body's attitude against four radii as `stated`, springs taken as they are. */
  readonly attitude: BodyAttitude;
}

/** Mismatch of radii across and along the car, against the radii the car should have, and the body's turn from it. */
export function tyreMismatch(
  radii: AtWheels<KnownMm>,
  stated: AtWheels<number>,
  places: WheelPlaces,
): Result<TyreMismatch, BodyCornersError> {
  const { FL, FR, RL, RR } = radii;
  const attitude = bodyAttitude(
    atWheels((wheel) => {
      const front = wheel === 'FL' || wheel === 'FR';
      const track = front ? places.trackFrontMm : places.trackRearMm;
      return {
        aheadMm: front ? places.wheelbaseMm : 0,
        leftMm: (wheel === 'FL' || wheel === 'RL' ? 1 : -1) * (track / 2),
        raisedMm: radii[wheel].mm - stated[wheel],
        uMm: radii[wheel].uMm,
      };
    }),
  );
  if (!attitude.ok) return attitude;
  const all = Math.hypot(FL.uMm, FR.uMm, RL.uMm, RR.uMm);
  return ok({
    front: { mm: FL.mm - FR.mm, uMm: Math.hypot(FL.uMm, FR.uMm) },
    rear: { mm: RL.mm - RR.mm, uMm: Math.hypot(RL.uMm, RR.uMm) },
    frontOverRear: { mm: (FL.mm + FR.mm - RL.mm - RR.mm) / 2, uMm: all / 2 },
    attitude: attitude.value,
  });
}
