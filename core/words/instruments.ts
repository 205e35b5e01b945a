/** English wording of instruments that send lines: what is wrong with a format, a line, a connection. */
export const INSTRUMENT_WORDS = {
  'instrument.patternTooLong': 'The pattern is longer than {most} characters.',
  'instrument.patternUnreadable': 'The pattern cannot be read: {problem}.',
  'instrument.patternTooLarge': 'The pattern repeats too much. Use smaller counts.',
  'instrument.noValueGroup': 'The pattern has no group named value: write (?<value>...) around the number.',
  'instrument.unknownGroup':
    'The pattern has a group named {group}. Groups can be named value, unit, channel, quality.',
  'instrument.unitMissing':
    'Nothing says the unit. Choose one, or write (?<unit>...) around it in the pattern.',
  'instrument.fixedUnitUnknown': 'The unit {unit} is not known here. Known: {known}.',
  'instrument.goodWithoutQuality':
    'Marks of a good line are given, but the pattern has no group named quality.',

  'instrument.noMatch': 'This line does not fit the pattern.',
  'instrument.notANumber': 'What stands where the value should be is not a number: {text}',
  'instrument.unitUnknown': 'The line says the unit {unit}, which is not known here. Known: {known}.',
  'instrument.unitNotSaid': 'This line does not say its unit.',
  'instrument.qualityBad': 'The instrument marks this line as not good: {quality}',
  'instrument.lineTooLong': 'This line is longer than {most} characters and was cut.',

  'instrument.refused': 'Nothing answers at {place}. Check the address, and that the instrument is on.',
  'instrument.unreachable': '{place} cannot be reached. Check the network and the address.',
  'instrument.noSuchPort': 'There is no port {place}. Check the cable and the plug.',
  'instrument.portBusy': 'Another program uses {place}. Close it there first.',
  'instrument.notAllowed': 'This PC does not let the program use {place}. Ask whoever looks after it.',
  'instrument.unplugged': 'The connection to {place} ended. Check cable and instrument.',
  'instrument.tooMany': 'More than {most} instruments cannot be connected at once. Disconnect one first.',
  'instrument.trouble': 'The connection to {place} failed ({problem}).',
} as const;
