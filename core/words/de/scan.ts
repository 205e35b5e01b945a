/** German wording of scanned codes. */
import type { SCAN_WORDS } from '../scan.ts';

export const SCAN_DE = {
  'scan.empty': 'Nichts wurde gelesen.',
  'scan.noVin':
    'In diesem Code steht keine FIN. Den an Windschutzscheibe oder Türsäule lesen oder sie eintippen.',
  'scan.vinRefused':
    'Der Code enthält {vin}; das kann keine FIN sein. Noch einmal lesen oder am Fahrzeug vergleichen.',
  'scan.severalVins': 'Dieser Code enthält mehrere FIN: {vins}. Die wählen, die am Fahrzeug steht.',
} as const satisfies Record<keyof typeof SCAN_WORDS, string>;
