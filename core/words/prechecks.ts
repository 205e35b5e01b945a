/** Wording of the checks on one walk round the car: labels, reasons for a no, codes, moments, the adhesive's clock. */

const SEAT = {
  'field.prechecks.codesBefore': 'Fault codes before the work',
  'field.prechecks.codesBefore.hint': 'As the scan tool shows them, or "none"',
  'field.prechecks.noOpenFaults': 'No open fault that forbids the work',
  'field.prechecks.noOpenFaults.supply': 'supply voltage',
  'field.prechecks.noOpenFaults.steering': 'steering',
  'field.prechecks.noOpenFaults.brakes': 'brakes',
  'field.prechecks.noOpenFaults.sensor': 'the sensor itself',
  'field.prechecks.noOpenFaults.other': 'another fault',
  'field.prechecks.batterySupport': 'Battery support connected and steady',
  'field.prechecks.batterySupport.notConnected': 'not connected',
  'field.prechecks.batterySupport.voltageFalls': 'voltage falls',
  'field.prechecks.fuel': 'Fuel in the tank',
  'field.prechecks.steeringStraight': 'Steering wheel straight, held there',
  'field.prechecks.steeringStraight.wheelAskew': 'stands askew',
  'field.prechecks.steeringStraight.angleSensor': 'angle sensor not set',
  'field.prechecks.suspensionMode': 'Suspension in the mode the maker asks for',
  'field.prechecks.suspensionMode.otherMode': 'another mode',
  'field.prechecks.suspensionMode.fault': 'will not hold it',
} as const;

const WINDSCREEN = {
  'field.prechecks.bondedAt': 'Glass was bonded at',
  'field.prechecks.bondedAt.hint': 'Time as 14:30; with the day as 2026-03-05 14:30',
  'field.prechecks.adhesiveMinutes': 'Waiting time given by the adhesive’s maker',
  'field.prechecks.cameraWindow': "Camera's window in the glass clean and whole",
  'field.prechecks.cameraWindow.dirty': 'dirty',
  'field.prechecks.cameraWindow.damaged': 'chip or crack',
  'field.prechecks.cameraWindow.film': 'film or sticker',
  'field.prechecks.cameraWindow.wet': 'wet or misted',
} as const;

const FACES = {
  'field.prechecks.sensorSeated': 'Sensors, brackets and covers seated and clean',
  'field.prechecks.sensorSeated.loose': 'loose',
  'field.prechecks.sensorSeated.bracketBent': 'bracket bent',
  'field.prechecks.sensorSeated.coverLoose': 'cover loose',
  'field.prechecks.sensorSeated.dirty': 'dirty',
  'field.prechecks.faceTilt': "Radar's face stands as the maker says",
  'field.prechecks.faceTilt.tilted': 'tilted up or down',
  'field.prechecks.faceTilt.turned': 'turned to one side',
  'field.prechecks.cover': 'Cover the radar sees through',
  'field.prechecks.cover.original': 'original',
  'field.prechecks.cover.makersPart': "new, maker's part",
  'field.prechecks.cover.otherPart': 'new, another part',
  'field.prechecks.cover.uncovered': 'none',
  'field.prechecks.coverSound': 'Cover without filler, stickers or thick paint',
  'field.prechecks.coverSound.filler': 'filler',
  'field.prechecks.coverSound.sticker': 'sticker or film',
  'field.prechecks.coverSound.paint': 'paint too thick',
  'field.prechecks.coverSound.cracked': 'cracked',
  'field.prechecks.paintThickness': 'Paint on the cover, thickest place',
} as const;

const WHEELS = {
  'field.prechecks.tyresMatch': 'All tyres are of the size on the plate, and alike on each axle',
  'field.prechecks.tyresMatch.size': 'another size',
  'field.prechecks.tyresMatch.unlike': 'unlike on an axle',
  'field.prechecks.tyresMatch.worn': 'worn unevenly',
  'field.prechecks.tyresMatch.spare': 'spare wheel fitted',
  'field.prechecks.tyreSizeFront': 'Tyre size, front axle',
  'field.prechecks.tyreSizeRear': 'Tyre size, rear axle',
  'field.prechecks.treadFL': "Tread, front wheel at the car's left",
  'field.prechecks.treadFR': "Tread, front wheel at the car's right",
  'field.prechecks.treadRR': "Tread, rear wheel at the car's right",
  'field.prechecks.treadRL': "Tread, rear wheel at the car's left",
  'field.prechecks.settled': 'Car rolled one wheel turn since it was last lifted, no brakes at the end',
  'field.prechecks.settled.lifted': 'lifted and not rolled since',
  'field.prechecks.settled.braked': 'stopped by its brakes',
} as const;

