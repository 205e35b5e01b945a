/** German wording about the car's lines: what a datum can prove, what would prove it, and refusals in three sentences. */
import type { VEHICLE_LINE_WORDS } from '../vehicleLines.ts';

const kept = 'Nichts ging verloren: Die Eingaben bleiben, wie sie sind.';

export const VEHICLE_LINE_DE = {
  'datum.canProve':
    'Die Linie weist eine Querlage in {distance} Abstand nach: U ist dort {expanded} bei {tolerance}.',
  'datum.cannotProve.rearAxle':
    'Die Hinterachse allein kann die Querlage in {distance} Abstand nicht nachweisen: U ist dort {expanded} bei {tolerance}.',
  'datum.cannotProve.hubs':
    'Diese Nabenlotungen können die Querlage in {distance} Abstand nicht nachweisen: U ist dort {expanded} bei {tolerance}.',
  'datum.cannotProve.headings':
    'Diese Radrichtungen können die Querlage in {distance} Abstand nicht nachweisen: U ist dort {expanded} bei {tolerance}.',
  'datum.cannotProve.alignmentReport':
    'Dieser Vermessungsbericht kann die Querlage in {distance} Abstand nicht nachweisen: U ist dort {expanded} bei {tolerance}.',
  'datum.cannotProve.bodyMarks':
    'Diese Karosseriemarken können die Querlage in {distance} Abstand nicht nachweisen: U ist dort {expanded} bei {tolerance}.',
  'datum.wouldProve.frontHubs': 'Lotungen der Vorderradnaben könnten es: U {expanded}.',
  'datum.wouldProve.headings': 'Richtungen der Hinterräder ohne Felgenschlag könnten es: U {expanded}.',
  'datum.wouldProve.alignmentReport':
    'Lotungen der Vorderradnaben mit dem Fahrachswinkel eines Vermessungsberichts könnten es: U {expanded}.',
  'datum.nothingProves':
    'Keiner der vorhandenen Wege kann es. Ein besseres Messmittel ist nötig, keine bessere Stellung.',
  'datum.linesDiffer':
    'Fahrachse und Mittellinie weichen um {angle} ab (U {expanded}): Fahrwerk vor dem Aufstellen einstellen.',
  'datum.linesAlike':
    'Fahrachse und Mittellinie weichen nicht über die Unsicherheit hinaus ab: {angle} (U {expanded}).',

  'error.vehicle/noContactPlane.what': 'Die vier Bodenpunkte legen keine Ebene fest.',
  'error.vehicle/noContactPlane.next': 'Höhen und Orte an den vier Rädern prüfen.',
  'error.vehicle/noContactPlane.safe': kept,
  'error.vehicle/axlesCoincide.what': 'Vorder- und Hinterachse liegen an einem Ort.',
  'error.vehicle/axlesCoincide.next':
    'Lotungen der vier Naben prüfen: Vorder- und Hinterräder sind vielleicht vertauscht.',
  'error.vehicle/axlesCoincide.safe': kept,
  'error.vehicle/axleTooShort.what': 'Hinterradnaben liegen nur {lengthMm} auseinander.',
  'error.vehicle/axleTooShort.next': 'Lotungen beider Hinterradnaben prüfen.',
  'error.vehicle/axleTooShort.safe': kept,
  'error.vehicle/marksTooClose.what': 'Die Karosseriemarken liegen zu dicht für eine Richtung.',
  'error.vehicle/marksTooClose.next': 'Marken verwenden, die längs möglichst weit auseinander liegen.',
  'error.vehicle/marksTooClose.safe': kept,
  'error.vehicle/marksExact.what':
    'Die Karosseriemarken sind als fehlerfrei oder als ein und derselbe Messwert eingegeben.',
  'error.vehicle/marksExact.next': 'Eingeben, wie genau jede Marke bekannt ist.',
  'error.vehicle/marksExact.safe': kept,
  'error.vehicle/tooFewMarks.what': '{count} Marken ergeben keine Linie.',
  'error.vehicle/tooFewMarks.next': 'Mindestens zwei Marken messen, besser vier.',
  'error.vehicle/tooFewMarks.safe': kept,
  'error.vehicle/reportWithoutUncertainty.what':
    'Der Vermessungsbericht {document} nennt keine Unsicherheit.',
  'error.vehicle/reportWithoutUncertainty.next':
    'Unsicherheit des Achsmessgeräts aus seinem Kalibrierschein eingeben oder die Hinterräder hier messen.',
  'error.vehicle/reportWithoutUncertainty.safe': kept,
  'error.vehicle/cornersNotApart.what': 'Die vier Ecken liegen nicht auseinander.',
  'error.vehicle/cornersNotApart.next': 'Radstand, Spurweite und die Orte der Höhenmessung prüfen.',
  'error.vehicle/cornersNotApart.safe': kept,
  'error.vehicle/radiusImplausible.what': 'Kein Reifen von {diameterMm} hat {radiusMm} Halbmesser.',
  'error.vehicle/radiusImplausible.next': 'Vom Boden bis zur Nabenmitte erneut messen.',
  'error.vehicle/radiusImplausible.safe': kept,
  'error.vehicle/pressureImplausible.what': '{pressureKPa} kPa ist kein Reifendruck.',
  'error.vehicle/pressureImplausible.next': 'Druckmesser erneut ablesen und seine Einheit prüfen.',
  'error.vehicle/pressureImplausible.safe': kept,
} as const satisfies Record<keyof typeof VEHICLE_LINE_WORDS, string>;
