/** German wording of typed entries: what could not be read, and what is asked beside a field. */
import type { ENTRY_WORDS } from '../entry.ts';

export const ENTRY_DE = {
  'entry.empty': 'Hier steht noch nichts.',
  'entry.tooLong': 'Das ist länger als jeder Messwert. Eine Zahl mit Einheit eingeben.',
  'entry.notANumber':
    'Das ist keine lesbare Zahl. Ziffern, ein Dezimalzeichen, auf Wunsch einen Bruch, dann die Einheit eingeben.',
  'entry.tooManyDigits':
    'Das hat mehr Ziffern als jeder Messwert. Die Zahl so eingeben, wie das Messmittel sie zeigt.',
  'entry.twoNumbers': 'Das sind zwei Zahlen. Ziffern werden nicht gruppiert: 1350 eingeben, nicht 1 350.',
  'entry.twoDecimalSigns':
    'Komma und Punkt sind beide Dezimalzeichen; nur eines davon kann in einer Zahl stehen.',
  'entry.badFraction': 'Dieser Bruch ist nicht lesbar. Als 3 1/2 eingeben, Zähler kleiner als Nenner.',
  'entry.unknownUnit': 'Die Einheit {unit} ist hier unbekannt. Bekannt: {known}.',
  'entry.unitsOutOfOrder':
    'Die Teile dieser Eingabe passen nicht zusammen. Fuß vor Zoll oder Grad vor Minuten eingeben.',
  'slip.grouped': 'Ist das ein Dezimalzeichen, oder hat es nur die Ziffern gruppiert?',
  'slip.negative': 'Kann dieser Messwert unter null liegen?',
  'slip.outOfRange': 'Das ist außerhalb dessen, was Fahrzeug und Messplatz zeigen.',
  'slip.tenTimesTooBig': 'Das ist etwa das Zehnfache des Passenden. War es eine andere Einheit?',
  'slip.tenTimesTooSmall': 'Das ist etwa ein Zehntel des Passenden. War es eine andere Einheit?',
  'slip.inchesAsMm': 'Das passt, wenn in Zoll abgelesen wurde.',
  'slip.mmAsInches': 'Das passt, wenn in Millimetern abgelesen wurde.',
  'slip.hundredTooMuch': 'Das sind 100 mm mehr als erwartet. Begann das Maßband bei 100 mm?',
  'slip.hundredTooLittle': 'Das sind 100 mm weniger als erwartet. Wurden 100 mm zweimal abgezogen?',
  'slip.swappedSides': 'Dies und sein Partner passen, wenn fahrzeuglinks und fahrzeugrechts vertauscht sind.',
  'slip.farOff': 'Das liegt weit vom Erwarteten. Punkt und Messmittel noch einmal ansehen.',
  'cure.keep': '{value} behalten',
  'cure.take': '{value} übernehmen',
  'cure.exchange': 'fahrzeuglinks und fahrzeugrechts tauschen',
} as const satisfies Record<keyof typeof ENTRY_WORDS, string>;
