/**
 * English wording that every part shares: directions, coordinates, verdict-free states. A person at the
 * fixture faces the car, so directions always name the car's own sides and ends; see `plainWords.ts` for the
 * words that may not appear.
 */

/** Key to template; the slots take text that is already rounded and carries its unit. */
export const EN = {
  'dir.none': 'where it must be',
  'dir.awayFromCar': '{amount} away from the car',
  'dir.towardCar': '{amount} toward the car',
  'dir.towardCarFront': "{amount} toward the car's front end",
  'dir.towardCarRear': "{amount} toward the car's rear end",
  'dir.toCarLeft': "{amount} to the car's left",
  'dir.toCarRight': "{amount} to the car's right",
  'dir.higher': '{amount} higher',
  'dir.lower': '{amount} lower',
  'dir.turn.carLeftEndAway': "turned {amount}, car's-left end away from the car",
  'dir.turn.carLeftEndToward': "turned {amount}, car's-left end toward the car",
  'dir.turn.carFrontEndAway': "turned {amount}, the end nearer the car's front away from the car",
  'dir.turn.carFrontEndToward': "turned {amount}, the end nearer the car's front toward the car",
  'dir.lean.topAway': 'top leans {amount} away from the car',
  'dir.lean.topToward': 'top leans {amount} toward the car',
  'dir.tilt.carLeftEndHigher': "car's-left end {amount} higher",
  'dir.tilt.carLeftEndLower': "car's-left end {amount} lower",
  'dir.tilt.carFrontEndHigher': "the end nearer the car's front {amount} higher",
  'dir.tilt.carFrontEndLower': "the end nearer the car's front {amount} lower",
  'side.carLeft': "car's left",
  'side.carRight': "car's right",
  'side.carLeft.steering': "car's left (steering-wheel side)",
  'side.carLeft.passenger': "car's left (passenger side)",
  'side.carRight.steering': "car's right (steering-wheel side)",
  'side.carRight.passenger': "car's right (passenger side)",
  'coordinate.ahead': 'ahead',
  'coordinate.left': "to the car's left",
  'coordinate.up': 'height',
  'coordinate.yaw': 'turn',
  'coordinate.pitch': 'lean along the car',
  'coordinate.roll': 'tilt across the car',
} as const;
