/**
 * Wording of the stage tables: titles, what a stage is for, cautions, and every label, hint and choice of a field.
 * Keys are those of `core/job/stages`; a test walks the tables and fails for one without wording.
 */

import { PRECHECK_LABELS } from './prechecks.ts';

const TITLES = {
  'stage.intake.title': 'Intake',
  'stage.intake.purpose': 'Whose car this is, why it came, and what becomes of each of its sensors.',
  'stage.prechecks.title': 'Pre-checks',
  'stage.prechecks.purpose':
    'Is this car fit to be calibrated? One check that fails stops the work honestly.',
  'stage.bay.title': 'Bay',
  'stage.bay.purpose':
    'Floor under the wheels and under the fixture, light and room. Read the level at six places.',
  'stage.datum.title': 'Datum',
  'stage.datum.purpose': "The car's own lines, found from hub drops and one lap round the car with the tape.",
  'stage.placement.title': 'Placement',
  'stage.placement.purpose':
    'The fixture to its required pose: read, move, read again, until every card says proven.',
  'stage.stations.title': 'Stations',
  'stage.stations.purpose':
    "The target at each required place, proven, then captured on the maker's scan tool.",
  'stage.outcome.title': 'Outcome',
  'stage.outcome.purpose': "What the maker's routine answered, which codes stay, and how the car leaves.",
  'stage.signoff.title': 'Sign-off',
  'stage.signoff.purpose':
    'What is still missing, what the certificate will say, and one held press that signs it.',
} as const;

const CAUTIONS = {
  'caution.highVoltage':
    'High voltage: orange cables and an open service plug belong to trained people. Support the 12 V supply.',
  'caution.maker': "The vehicle maker's procedure and the law where you work come before anything said here.",
  'caution.lift': 'A raised car is no place to measure. Lower it, roll it one wheel turn, then read.',
  'caution.laser': 'Line lasers: never at eye height, never toward a mirror or a person.',
  'caution.underCar': 'Nobody starts, moves or rocks the car while someone kneels at a wheel.',
  'caution.movingFixture':
    'The fixture is top-heavy. Two hands, brakes on before you let go, cables off the floor.',
  'caution.captureMaker':
    "Start the maker's routine only when the scan tool asks for it; keep everyone out of the target's view.",
  'caution.roadCheck': 'A road check belongs to a licensed driver who does not look at a screen.',
  'caution.limit':
    "The certificate says that the maker's procedure was followed today. It is no promise of how the system acts on the road.",
} as const;

const INTAKE = {
  'field.intake.vin': 'Vehicle identification number',
  'field.intake.vin.hint': '17 characters, from the windscreen, the door pillar or the papers',
  'field.intake.plate': 'Plate',
  'field.intake.make': 'Make',
  'field.intake.model': 'Model and year',
  'field.intake.odometerIn': 'Odometer on arrival',
  'field.intake.steering': 'Steering wheel',
  'field.intake.steering.carLeft': "at the car's left",
  'field.intake.steering.carRight': "at the car's right",
  'field.intake.order': 'Order number',
  'field.intake.claim': 'Claim number, if an insurer pays',
  'field.intake.owner': 'Owner of the car',
  'field.intake.owner.hint': 'Name and address as they will stand on the certificate',
  'field.intake.orderingParty': 'Who ordered the work',
  'field.intake.payer': 'Who pays, with claim contact',
  'field.intake.placeOfWork': 'Place of work',
  'field.intake.reasons': 'Why calibration is needed',
  'field.intake.reasons.glass': 'glass replaced',
  'field.intake.reasons.bumper': 'bumper off or replaced',
  'field.intake.reasons.body': 'body repaired',
  'field.intake.reasons.suspension': 'suspension or ride height',
  'field.intake.reasons.alignment': 'wheel alignment changed',
  'field.intake.reasons.sensorReplaced': 'sensor replaced or loosened',
  'field.intake.reasons.battery': 'battery off, memory lost',
  'field.intake.reasons.code': 'fault code asks for it',
  'field.intake.reasons.complaint': 'complaint by the driver',
  'field.intake.remarks': 'Remarks',
} as const;

