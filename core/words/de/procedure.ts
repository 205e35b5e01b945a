/** German wording of what can be wrong with a procedure; `{where}` names the place, `{text}` what stands there. */
import type { PROCEDURE_WORDS } from '../procedure.ts';

export const PROCEDURE_DE = {
  'procedure.expressionEmpty': '{where}: Hier steht nichts.',
  'procedure.expressionTooLong': '{where}: länger als 300 Zeichen.',
  'procedure.expressionTooComplex': '{where}: zu viele Teile. Mit einem Messwert aufteilen.',
  'procedure.expressionUnreadable':
    '{where}: „{text}“ ist nicht lesbar. Zahlen mit Einheit schreiben, etwa 1350 mm oder reach + 1500 mm.',
  'procedure.expressionNotAllowed':
    '{where}: „{text}“ ist nicht erlaubt. Nur Zahlen, Einheiten, Eingaben, + - * / ^, Klammern, min max abs sqrt, sind cosd tand.',
  'procedure.inputMissing': '{where}: {text} ist an diesem Fahrzeug noch nicht gemessen.',
  'procedure.inputUnknown': '{where}: {text} ist weder Einheit noch Eingabe dieser Vorgabe.',
  'procedure.inputOutOfLimits': '{where}: {text} liegt außerhalb der Grenzen, die die Vorgabe nennt.',
  'procedure.unitsDoNotMatch':
    '{where}: „{text}“ mischt Größen verschiedener Einheiten oder ergibt eine andere Art von Wert.',
  'procedure.unitMissing': '{where}: „{text}“ hat keine Einheit. mm, in oder deg dahinter schreiben.',
  'procedure.groupingDoubtful':
    '{where}: „{text}“ sind vielleicht gruppierte Ziffern. Ohne Zeichen dazwischen schreiben.',
  'procedure.divisionByZero': '{where}: „{text}“ teilt durch null.',
  'procedure.notANumber': '{where}: „{text}“ hat keinen Wert.',
  'procedure.nameTaken': '{where}: Der Name {text} steht zweimal oder gehört einer Einheit oder Funktion.',
  'procedure.limitsCrossed': '{where}: Die untere Grenze liegt über der oberen ({text}).',
  'procedure.toleranceSign': '{where}: Eine Toleranz muss den Sollwert einschließen ({text}).',
  'procedure.slideWithoutBase': '{where}: Vor dem Verschieben muss eine Station stehen.',
  'procedure.slideMoves': '{where}: Beim Verschieben bleibt der Balken stehen, doch {text} weicht ab.',
  'procedure.reviewUnclear':
    '{where}: Wer eingab, wer prüfte und auf welchem Weg, passt nicht zusammen ({text}).',
  'procedure.nothingFits': '{where}: keine Auswahl passt ({text}).',
} as const satisfies Record<keyof typeof PROCEDURE_WORDS, string>;
