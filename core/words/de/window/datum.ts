/** The datum as found. */
import type { DATUM } from '../../window/datum.ts';

export const DATUM_DE = {
  'datum.found': 'Das Fahrzeug, Ist',
  'datum.notYet': 'Noch offen. Nach der Runde um das Fahrzeug stehen hier seine Linien.',
  'datum.U': 'U {U}',
  'datum.wheelbase': 'Radstand',
  'datum.trackFront': 'Naben, Vorderachse',
  'datum.trackRear': 'Naben, Hinterachse',
  'datum.thrust': 'Fahrachse zur Mittellinie',
  'datum.thrust.none': 'nicht gemessen',
  'datum.thrust.value': '{angle} nach {side}',
  'datum.slopeAhead': 'Boden längs',
  'datum.slopeLeft': 'Boden quer',
  'datum.rock': 'Kippeln der vier Räder',
  'datum.level': 'eben',
  'datum.slope': '{share} %, {way}',
  'datum.risesAhead': 'steigt zum Bug',
  'datum.fallsAhead': 'fällt zum Bug',
  'datum.risesLeft': 'steigt nach fahrzeuglinks',
  'datum.fallsLeft': 'fällt nach fahrzeuglinks',
} as const satisfies Record<keyof typeof DATUM, string>;
