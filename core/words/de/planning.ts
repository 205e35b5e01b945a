/**
 * German wording of planning: what can be proven before a reading is taken, what cannot and why, and what is in the way.
 * `{tolerance}` is a phrase of this file that names amount and coordinate; amounts are rounded and never signed. Names
 * that stand where a sentence needs a case (`{limit}`, `{obstacles}`) are put after a colon, in the nominative.
 */
import type { PLANNING_WORDS } from '../planning.ts';

export const PLANNING_DE = {
  'planning.tolerance.ahead': '{amount} längs',
  'planning.tolerance.left': '{amount} quer',
  'planning.tolerance.up': '{amount} in der Höhe',
  'planning.tolerance.yaw': '{amount} Drehung',
  'planning.tolerance.pitch': '{amount} Längsneigung',
  'planning.tolerance.roll': '{amount} Querneigung',
  'planning.tolerance.endless': 'eine einseitige Grenze',
  'planning.proves':
    'Nachweisbar: {tolerance}. U ist {U}; die Zieltafel darf {room} neben dem besten Ort stehen.',
  'planning.provesAlways': 'Nachweisbar: {tolerance}. U ist {U}; diese Regel zieht dafür nichts ab.',
  'planning.moreWould':
    'Diese Messwerte weisen {tolerance} nicht nach: U ist {U}. Mehr Lotungen oder Wiederholungen könnten es: U dann {best}. Größter Anteil: {limit}, {share}.',
  'planning.cannot':
    'Nicht nachweisbar: {tolerance}. U ist bestenfalls {best}, so oft auch gemessen wird. Grund: {limit}, Anteil {share}.',
  'planning.wouldProve': '{recipe}, {work}, könnte {tolerance} nachweisen: U ist {U}.',
  'planning.nothingWould':
    'Nichts, was dieses Programm mit diesen Messmitteln kennt, könnte {tolerance} nachweisen.',
  'planning.rearOnly':
    'Die Hinterachse allein gibt die Richtung des Fahrzeugs aus zwei Naben, die dicht beisammen liegen, und eine Achse steht nicht immer rechtwinklig zum Fahrzeug.',
  'planning.fewest': 'Wenigste Messwerte, die jede Toleranz nachweisen: {count}, etwa {minutes} Minuten.',
  'planning.fewest.more': '{reading}: {times} Mal',
  'planning.fewest.without': 'Nicht nötig: {reading}',
  'planning.fewest.none':
    'Keine Zahl von Lotungen und Wiederholungen weist {tolerance} nach. Bleibt: {limit}, {share} dessen, was Wiederholen nicht senkt.',
  'planning.fewest.tooMany':
    'Mehr Messwerte wären nötig, als jemand messen sollte: {tolerance} ist dafür zu eng.',
  'planning.fewest.blocked':
    'Ohne diesen Messwert lässt sich nichts aufstellen, und er ist versperrt: {reading}.',
  'planning.setOut':
    'Seitenlinien {amount} über die Marken hinaus abgesteckt, damit jedes Maßband an den Reifen vorbeigeht.',
  'planning.nextHead': 'Am meisten bringt ein weiterer Messwert:',
  'planning.next': '{reading}: U sinkt von {before} auf {after}',
  'planning.blocked': '{reading}: im Weg {obstacles}',
  'planning.and': '{first} und {second}',
  'planning.undetermined': 'Die geplanten Messwerte lassen etwas offen. Noch nötig: {readings}.',
  'planning.datumNotGiven':
    'Dieser Messplan gibt die Linie oder Kante nicht, von der eine Station misst: {recipe}.',
  'planning.impossible': 'Diese Maße ergeben keine Anordnung: {cause}.',
  'planning.card.title': 'Vor dem Messen: was das nachweisen wird',
  'planning.card.waits': 'Es wird gerechnet, was diese Messwerte nachweisen werden.',
  'planning.card.all': 'Diese Messmittel können jede Grenze nachweisen.',
  'planning.card.more': 'Mehr Wiederholungen nötig: {coordinates}.',
  'planning.card.cannot': 'Mit diesen Messmitteln nicht nachweisbar: {coordinates}.',
  'planning.card.none': 'Keine Grenze genannt: nichts wird bewertet, alles wird gemessen.',
  'planning.card.noPlan':
    'Nur ein Gestell mit Balken lässt sich vorab rechnen. Jedes Urteil kommt mit seinen Messwerten.',
  'planning.card.can': 'nachweisbar',
  'planning.card.moreWould': 'mit Wiederholungen',
  'planning.card.not': 'nicht nachweisbar',
  'planning.card.row': 'U {U}, Grenze {limit}',
  'planning.card.rowOpen': 'U {U}, eine einseitige Grenze',
  'planning.card.enough': 'Alles zusammen mit {count} Messwerten, etwa {minutes} Minuten.',
  'planning.card.typicalCar': 'Für ein Fahrzeug mittlerer Größe, bis dieses gemessen ist.',
  'planning.recipe.default': 'Alle vier Naben mit beiden Diagonalen',
  'planning.recipe.oneDiagonal': 'Alle vier Naben mit einer Diagonale',
  'planning.recipe.rimHeadings': 'Alle vier Naben, Hinterradrichtung an den Felgen',
  'planning.recipe.rearOnly': 'Nur die beiden Hinterradnaben',
  'planning.work.typical': 'üblich',
  'planning.work.careful': 'sorgfältig',
  'planning.work.best': 'bestmöglich',
  'planning.reading.rear.sameL': 'Hintermarke fahrzeuglinks bis Balkenende fahrzeuglinks',
  'planning.reading.rear.sameR': 'Hintermarke fahrzeugrechts bis Balkenende fahrzeugrechts',
  'planning.reading.rear.diagLR': 'Hintermarke fahrzeuglinks bis Balkenende fahrzeugrechts',
  'planning.reading.rear.diagRL': 'Hintermarke fahrzeugrechts bis Balkenende fahrzeuglinks',
  'planning.reading.rim.RL': 'vier Felgenabstände am Hinterrad fahrzeuglinks',
  'planning.reading.rim.RR': 'vier Felgenabstände am Hinterrad fahrzeugrechts',
  'planning.obstacle.tyre.FL': 'Vorderreifen fahrzeuglinks',
  'planning.obstacle.tyre.FR': 'Vorderreifen fahrzeugrechts',
  'planning.obstacle.tyre.RL': 'Hinterreifen fahrzeuglinks',
  'planning.obstacle.tyre.RR': 'Hinterreifen fahrzeugrechts',
  'planning.obstacle.body': 'Karosserie und Schweller',
  'planning.obstacle.stand': 'Fuß des Gestells',
  'planning.limit.tapes': 'dieses Maßband, an den Marken gehalten',
  'planning.limit.tapeScale': 'Teilung dieses Maßbands',
  'planning.limit.tapeHook': 'Haken dieses Maßbands',
  'planning.limit.heightTape': 'Maßband an der Tafelmitte',
  'planning.limit.hubDrops': 'Loten der Naben auf ihre Marken',
  'planning.limit.barEndDrops': 'Lotung der Balkenenden',
  'planning.limit.sideArms': 'Länge der Seitenarme',
  'planning.limit.lines': 'Abstecken der Seitenlinien',
  'planning.limit.level': 'dieses Nivellier mit Latte',
  'planning.limit.floor': 'Boden zwischen den Lattenorten',
  'planning.limit.inclinometer': 'dieser Neigungsmesser',
  'planning.limit.barLength': 'Länge des Balkens',
  'planning.limit.faceCentre': 'Ort der Tafelmitte an diesem Gestell',
  'planning.limit.bodyFace': 'Loten des vordersten Karosseriepunkts',
  'planning.limit.slide': 'Schlitten dieses Gestells',
  'planning.limit.alignmentReport': 'Hinterradspur des Vermessungsberichts',
  'planning.limit.rims': 'Hinterradrichtung an den Felgen',
  'planning.limit.rearAxle': 'die Hinterachse allein',
} as const satisfies Record<keyof typeof PLANNING_WORDS, string>;