const PRECHECKS = {
  'field.prechecks.pressureFL': "Tyre pressure, front wheel at the car's left",
  'field.prechecks.pressureFR': "Tyre pressure, front wheel at the car's right",
  'field.prechecks.pressureRR': "Tyre pressure, rear wheel at the car's right",
  'field.prechecks.pressureRL': "Tyre pressure, rear wheel at the car's left",
  'field.prechecks.rideHeight': 'Ride height',
  'field.prechecks.rideHeight.standard': 'as built',
  'field.prechecks.rideHeight.differs': 'changed or sagging',
  'field.prechecks.glass': 'Windscreen',
  'field.prechecks.glass.notReplaced': 'not replaced',
  'field.prechecks.glass.makersPart': "replaced, maker's part",
  'field.prechecks.glass.otherPart': 'replaced, another part',
  'field.prechecks.adhesive': "Adhesive: the glue maker's waiting time",
  'field.prechecks.adhesive.timeOver': 'is over',
  'field.prechecks.adhesive.timeRunning': 'still runs',
  'field.prechecks.condition': "The procedure's own condition is met",
} as const;

const BAY_AND_PLACEMENT = {
  'field.bay.support': 'The car stands on',
  'field.bay.support.floor': 'the floor',
  'field.bay.support.turnPlates': 'turn plates',
  'field.bay.support.stands': 'wheel stands',
  'field.bay.support.runways': 'runways',
  'field.bay.support.lift': 'a lift, raised',
  'field.bay.lightMean': 'Light on the target, mean of five places',
  'field.bay.lightLowest': 'Light on the target, darkest place',
  'field.bay.noReflections': 'No glare, mirror or window in the sensor’s view',
  'field.bay.noBacklight': 'No lamp, door or sun shines at the sensor from beyond the target',
  'field.bay.light1': "Target, upper corner at the car's left",
  'field.bay.light2': "Target, upper corner at the car's right",
  'field.bay.light3': "Target, lower corner at the car's left",
  'field.bay.light4': "Target, lower corner at the car's right",
  'field.bay.light5': 'Target, middle',
  'field.bay.luxMeterClass': 'Class of the lux meter',
  'field.bay.luxMeterClass.L': 'L',
  'field.bay.luxMeterClass.A': 'A',
  'field.bay.luxMeterClass.B': 'B',
  'field.bay.luxMeterClass.C': 'C or not known',
  'field.bay.lightUniformity': 'Uniformity, darkest over average',
  'field.bay.wheelbase': 'Wheelbase',
  'field.bay.track': 'Track, middle of tyre to middle of tyre',
  'field.bay.carWidth': 'Width over the mirrors',
  'field.bay.frontOverhang': 'Front axle to the front end of the car',
  'field.bay.rearOverhang': 'Rear axle to the rear end of the car',
  'field.bay.rolling': 'Room to roll behind the car',
  'field.bay.parkedAlong': 'Middle of the rear axle, along the bay',
  'field.bay.parkedAcross': 'Middle of the rear axle, across the bay',
  'field.bay.parkedNose': 'The nose points',
  'field.bay.parkedNose.alongX': 'the way the bay is counted',
  'field.bay.parkedNose.againstX': 'against it',
  'field.bay.overdueReason': 'Why it was used all the same',
  'field.bay.clearZone': 'The zone the procedure asks for is clear of people and things',
  'field.bay.instrumentsFit': 'Every instrument is within its check date and undamaged',
  'field.datum.frontStraight': 'Front wheels point straight ahead',
  'field.datum.input': 'A value the procedure measures on this car',
  'field.datum.faceHeight': 'Height of the front-most body point over the floor',
  'field.datum.faceHeight.hint':
    'Where the plumb line to the body face starts; only if the procedure measures from it',
  'field.datum.toeDocument': 'Alignment report, if rear toe is taken from one',
  'field.datum.toeDocument.hint': 'Number and date of the report',
  'field.placement.markedEnd': "Which painted mark is at the car's left?",
  'field.placement.markedEnd.hint': "Look at the two ends of the bar: the mark nearer the car's-left side",
  'field.stations.conditionsHold': 'Light, doors, battery support and clear zone are still as checked',
} as const;

