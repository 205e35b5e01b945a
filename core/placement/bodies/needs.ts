/** What is still missing before a body's pose can be found, by kind: floor, height, distances, tilts that are not free. */
import type { Coordinate } from '../../frames.ts';
import { BAR_DISTANCES } from '../fixtureStart.ts';
import type { PlacementInput } from '../placementInput.ts';
import type { SlotValues } from '../readings.ts';
import { CORNER_DISTANCES, isFree } from './readings.ts';

/** Slot keys without which the fixture's pose stays open, apart from the bar distances (three of four are enough). */
const NEEDED = [
  'floor.fixtureLeft',
  'floor.fixtureRight',
  'target.height',
  'fixture.pitch',
  'fixture.roll',
] as const;

/** What a body's pose needs beside the floor, the height and its distances: a free tilt need not be read. */
function neededTilts(input: Pick<PlacementInput, 'body' | 'stations'>): readonly string[] {
  const free = (coordinate: Coordinate): boolean =>
    input.body !== undefined && input.body !== 'bar' && isFree(input.stations, coordinate);
  const pitch =
    input.body === 'plate' ? ['plate.tilt', 'plate.tiltTurned'] : free('pitch') ? [] : ['fixture.pitch'];
  return [...pitch, ...(free('roll') ? [] : ['fixture.roll'])];
}

/** Slot keys still missing for the fixture's pose. */
export function fixtureNeeds(
  values: SlotValues,
  input: Pick<PlacementInput, 'body' | 'stations'> = { stations: [] },
): readonly string[] {
  const tilts = neededTilts(input);
  const without = (ids: readonly string[]): readonly string[] => ids.filter((id) => !values.has(id));
  if (input.body === 'singleStand') {
    return without(['floor.stand', 'target.height', 'stand.fromL', 'stand.fromR', ...tilts]);
  }
  const plain = NEEDED.filter((id) => !id.startsWith('fixture.'));
  const distances = without(input.body === 'corner' ? CORNER_DISTANCES : BAR_DISTANCES);
  return [...without([...plain, ...tilts]), ...(distances.length > 1 ? distances : [])];
}
