/** English wording of scanned codes. */
export const SCAN_WORDS = {
  'scan.empty': 'Nothing was scanned.',
  'scan.noVin':
    'There is no VIN in this code. Scan the one at the windscreen or on the door pillar, or type it.',
  'scan.vinRefused':
    'The code holds {vin}, which cannot be a VIN. Scan once more, or compare it with the car.',
  'scan.severalVins': 'This code holds several VINs: {vins}. Choose the one that stands on the car.',
  'scan.open': 'Read with the camera',
  'scan.close': 'Close the camera',
  'scan.picture': 'Picture of the camera',
  'scan.hold': 'Hold the VIN label flat before the camera, a hand away.',
  'scan.compare': 'Compare with the car, then take it.',
  'scan.noCamera': 'This PC has no camera',
  'scan.noCamera.next': 'Connect one and open this again, scan with a hand scanner, or type the VIN.',
  'scan.cameraBusy': 'The camera is in use elsewhere',
  'scan.cameraBusy.next': 'Close the program that shows its picture, then open this again.',
  'scan.cameraRefused': 'The camera is not allowed',
  'scan.cameraRefused.next': 'Allow it in the settings of the operating system, or type the VIN.',
  'scan.decoderFailed': 'The code reader did not start',
  'scan.decoderFailed.next': 'Type the VIN or use a hand scanner. Nothing else is affected.',
} as const;
