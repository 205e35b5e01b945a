/**
 * German wording that every part shares: directions, coordinates, sides. The car's own sides are `fahrzeuglinks` and
 * `fahrzeugrechts`, its ends Bug and Heck; `plainWords.ts` holds the words that may not appear.
 */
import type { EN } from '../en.ts';

/** Key to template, as in English. */
export const DE = {
  'dir.none': 'wo es stehen muss',
  'dir.awayFromCar': '{amount} vom Fahrzeug weg',
  'dir.towardCar': '{amount} zum Fahrzeug hin',
  'dir.towardCarFront': '{amount} zum Fahrzeugbug hin',
  'dir.towardCarRear': '{amount} zum Fahrzeugheck hin',
  'dir.toCarLeft': '{amount} nach fahrzeuglinks',
  'dir.toCarRight': '{amount} nach fahrzeugrechts',
  'dir.higher': '{amount} höher',
  'dir.lower': '{amount} tiefer',
  'dir.turn.carLeftEndAway': 'um {amount} gedreht, Ende fahrzeuglinks vom Fahrzeug weg',
  'dir.turn.carLeftEndToward': 'um {amount} gedreht, Ende fahrzeuglinks zum Fahrzeug hin',
  'dir.turn.carFrontEndAway': 'um {amount} gedreht, bugseitiges Ende vom Fahrzeug weg',
  'dir.turn.carFrontEndToward': 'um {amount} gedreht, bugseitiges Ende zum Fahrzeug hin',
  'dir.lean.topAway': 'oben {amount} vom Fahrzeug weg geneigt',
  'dir.lean.topToward': 'oben {amount} zum Fahrzeug geneigt',
  'dir.tilt.carLeftEndHigher': 'Ende fahrzeuglinks {amount} höher',
  'dir.tilt.carLeftEndLower': 'Ende fahrzeuglinks {amount} tiefer',
  'dir.tilt.carFrontEndHigher': 'bugseitiges Ende {amount} höher',
  'dir.tilt.carFrontEndLower': 'bugseitiges Ende {amount} tiefer',
  'side.carLeft': 'fahrzeuglinks',
  'side.carRight': 'fahrzeugrechts',
  'side.carLeft.steering': 'fahrzeuglinks (Lenkradseite)',
  'side.carLeft.passenger': 'fahrzeuglinks (Beifahrerseite)',
  'side.carRight.steering': 'fahrzeugrechts (Lenkradseite)',
  'side.carRight.passenger': 'fahrzeugrechts (Beifahrerseite)',
  'coordinate.ahead': 'längs',
  'coordinate.left': 'quer',
  'coordinate.up': 'Höhe',
  'coordinate.yaw': 'Drehung',
  'coordinate.pitch': 'Längsneigung',
  'coordinate.roll': 'Querneigung',
} as const satisfies Record<keyof typeof EN, string>;
