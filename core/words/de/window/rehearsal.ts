/** Üben an einem simulierten Messplatz. */
import type { REHEARSAL } from '../../window/rehearsal.ts';

export const REHEARSAL_DE = {
  'rehearsal.start': 'Üben',
  'rehearsal.starting': 'Wird geöffnet ...',
  'rehearsal.tag': 'Übung',
  'rehearsal.shows': 'Ablesen und eingeben; ein Tippen gibt es ein',
  'rehearsal.fixture': 'Das Gestell, wie Sie stehen',
  'rehearsal.plan': 'Fahrzeug oben, davor das Gestell: ziehen oder am Ende drehen',
  'rehearsal.step': '{mm} mm',
  'rehearsal.toward': 'Zum Fahrzeug hin',
  'rehearsal.away': 'Vom Fahrzeug weg',
  'rehearsal.toCarLeft': 'Nach fahrzeuglinks',
  'rehearsal.toCarRight': 'Nach fahrzeugrechts',
  'rehearsal.leftEndToward': 'Ende fahrzeuglinks zum Fahrzeug hin',
  'rehearsal.leftEndAway': 'Ende fahrzeuglinks vom Fahrzeug weg',
  'rehearsal.moveAsAsked': 'Wie verlangt bewegen',
  'rehearsal.moved': 'Bewegt: jetzt Fertig drücken',
  'rehearsal.tell': 'Das Programm sieht dieses Gestell nicht. Danach Fertig oder Gestell bewegt drücken.',
} as const satisfies Record<keyof typeof REHEARSAL, string>;
