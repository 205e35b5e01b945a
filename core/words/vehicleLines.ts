/** English wording about the car's lines: what a datum can prove, what would prove it, and refusals in three sentences. */

const kept = 'Nothing was lost: what you entered stays as it is.';

export const VEHICLE_LINE_WORDS = {
  'datum.canProve':
    'The line proves a side position {distance} ahead: U there is {expanded} against {tolerance}.',
  'datum.cannotProve.rearAxle':
    'The rear axle alone cannot prove the side position {distance} ahead: U there is {expanded} against {tolerance}.',
  'datum.cannotProve.hubs':
    'These hub drops cannot prove the side position {distance} ahead: U there is {expanded} against {tolerance}.',
  'datum.cannotProve.headings':
    'These wheel headings cannot prove the side position {distance} ahead: U there is {expanded} against {tolerance}.',
  'datum.cannotProve.alignmentReport':
    'This alignment report cannot prove the side position {distance} ahead: U there is {expanded} against {tolerance}.',
  'datum.cannotProve.bodyMarks':
    'These body marks cannot prove the side position {distance} ahead: U there is {expanded} against {tolerance}.',
  'datum.wouldProve.frontHubs': 'Drops of the front hubs would: U {expanded}.',
  'datum.wouldProve.headings': 'Headings of the rear wheels, run-out removed, would: U {expanded}.',
  'datum.wouldProve.alignmentReport':
    "Drops of the front hubs with an alignment report's thrust angle would: U {expanded}.",
  'datum.nothingProves':
    'None of the ways at hand does. A better instrument is needed, not a better position.',
  'datum.linesDiffer':
    'Thrust line and centreline differ by {angle} (U {expanded}): align the car before placing.',
  'datum.linesAlike':
    'Thrust line and centreline do not differ beyond the uncertainty: {angle} (U {expanded}).',

  'error.vehicle/noContactPlane.what': 'The four floor points fix no plane.',
  'error.vehicle/noContactPlane.next': 'Check the heights and places at the four wheels.',
  'error.vehicle/noContactPlane.safe': kept,
  'error.vehicle/axlesCoincide.what': 'Front and rear axle lie at one place.',
  'error.vehicle/axlesCoincide.next': 'Check the drops of the four hubs: front and rear may be exchanged.',
  'error.vehicle/axlesCoincide.safe': kept,
  'error.vehicle/axleTooShort.what': 'The two rear hubs are only {lengthMm} apart.',
  'error.vehicle/axleTooShort.next': 'Check the drops of both rear hubs.',
  'error.vehicle/axleTooShort.safe': kept,
  'error.vehicle/marksTooClose.what': 'The body marks lie too close together to give a direction.',
  'error.vehicle/marksTooClose.next': 'Use marks as far apart along the car as there are.',
  'error.vehicle/marksTooClose.safe': kept,
  'error.vehicle/marksExact.what': 'The body marks are entered as exact, or as one and the same reading.',
  'error.vehicle/marksExact.next': 'Enter how well each mark is known.',
  'error.vehicle/marksExact.safe': kept,
  'error.vehicle/tooFewMarks.what': '{count} body marks give no line.',
  'error.vehicle/tooFewMarks.next': 'Read at least two marks, better four.',
  'error.vehicle/tooFewMarks.safe': kept,
  'error.vehicle/reportWithoutUncertainty.what': 'The alignment report {document} states no uncertainty.',
  'error.vehicle/reportWithoutUncertainty.next':
    "Enter the aligner's uncertainty from its certificate, or read the rear wheels here.",
  'error.vehicle/reportWithoutUncertainty.safe': kept,
  'error.vehicle/cornersNotApart.what': 'The four corners do not lie apart.',
  'error.vehicle/cornersNotApart.next': 'Check wheelbase, track and where each height was read.',
  'error.vehicle/cornersNotApart.safe': kept,
  'error.vehicle/radiusImplausible.what': 'No tyre of {diameterMm} stands on a radius of {radiusMm}.',
  'error.vehicle/radiusImplausible.next': 'Measure from the floor to the middle of the hub again.',
  'error.vehicle/radiusImplausible.safe': kept,
  'error.vehicle/pressureImplausible.what': '{pressureKPa} kPa is no tyre pressure.',
  'error.vehicle/pressureImplausible.next': 'Read the gauge again and check its unit.',
  'error.vehicle/pressureImplausible.safe': kept,
} as const;