const OUTCOME = {
  'field.outcome.routine': "The maker's routine",
  'field.outcome.routine.passed': 'passed',
  'field.outcome.routine.failed': 'failed',
  'field.outcome.routine.interrupted': 'was interrupted',
  'field.outcome.routine.notRun': 'was not run',
  'field.outcome.scanTool': 'Scan tool and software',
  'field.outcome.scanTool.hint': 'Name, serial number and software version',
  'field.outcome.scanReport': "The scan tool's own report",
  'field.outcome.scanReport.hint': 'Its number or file name',
  'field.outcome.codesAfter': 'Fault codes after the work',
  'field.outcome.codesStay': 'Codes of the driver-assistance systems',
  'field.outcome.codesStay.noneStay': 'none stay',
  'field.outcome.codesStay.someStay': 'some stay',
  'field.outcome.roadCheck': 'Road check',
  'field.outcome.roadCheck.done': 'done',
  'field.outcome.roadCheck.notAskedFor': 'not asked for by the maker',
  'field.outcome.roadCheck.notDone': 'asked for, not done',
  'field.outcome.odometerOut': 'Odometer at handover',
  'field.outcome.stateAtHandover': 'The system at handover',
  'field.outcome.stateAtHandover.working': 'working, no warning shown',
  'field.outcome.stateAtHandover.warningShown': 'warning shown',
  'field.outcome.stateAtHandover.switchedOff': 'switched off',
  'field.outcome.whoWasTold': 'Who was told, by whom',
  'field.outcome.toldHow': 'How they were told',
  'field.outcome.toldHow.inPerson': 'in person',
  'field.outcome.toldHow.byPhone': 'by phone',
  'field.outcome.toldHow.inWriting': 'in writing',
  'field.outcome.toldAt': 'When they were told',
  'field.outcome.whoWasTold.hint': 'A person must know before the car leaves',
} as const;

const SIGNOFF = {
  'field.signoff.withinReason': 'Why a value that is within but not proven is accepted',
  'field.signoff.withinReason.hint': 'Asked for where a coordinate is within by less than its uncertainty',
  'field.signoff.withinReason.bestReachable': 'best reachable with these instruments',
  'field.signoff.withinReason.makerAllows': "the maker's procedure allows it",
  'field.signoff.withinReason.captureAgrees': "the maker's routine passed and agrees",
  'field.signoff.stopReason': 'Why the work stops here',
  'field.signoff.stopReason.preCheckFailed': 'a pre-check failed',
  'field.signoff.stopReason.placementNotShown': 'placement cannot be shown',
  'field.signoff.stopReason.routineFailed': "the maker's routine failed",
  'field.signoff.stopReason.codesStay': 'fault codes stay',
  'field.signoff.stopReason.refusedByCustomer': 'refused by the customer',
  'field.signoff.stopReason.partsMissing': 'parts or data are missing',
  'field.signoff.stopReason.unfitBay': 'the bay is not fit for it',
  'field.signoff.stopReason.timeRanOut': 'time ran out',
  'field.signoff.stopWords': 'In your own words',
} as const;

/** Key to template of everything the stage tables name. */
export const STAGE_WORDS = {
  ...TITLES,
  ...CAUTIONS,
  ...INTAKE,
  ...PRECHECKS,
  ...PRECHECK_LABELS,
  ...BAY_AND_PLACEMENT,
  ...OUTCOME,
  ...SIGNOFF,
} as const;
