/**
 * The readings of one stand of the fixture as a network for the adjuster: the car, and the fixture once its readings are
 * there. Plan and height are one adjustment; drops run along gravity, so slope times height needs no correction.
 */
import type { Network, Reading } from '../adjust/network.ts';
import type { Coordinate } from '../frames.ts';
import { ok, type Result } from '../result.ts';
import { cornerStarts } from './bodies/corner.ts';
import { fixtureNeeds } from './bodies/needs.ts';
import { BODIES, isFree } from './bodies/readings.ts';
import { singleStandPart } from './bodies/singleStand.ts';
import { carPart } from './carNetwork.ts';
import { workUncertainties } from './defaults.ts';
import { facingYawRad, hasCarSides, looksAlongCar } from './facing.ts';
import { type FixturePart, fixturePart } from './fixtureNetwork.ts';
import { barStarts } from './fixtureStart.ts';
import { joined } from './networkPart.ts';
import type { PlacementError } from './placementError.ts';
import type { PlacementInput } from './placementInput.ts';
import { impossibleFloors, impossibleTilts } from './plausible.ts';
import type { SlotValue, SlotValues } from './readings.ts';
import { type CarStarts, carStarts } from './starts.ts';
import { tapeUnknowns } from './tape.ts';

/** The network, and why the fixture is not in it although the car is. */
export interface PlacementNetwork {
  readonly network: Network;
  readonly withFixture: boolean;
  /** What keeps the fixture out; absent when it is in. */
  readonly fixtureProblem?: PlacementError;
}

/** Values that were read with a tape, whose scale and hook they share. */
function tapeValues(values: SlotValues, readings: readonly Reading[]): readonly SlotValue[] {
  return readings.flatMap((reading) => {
    const value = reading.kind === 'distance' ? values.get(reading.id) : undefined;
    return value === undefined ? [] : [value];
  });
}

function openFixture(readingIds: readonly string[]): PlacementError {
  return { code: 'placement/undetermined', quantity: 'fixture', readingIds };
}

/** Coordinates that this body's readings leave open although a station judges them. */
function unreadCoordinates(input: PlacementInput): readonly Coordinate[] {
  const { leavesOpen } = BODIES[input.body ?? 'bar'];
  return input.stations.length === 0 ? [] : leavesOpen.filter((each) => !isFree(input.stations, each));
}

/** The part of whatever carries the target. */
function bodyPart(
  input: PlacementInput,
  values: SlotValues,
  car: CarStarts,
): Result<FixturePart, PlacementError> {
  if (input.body === 'singleStand') return singleStandPart(input, values, car);
  const start = input.body === 'corner' ? cornerStarts : barStarts;
  const ends = start(input, values, car);
  return ends.ok ? fixturePart(input, values, ends.value) : ends;
}

/**
 * Builds the network of the readings' values. An error means that not even the car is determined, or that lengths of the
 * car close no triangle; trouble with the fixture leaves the car's network whole.
 */
export function placementNetwork(
  input: PlacementInput,
  values: SlotValues,
): Result<PlacementNetwork, PlacementError> {
  const starts = carStarts(values);
  if (!starts.ok) return starts;
  const car = carPart(input, values, starts.value);
  const work = workUncertainties(input.equipment);
  const assemble = (parts: ReturnType<typeof joined>, bodies: Network['bodies']): Network => ({
    format: 'datumline-network-1',
    points: parts.points,
    bodies,
    shared: [...parts.shared, ...tapeUnknowns(tapeValues(values, parts.readings), work)],
    readings: parts.readings,
    sides: parts.sides,
  });
  const carOnly = (fixtureProblem: PlacementError): Result<PlacementNetwork, PlacementError> =>
    ok({ network: assemble(car, []), withFixture: false, fixtureProblem });
  const unread = unreadCoordinates(input);
  if (unread.length > 0) return carOnly({ code: 'placement/bodyLeavesOpen', coordinates: unread });
  const needs = fixtureNeeds(values, input);
  if (needs.length > 0) return carOnly(openFixture(needs));
  const yawRad = facingYawRad(input.stations);
  const serves = input.body === 'corner' ? hasCarSides(yawRad) : looksAlongCar(yawRad);
  if (!serves && input.body !== 'singleStand') return carOnly({ code: 'placement/faceAcrossCar' });
  const nonsense = [
    ...impossibleFloors(values, ['floor.fixtureLeft', 'floor.fixtureRight', 'floor.stand']),
    ...impossibleTilts(values),
  ];
  if (nonsense.length > 0) return carOnly({ code: 'placement/impossible', readingIds: nonsense });
  const fixture = bodyPart(input, values, starts.value);
  if (!fixture.ok) return carOnly(fixture.error);
  return ok({ network: assemble(joined([car, fixture.value]), fixture.value.bodies), withFixture: true });
}
