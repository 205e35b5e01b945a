/**
 * The number to set on the fixture's own scale for a station, from the floor as it was levelled for this job: the staff under
 * the four wheels and under the fixture. The scale is taken to count from the floor under it to the target's centre.
 */
import { floorHeightMm } from '../bay/staff.ts';
import type { KnownHeight } from '../bay/weightedPlane.ts';
import { atWheels, WHEEL_NAMES } from '../bay/wheels.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { defaultUncertainties } from '../placement/defaults.ts';
import type { StationFinding } from '../placement/finding.ts';
import type { VehicleFound } from '../placement/found.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { type FixtureSetting, fixtureSetting } from '../vehicle/index.ts';
import type { Job } from './job.ts';

/** Mean staff readings of the floor by their place, mm, of those not struck. */
export function staffReadings(job: Pick<Job, 'readings'>): Readonly<Record<string, number>> {
  const sums = new Map<string, { sum: number; count: number }>();
  for (const { quantity, value, struck } of job.readings) {
    if (struck !== null || !quantity.startsWith('floor.')) continue;
    const place = quantity.slice('floor.'.length);
    const known = sums.get(place) ?? { sum: 0, count: 0 };
    sums.set(place, { sum: known.sum + value, count: known.count + 1 });
  }
  return Object.fromEntries([...sums].map(([place, { sum, count }]) => [place, sum / count]));
}

/** The staff under the fixture: the mean of its two places, or the one under a single stand. */
function footStaff(staff: Readonly<Record<string, number>>): { mm: number; uMm: number } | undefined {
  const { fixtureLeft, fixtureRight, stand } = staff;
  const { staffMm } = defaultUncertainties;
  if (stand !== undefined) return { mm: stand, uMm: staffMm };
  if (fixtureLeft === undefined || fixtureRight === undefined) return undefined;
  return { mm: (fixtureLeft + fixtureRight) / 2, uMm: staffMm / Math.SQRT2 };
}

/**
 * What to set for a station, where the car and the floor under both are known; undefined until they are. Places are those of
 * the vehicle frame: on a slope of 1 % they differ from places in the bay by less than a tenth of a millimetre a metre.
 */
export function fixtureScale(
  job: Pick<Job, 'readings'>,
  vehicle: VehicleFound | undefined,
  requirement: StationRequirement,
  required: StationFinding['required'] | undefined,
): FixtureSetting | undefined {
  const staff = staffReadings(job);
  const foot = footStaff(staff);
  const hubs = WHEEL_NAMES.map((wheel) => vehicle?.points[`hub.${wheel}`]);
  if (vehicle === undefined || foot === undefined || required === undefined) return undefined;
  if (hubs.includes(undefined) || WHEEL_NAMES.some((wheel) => staff[wheel] === undefined)) return undefined;
  const place = (wheel: (typeof WHEEL_NAMES)[number]): Vec3 => {
    const hub = vehicle.points[`hub.${wheel}`];
    return [hub?.aheadMm ?? 0, hub?.leftMm ?? 0, floorHeightMm(staff[wheel] ?? 0)];
  };
  const contacts = atWheels((wheel): KnownHeight => {
    const [xMm, yMm, zMm] = place(wheel);
    return { xMm, yMm, zMm, uMm: defaultUncertainties.staffMm };
  });
  const setting = fixtureSetting({
    hubs: atWheels((wheel) => {
      const [x, y, z] = place(wheel);
      return [x, y, z + (vehicle.points[`hub.${wheel}`]?.upMm ?? 0)];
    }),
    contacts,
    foot: { xMm: required.aheadMm, yMm: required.leftMm, zMm: floorHeightMm(foot.mm), uMm: foot.uMm },
    uTilt: 0,
    required: {
      aheadMm: required.aheadMm,
      leftMm: required.leftMm,
      upMm: requirement.up.value,
      yawRad: required.yawRad,
      pitchRad: required.pitchRad,
      rollRad: required.rollRad,
    },
    zeroAboveFootMm: 0,
    uZeroMm: defaultUncertainties.staffMm,
  });
  return setting.ok ? setting.value : undefined;
}
