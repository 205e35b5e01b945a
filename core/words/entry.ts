/** English wording of typed entries: what could not be read, and what is asked beside a field. */
export const ENTRY_WORDS = {
  'entry.empty': 'Nothing is typed here yet.',
  'entry.tooLong': 'This is longer than any reading. Type one number and its unit.',
  'entry.notANumber':
    'This is not a number that can be read. Type digits, one decimal sign, a fraction if you like, then the unit.',
  'entry.tooManyDigits': 'This has more digits than any reading. Type the number as the instrument shows it.',
  'entry.twoNumbers': 'These are two numbers. Digits are not grouped: type 1350, not 1 350.',
  'entry.twoDecimalSigns':
    'Comma and point are both the decimal sign, so only one of them can stand in a number.',
  'entry.badFraction':
    'This fraction cannot be read. Type it as 3 1/2, the part above smaller than the part below.',
  'entry.unknownUnit': 'The unit {unit} is not known here. Known: {known}.',
  'entry.unitsOutOfOrder':
    'The parts of this entry do not go together. Type feet then inches, or degrees then minutes.',
  'slip.grouped': 'Is that a decimal sign, or did it only group the digits?',
  'slip.negative': 'Can this reading be below zero?',
  'slip.outOfRange': 'This is outside what a car and a bay can show here.',
  'slip.tenTimesTooBig': 'This is about ten times what fits here. Was it typed in another unit?',
  'slip.tenTimesTooSmall': 'This is about a tenth of what fits here. Was it typed in another unit?',
  'slip.inchesAsMm': 'This fits if the number was read in inches.',
  'slip.mmAsInches': 'This fits if the number was read in millimetres.',
  'slip.hundredTooMuch': 'This is 100 mm more than expected. Did the tape start at its 100 mm mark?',
  'slip.hundredTooLittle': 'This is 100 mm less than expected. Were the 100 mm taken off twice?',
  'slip.swappedSides': "This and its partner fit if the car's left and the car's right are exchanged.",
  'slip.farOff': 'This is far from what is expected. Look at the point and the instrument once more.',
  'cure.keep': 'keep {value}',
  'cure.take': 'take {value}',
  'cure.exchange': "exchange the car's left and the car's right",
} as const;