const LOAD = {
  'field.prechecks.unladen': 'Nothing in the car that was not there when it was built',
  'field.prechecks.unladen.cargo': 'cargo that stays',
  'field.prechecks.unladen.fittings': 'heavy fittings',
  'field.prechecks.roofClear': 'Nothing on the roof',
  'field.prechecks.roofClear.box': 'roof box',
  'field.prechecks.roofClear.rack': 'loaded rack',
  'field.prechecks.towBar': 'Tow bar free',
  'field.prechecks.towBar.carrier': 'carrier on it',
  'field.prechecks.towBar.trailer': 'trailer plugged in',
  'field.prechecks.nobodyAboard': 'Nobody aboard, doors shut',
  'field.prechecks.nobodyAboard.aboard': 'somebody aboard',
  'field.prechecks.nobodyAboard.doorOpen': 'a door stays open',
  'field.prechecks.remarks': 'Remarks',
} as const;

const ALIGNMENT = {
  'field.prechecks.toeFL': "Toe, front wheel at the car's left",
  'field.prechecks.toeFR': "Toe, front wheel at the car's right",
  'field.prechecks.toeRL': "Toe, rear wheel at the car's left",
  'field.prechecks.toeRR': "Toe, rear wheel at the car's right",
} as const;

const ANSWERS = {
  'check.inOrder': 'in order',
  'check.notInOrder': 'not in order',
  'check.notApplicable': 'does not apply',
  'check.why': 'Why: {what}',
  'check.forbids': 'This forbids the work. Mend it, or end the job as not calibrated.',
  'check.endHere': 'End as not calibrated',
  'walk.seat': '1. At the wheel',
  'walk.windscreen': '2. Windscreen',
  'walk.faces': '3. Sensors and their covers',
  'walk.wheels': '4. Once round the wheels',
  'walk.load': '5. Load, roof and tow bar',
  'walk.alignment': '6. Alignment report, if there is one',
  'walk.last': 'Last, before the doors shut',
} as const;

const TYPED = {
  'alignment.totalFront': 'Total toe, front axle',
  'alignment.totalRear': 'Total toe, rear axle',
  'alignment.thrust': 'Thrust angle',
  'alignment.in': '{angle} in',
  'alignment.out': '{angle} out',
  'alignment.toCarLeft': "{angle} to the car's left",
  'alignment.toCarRight': "{angle} to the car's right",
  'alignment.zero': '{angle}',
  'codes.none': 'No codes',
  'codes.form':
    '"{part}" is no fault code: a letter P, C, B or U, four digits, then perhaps a hyphen and two.',
  'codes.letter': '"{part}": a fault code begins with P, C, B or U.',
  'codes.first': '"{part}": the first digit of a fault code is 0 to 3.',
  'codes.length': '"{part}": four digits after the letter, then perhaps a hyphen and two more.',
  'codes.tooMany': 'More than {most} codes: read the car first.',
  'codes.noneAndSome': 'Either none, or the codes: not both.',
  'moment.form': 'Write the time as 14:30, or with its day as 2026-03-05 14:30.',
  'moment.notYet': 'That moment is still to come.',
  'tyreSize.unreadable': 'Write the size as on the side wall: 205/55 R16.',
  'tyreSize.implausible': 'No road car has a tyre of that size.',
  'tyreSize.diameter': 'Diameter by its size: {diameter}',
  'adhesive.mayNotMove': 'May be moved from {time} on {day}. Do not roll the car before.',
  'adhesive.over': 'Waiting time over since {time} on {day}.',
  'stop.movedTooEarly': 'The car was said to be moved before the adhesive allowed it',
} as const;

/** Labels and reasons of the table's rows. */
export const PRECHECK_LABELS = {
  ...SEAT,
  ...WINDSCREEN,
  ...FACES,
  ...WHEELS,
  ...LOAD,
  ...ALIGNMENT,
} as const;

/** What stands round the rows: answers, places of the walk, codes, moments, the adhesive, the alignment report. */
export const PRECHECK_WORDS = { ...ANSWERS, ...TYPED } as const;
