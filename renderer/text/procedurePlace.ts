/** Where in a procedure something stands, in words: "Centre, height, tolerance" for `stations.centre.up.tolerance`. */
import { COORDINATES, type Coordinate } from '../../core/frames.ts';
import type { ProcedureStation } from '../../core/procedure/index.ts';
import { say } from '../../core/words/index.ts';
import { sayKey } from './sayKey.ts';

function coordinateNamed(name: string | undefined): Coordinate | undefined {
  return COORDINATES.find((each) => each === name);
}

/** Fields that a place names beside the coordinates, as in the form. */
const PARTS: ReadonlySet<string> = new Set([
  'name',
  'kind',
  'place',
  'radial',
  'capturePrompt',
  'label',
  'quantity',
  'least',
  'most',
]);

/** The words of a place. */
export function placeWords(
  where: string,
  stations: readonly Pick<ProcedureStation, 'id' | 'name'>[],
): string {
  const [list, id, part, inner] = where.split('.');
  if (list === 'stations' && id !== undefined) {
    const station = stations.find((each) => each.id === id)?.name ?? id;
    const coordinate = coordinateNamed(part);
    const words = [
      station,
      ...(coordinate === undefined ? [] : [say(`poseName.${coordinate}`)]),
      ...(part !== undefined && PARTS.has(part) ? [sayKey(`procedurePart.${part}`)] : []),
      ...(inner === 'tolerance' ? [say('procedurePart.tolerance')] : []),
    ];
    return words.join(', ');
  }
  if (list === 'inputs' && id !== undefined) {
    return [id, ...(part !== undefined && PARTS.has(part) ? [sayKey(`procedurePart.${part}`)] : [])].join(
      ', ',
    );
  }
  if (list === 'conditions' || list === 'steps') return say(`procedurePart.${list}`);
  return sayKey(`procedurePart.${where}`);
}
