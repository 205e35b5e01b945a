/** German wording about the vehicle's identity and tyres. */
import type { VEHICLE_WORDS } from '../vehicle.ts';

export const VEHICLE_DE = {
  'vin.length': 'Eine FIN hat 17 Zeichen; diese hat {count}.',
  'vin.characters': 'Eine FIN hat nur Großbuchstaben und Ziffern; {characters} ist darin nicht möglich.',
  'vin.forbiddenLetters':
    'Die Buchstaben I, O und Q stehen nie in einer FIN. Vielleicht war statt {characters} 1 oder 0 gemeint.',
  'vin.checkDigitWrong': 'Das neunte Zeichen müsste {expected} sein. Ein Zeichen dieser FIN ist vertippt.',
  'vin.checkDigitUnused':
    'Das neunte Zeichen ist hier keine Prüfziffer ({expected} wäre eine). Viele FIN von außerhalb Nordamerikas haben keine: Zeichen für Zeichen vergleichen.',
  'vin.yearCode': 'Das zehnte Zeichen einer nordamerikanischen FIN ist nie {characters}.',
  'vin.lastFour': 'Die letzten vier Zeichen sind meist Ziffern. Noch einmal vergleichen.',
  'tyre.unreadable': 'Reifengröße wie auf der Flanke schreiben, etwa 205/55 R16.',
  'tyre.implausible': 'Kein Pkw-Reifen hat diese Größe. Flanke noch einmal ablesen.',
} as const satisfies Record<keyof typeof VEHICLE_WORDS, string>;
