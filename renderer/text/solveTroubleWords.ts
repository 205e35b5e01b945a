/** Why a placement cannot be solved, in plain words. */
import type { SolveError } from '../../core/job/solve.ts';
import { knownWordKey } from '../../core/placement/names.ts';
import { type ReadingSpec, slotKey } from '../../core/placement/recipe.ts';
import { faultKey } from '../../core/procedure/index.ts';
import { say } from '../../core/words/index.ts';
import { sayKey } from './sayKey.ts';

/** A reading of the recipe by its slot key, else by its quantity. */
export function specOfKey(key: string, recipe: readonly ReadingSpec[]): ReadingSpec | undefined {
  return recipe.find((each) => slotKey(each) === key) ?? recipe.find((each) => each.id === key);
}

/** The name of a reading or of a thing known beforehand; the key itself for one that nothing here knows. */
export function readingName(key: string, recipe: readonly ReadingSpec[]): string {
  return sayKey(specOfKey(key, recipe)?.label ?? knownWordKey(key) ?? key);
}

export function solveTroubleWords(error: SolveError, recipe: readonly ReadingSpec[]): readonly string[] {
  const names = (keys: readonly string[]): string => keys.map((key) => readingName(key, recipe)).join('; ');
  switch (error.code) {
    case 'solve/noProcedure':
      return [say('solve.noProcedure')];
    case 'solve/noEquipment':
      return [say('solve.noEquipment')];
    case 'solve/procedureFaults':
      return error.faults.map((fault) =>
        sayKey(faultKey(fault.code), { where: fault.where, text: fault.text }),
      );
    case 'placement/undetermined':
      return [
        say('placement.undetermined', {
          quantity: say(`undetermined.${error.quantity}`),
          reading: names(error.readingIds.slice(0, 1)),
        }),
      ];
    case 'placement/impossible':
      return [say('placement.impossible', { readings: names(error.readingIds) })];
    case 'placement/sideContradicted':
      return [say('placement.sideContradicted', { readings: names(error.readingIds) })];
    case 'placement/directionMissing':
      return [say('placement.directionMissing', { reading: names(error.readingIds) })];
    case 'placement/notConverged':
      return [say('placement.notConverged')];
    case 'placement/faceAcrossCar':
      return [say('placement.faceAcrossCar')];
    case 'placement/bodyLeavesOpen':
      return [
        say('placement.bodyLeavesOpen', {
          coordinates: error.coordinates.map((each) => say(`coordinate.${each}`)).join(', '),
        }),
      ];
    case 'placement/firstStationSlides':
      return [say('placement.firstStationSlides')];
    case 'placement/unsolvable':
      return [say('solve.unsolvable', { cause: error.cause })];
  }
}
