/** German wording of instruments that send lines: what is wrong with a format, a line, a connection. */
import type { INSTRUMENT_WORDS } from '../instruments.ts';

export const INSTRUMENT_DE = {
  'instrument.patternTooLong': 'Das Muster ist länger als {most} Zeichen.',
  'instrument.patternUnreadable': 'Das Muster ist nicht lesbar: {problem}.',
  'instrument.patternTooLarge': 'Das Muster wiederholt zu viel. Kleinere Anzahlen verwenden.',
  'instrument.noValueGroup': 'Dem Muster fehlt die Gruppe value: (?<value>...) um die Zahl schreiben.',
  'instrument.unknownGroup':
    'Das Muster hat eine Gruppe {group}. Gruppen heißen value, unit, channel oder quality.',
  'instrument.unitMissing':
    'Nichts nennt die Einheit. Eine wählen oder im Muster (?<unit>...) um sie schreiben.',
  'instrument.fixedUnitUnknown': 'Die Einheit {unit} ist hier unbekannt. Bekannt: {known}.',
  'instrument.goodWithoutQuality':
    'Kennzeichen guter Zeilen sind angegeben, aber dem Muster fehlt die Gruppe quality.',

  'instrument.noMatch': 'Diese Zeile passt nicht zum Muster.',
  'instrument.notANumber': 'An der Stelle des Messwerts steht keine Zahl: {text}',
  'instrument.unitUnknown': 'Die Zeile nennt die hier unbekannte Einheit {unit}. Bekannt: {known}.',
  'instrument.unitNotSaid': 'Diese Zeile nennt keine Einheit.',
  'instrument.qualityBad': 'Das Messmittel kennzeichnet diese Zeile als nicht gut: {quality}',
  'instrument.lineTooLong': 'Diese Zeile ist länger als {most} Zeichen und wurde gekürzt.',

  'instrument.refused': 'Unter {place} antwortet nichts. Adresse prüfen, und ob das Messmittel an ist.',
  'instrument.unreachable': '{place} ist nicht erreichbar. Netzwerk und Adresse prüfen.',
  'instrument.noSuchPort': 'Es gibt keinen Anschluss {place}. Kabel und Stecker prüfen.',
  'instrument.portBusy': 'Ein anderes Programm nutzt {place}. Zuerst dort schließen.',
  'instrument.notAllowed': 'Dieser PC gibt {place} nicht frei. Wer ihn betreut, kann das ändern.',
  'instrument.unplugged': 'Die Verbindung zu {place} endete. Kabel und Messmittel prüfen.',
  'instrument.tooMany':
    'Mehr als {most} Messmittel lassen sich nicht zugleich verbinden. Zuerst eines trennen.',
  'instrument.trouble': 'Verbindung zu {place} gescheitert ({problem}).',
} as const satisfies Record<keyof typeof INSTRUMENT_WORDS, string>;
