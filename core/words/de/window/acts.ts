/** Buttons and acts that several screens share. */
import type { ACTS } from '../../window/acts.ts';

export const ACTS_DE = {
  'act.add': 'Zufügen',
  'act.cancel': 'Abbrechen',
  'act.carMoved': 'Fahrzeug bewegt',
  'act.choose': 'Wählen',
  'act.close': 'Schließen',
  'act.done': 'Fertig',
  'act.enter': 'Enter',
  'act.fixtureMoved': 'Gestell bewegt',
  'act.holdOneSecond': '(eine Sekunde halten)',
  'act.home': 'Vorgänge',
  'act.keepAsTyped': 'So behalten',
  'act.open': 'Öffnen',
  'act.putUp': 'Es steht dort',
  'act.sameAsOwner': 'Wie der Halter',
  'act.saveFile': 'Datei speichern',
  'act.strike': 'Streichen',
  'act.strikeHold': 'Zum Streichen halten',
  'act.take': '{value} nehmen',
  'act.thisShop': 'Diese Werkstatt',
  'act.toIntake': 'Annahme öffnen',
  'act.typingSlip': 'Tippfehler: zurückziehen',
  'answer.yes': 'Ja',
  'answer.no': 'Nein',
} as const satisfies Record<keyof typeof ACTS, string>;
