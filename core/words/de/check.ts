/** German wording of a certificate's check: one sentence for each answer to each question. */
import type { CHECK_WORDS } from '../check.ts';

export const CHECK_DE = {
  'check.answer.yes': 'ja',
  'check.answer.no': 'nein',
  'check.answer.unknown': 'hier nicht feststellbar',
  'check.question.signatureIntact': 'Signatur unversehrt',
  'check.question.nothingAppended': 'Nichts angehängt',
  'check.question.signerKnown': 'Unterzeichner bekannt',
  'check.question.recordMatches': 'Aufzeichnung passt zur Seite',
  'check.question.chainWhole': 'Kette der Einträge lückenlos',
  'check.question.personalTexts': 'Persönliche Texte wie aufgezeichnet',
  'check.question.numbersRecomputed': 'Zahlen nachgerechnet',
  'check.question.editionCurrent': 'Ausgabe gültig',

  'check.file.notPdf': 'Diese Datei ist kein PDF.',
  'check.file.truncated': 'Das Ende dieser Datei fehlt. Von der Werkstatt neu senden lassen.',
  'check.file.otherWriter':
    'Ein anderes Programm hat diese Datei geschrieben oder neu gespeichert. Das Original anfordern.',
  'check.file.damaged': 'Diese Datei ist bei Byte {offset} beschädigt: {problem}.',
  'check.needsSignature': 'Nicht geprüft, weil die Signatur nicht hält.',
  'check.needsWhole': 'Nicht geprüft, weil etwas an die Datei angehängt wurde.',
  'check.newerEdition':
    'Diese Bescheinigung stammt von einer neueren Ausgabe des Programms. Mit dieser prüfen.',

  'check.signature.intact':
    'Kein signiertes Byte wurde seit {moment} geändert; die Zeit gibt der Unterzeichner an.',
  'check.signature.none': 'Diese Datei trägt keine Signatur.',
  'check.signature.content': 'Der Inhalt wurde nach dem Signieren geändert.',
  'check.signature.block': 'Die Signatur selbst wurde geändert oder stammt von einem anderen Programm.',
  'check.signature.ranges': 'Die Signatur deckt nicht die ganze Datei ab.',
  'check.appended.nothing': 'Die Datei endet, wo die Signatur endet.',
  'check.appended.bytes': '{count} Bytes wurden nach dem Signieren angehängt.',

  'check.signer.known': '{name}, Werkstattwurzel {fingerprint}, der hier vertraut wird.',
  'check.signer.compare':
    '{name}. Diesen Fingerabdruck der Werkstattwurzel mit dem von der Werkstatt genannten vergleichen: {fingerprint}',
  'check.signer.stranger': '{name}, Werkstattwurzel {fingerprint}, der hier nicht vertraut wird.',
  'check.signer.chain': 'Das Zertifikat von {name} stammt von keiner Werkstattwurzel.',
  'check.signer.time': 'Das Zertifikat von {name} galt am {moment} nicht.',

  'check.record.matches':
    'Die angehängte Aufzeichnung hat den Prüfwert, der gedruckt ist und im QR-Code steht: {digest}',
  'check.record.missing': 'Aufzeichnung nicht angehängt.',
  'check.record.damaged': 'Die angehängte Aufzeichnung ist nicht lesbar.',
  'check.record.printed':
    'Die angehängte Aufzeichnung hat einen anderen Prüfwert als den gedruckten. Angehängt: {digest}',
  'check.record.qr':
    'Die angehängte Aufzeichnung hat einen anderen Prüfwert als der QR-Code. Angehängt: {digest}',

  'check.chain.whole': 'Alle {count} Einträge sind da, jeder an seinem Platz und unverändert.',
  'check.chain.empty': 'Die Aufzeichnung ist ohne Einträge.',
  'check.chain.broken': 'Die Kette der Einträge ist bei Eintrag {seq} unterbrochen.',

  'check.personal.match':
    'Alle {count} persönlichen Texte dieses Exemplars sind die, die aufgezeichnet wurden.',
  'check.personal.differ': 'Ein persönlicher Text dieses Exemplars ist nicht der aufgezeichnete: {id}',

  'check.numbers.confirmed': 'Alle {count} gedruckten Zahlen folgen aus den Messwerten.',
  'check.numbers.differ':
    '{count} gedruckte Zahlen folgen nicht aus den Messwerten. Erste: {id}, gedruckt {printed}, nachgerechnet {recomputed}',
  'check.numbers.notHere': 'Die Zahlen wurden hier nicht nachgerechnet.',
  'check.numbers.failed': 'Die Messwerte der Aufzeichnung sind nicht erneut lösbar: {problem}',

  'check.edition.current': 'Ausgabe {edition} ist die gültige.',
  'check.edition.superseded': 'Ausgabe {edition} wurde durch Ausgabe {current} ersetzt.',
  'check.edition.notHere': 'Nur die ausstellende Werkstatt kann sagen, ob Ausgabe {edition} die gültige ist.',
} as const satisfies Record<keyof typeof CHECK_WORDS, string>;
