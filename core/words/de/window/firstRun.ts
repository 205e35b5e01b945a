/** The first run: demo shop or a shop of one’s own. */
import type { FIRST_RUN } from '../../window/firstRun.ts';

export const FIRST_RUN_DE = {
  'first.title': 'Datumline',
  'first.words':
    'Die Zieltafel dorthin stellen, wo der Fahrzeughersteller sie will, es mit Messwerten nachweisen und eine prüfbare Bescheinigung übergeben.',
  'first.demo': 'Erst umsehen',
  'first.demoWords':
    'Eine erfundene Werkstatt am Hafen, mit erfundenen Fahrzeugen und Vorgaben. Nichts darin ist echt.',
  'first.openDemo': 'Vorführwerkstatt öffnen',
  'first.opening': 'Öffnet ...',
  'first.own': 'Damit arbeiten',
  'first.ownWords': 'Name, ein Messplatz, eine Person und der Signaturschlüssel. Etwa zwei Minuten.',
  'first.setUp': 'Werkstatt einrichten',
  'first.caution':
    'Die Vorgabe des Fahrzeugherstellers und das örtliche Recht haben Vorrang vor allem hier. Bewegte Geräte, Laser und Hochvolt können Menschen verletzen.',
  'setUp.title': 'Werkstatt einrichten',
  'setUp.name': 'Name der Werkstatt',
  'setUp.name.hint': 'Wie er im Kopf jeder Bescheinigung steht',
  'setUp.code': 'Kurzzeichen',
  'setUp.code.hint': '2 bis 6 Großbuchstaben oder Ziffern; beginnt jede Bescheinigungsnummer',
  'setUp.address': 'Anschrift',
  'setUp.address.hint': 'Straße, Ort',
  'setUp.bayName': 'Erster Messplatz',
  'setUp.bayName.hint': 'Wie er genannt wird',
  'setUp.personName': 'Eigener Name',
  'setUp.personName.hint': 'Arbeitet und signiert; weitere Personen später',
  'setUp.qualification': 'Eigene Qualifikation',
  'setUp.qualification.hint': 'Wird so auf die Bescheinigung gedruckt',
  'setUp.passphrase': 'Kennwort des Signaturschlüssels',
  'setUp.passphrase.hint': 'Mindestens 8 Zeichen; niemand kann es wiederbeschaffen',
  'setUp.now': 'Schlüssel erzeugen, starten',
  'setUp.working': 'Schlüssel entsteht ...',
  'rootKey.title': 'Wurzelschlüssel des Inhabers',
  'rootKey.words':
    'Diese Datei wird einmal gezeigt und auf diesem PC nirgends aufbewahrt. Auf einem Stick oder an einem sicheren Ort speichern, der nicht dieser PC ist; sie ist mit dem Kennwort verschlossen. Ohne sie kommt kein zweiter Messplatz hinzu und entsteht kein neuer Schlüssel.',
  'rootKey.fingerprint': 'Fingerabdruck, zum Vergleich bei einer Prüfung anderswo:',
  'rootKey.save': '{name} speichern',
  'rootKey.done': 'Gespeichert: starten',
} as const satisfies Record<keyof typeof FIRST_RUN, string>;
