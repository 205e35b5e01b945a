/** English wording of scanned codes. */
export const SCAN_WORDS = {
  'scan.empty': 'Nothing was scanned.',
  'scan.noVin':
    'There is no VIN in this code. Scan the one at the windscreen or on the door pillar, or type it.',
  'scan.vinRefused':
    'The code holds {vin}, which cannot be a VIN. Scan once more, or compare it with the car.',
  'scan.severalVins': 'This code holds several VINs: {vins}. Choose the one that stands on the car.',
} as const;
