/**
 * The readings of one stand of the fixture as a network for the adjuster: the car, and the fixture once its readings are
 * there. Plan and height are one adjustment; drops run along gravity, so slope times height needs no correction.
 */
import type { Network, Reading } from '../adjust/network.ts';
import { ok, type Result } from '../result.ts';
import { carPart } from './carNetwork.ts';
import { defaultUncertainties } from './defaults.ts';
import { facingYawRad, looksAlongCar } from './facing.ts';
import { fixtureNeeds, fixturePart } from './fixtureNetwork.ts';
import { barStarts } from './fixtureStart.ts';
import { joined } from './networkPart.ts';
import { impossibleFloors, impossibleTilts } from './plausible.ts';
import type { SlotValue, SlotValues } from './readings.ts';
import { carStarts } from './starts.ts';
import { tapeUnknowns } from './tape.ts';
import type { PlacementError, PlacementInput } from './types.ts';

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
  const work = defaultUncertainties.byWork[input.equipment.work];
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
  const needs = fixtureNeeds(values);
  if (needs.length > 0) return carOnly(openFixture(needs));
  if (!looksAlongCar(facingYawRad(input.stations))) return carOnly({ code: 'placement/faceAcrossCar' });
  const nonsense = [
    ...impossibleFloors(values, ['floor.fixtureLeft', 'floor.fixtureRight']),
    ...impossibleTilts(values),
  ];
  if (nonsense.length > 0) return carOnly({ code: 'placement/impossible', readingIds: nonsense });
  const bar = barStarts(input, values, starts.value);
  if (!bar.ok) return carOnly(bar.error);
  const fixture = fixturePart(input, values, bar.value);
  if (!fixture.ok) return carOnly(fixture.error);
  return ok({ network: assemble(joined([car, fixture.value]), fixture.value.bodies), withFixture: true });
}
