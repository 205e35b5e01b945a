/** German wording of scanned codes. */
import type { SCAN_WORDS } from '../scan.ts';

export const SCAN_DE = {
  'scan.empty': 'Nichts wurde gelesen.',
  'scan.noVin':
    'In diesem Code steht keine FIN. Den an Windschutzscheibe oder Türsäule lesen oder sie eintippen.',
  'scan.vinRefused':
    'Der Code enthält {vin}; das kann keine FIN sein. Noch einmal lesen oder am Fahrzeug vergleichen.',
  'scan.severalVins': 'Dieser Code enthält mehrere FIN: {vins}. Die wählen, die am Fahrzeug steht.',
  'scan.open': 'Mit Kamera lesen',
  'scan.close': 'Kamera schließen',
  'scan.picture': 'Kamerabild',
  'scan.hold': 'FIN-Schild eben vor die Kamera halten, eine Handbreit entfernt.',
  'scan.compare': 'Mit dem Fahrzeug vergleichen, dann nehmen.',
  'scan.noCamera': 'Dieser PC hat keine Kamera',
  'scan.noCamera.next':
    'Eine anschließen und erneut öffnen, mit dem Handscanner lesen oder die FIN eintippen.',
  'scan.cameraBusy': 'Die Kamera ist anderswo in Gebrauch',
  'scan.cameraBusy.next': 'Das Programm mit ihrem Bild schließen, dann erneut öffnen.',
  'scan.cameraRefused': 'Die Kamera ist nicht erlaubt',
  'scan.cameraRefused.next': 'In den Einstellungen des Betriebssystems erlauben oder die FIN eintippen.',
  'scan.decoderFailed': 'Der Codeleser startete nicht',
  'scan.decoderFailed.next': 'FIN eintippen oder Handscanner nutzen. Sonst ist nichts betroffen.',
} as const satisfies Record<keyof typeof SCAN_WORDS, string>;
