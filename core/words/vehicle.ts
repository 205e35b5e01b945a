/** English wording about the vehicle's identity and tyres. */
export const VEHICLE_WORDS = {
  'vin.length': 'A VIN has 17 characters; this has {count}.',
  'vin.characters': 'A VIN has only capital letters and digits; {characters} cannot stand in it.',
  'vin.forbiddenLetters':
    'The letters I, O and Q never stand in a VIN. Perhaps 1 or 0 was meant for {characters}.',
  'vin.checkDigitWrong': 'The ninth character should be {expected}. One character of this VIN is mistyped.',
  'vin.checkDigitUnused':
    'The ninth character is no check digit here ({expected} would be). Many VINs from outside North America have none: compare character by character.',
  'vin.yearCode': 'The tenth character of a North American VIN is never {characters}.',
  'vin.lastFour': 'The last four characters are usually digits. Compare them once more.',
  'tyre.unreadable': 'Write the tyre size as on the side wall, as in 205/55 R16.',
  'tyre.implausible': 'No car tyre has this size. Read the side wall once more.',
} as const;
