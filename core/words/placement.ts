/**
 * English wording of placement: the one line that says what to do next (one action, at most twelve words with its
 * values filled in), and what can keep an answer away. `{reading}` is a name from `recipe.ts`.
 */
export const PLACEMENT_WORDS = {
  'move.turn.carLeftEndToward': "Turn: car's-left end {amount} toward the car, then read again",
  'move.turn.carLeftEndAway': "Turn: car's-left end {amount} away from the car, then read again",
  'move.roll.toward': 'Roll the fixture {amount} toward the car, then read again',
  'move.roll.away': 'Roll the fixture {amount} away from the car, then read again',
  'move.shift.carLeft': "Shift the fixture {amount} to the car's left, then read again",
  'move.shift.carRight': "Shift the fixture {amount} to the car's right, then read again",
  'move.raise.up': 'Raise the target {amount}, then read its height',
  'move.raise.down': 'Lower the target {amount}, then read its height',
  'move.lean.toward': 'Lean the top {amount} toward the car, then read again',
  'move.lean.away': 'Lean the top {amount} away from the car, then read again',
  'move.level.carLeftUp': "Raise the car's-left bar end {amount}, then read again",
  'move.level.carLeftDown': "Lower the car's-left bar end {amount}, then read again",
  'move.slide.carLeft': "Set the slide to {amount} at the car's left, then read",
  'move.slide.carRight': "Set the slide to {amount} at the car's right, then read",
  'move.slide.centre': 'Set the slide to the centre mark, then read',
  'next.read': 'Read: {reading}',
  'next.readAgain': 'Read again: {reading}',
  'next.oneOfThese': 'One does not fit: {reading}',
  'next.control': 'Control does not agree. Read the fixture again.',
  'next.betterReading': 'Read once more: {reading}',
  'next.moveOnce': 'Within the uncertainty. Move no further; decide at sign-off.',
  'next.proven': 'Every station is proven. Touch neither car nor fixture.',
  'next.placed': 'The fixture stands where it must. Touch neither car nor fixture.',
  'next.noStation': 'The car is known. Choose a procedure.',
  'undetermined.vehicle': 'Where the wheels stand is not known yet.',
  'undetermined.fixture': 'Where the fixture stands is not known yet.',
  'undetermined.thrustLine':
    'This procedure measures from the thrust line, which needs the toe of both rear wheels from an alignment report.',
  'undetermined.bodyFace':
    'This procedure measures from the front-most body face, which is not plumbed and measured yet.',
  'placement.undetermined': 'The readings leave open: {quantity} Read next: {reading}.',
  'placement.impossible': 'This cannot be, or these cannot all be true together: {readings}.',
  'placement.sideContradicted':
    "A point comes out on the wrong side. Are two readings exchanged between the car's left and the car's right? {readings}.",
  'placement.notConverged': 'The readings do not settle to one layout. Look at each again.',
  'placement.directionMissing': 'Say which way it goes: {reading}.',
  'placement.faceAcrossCar': 'This recipe serves targets that look along the car. Use another recipe here.',
  'placement.firstStationSlides': 'A slide needs a placed station before it.',
  'placement.noSideArm': 'The side arms have no length yet.',
} as const;

/** A key of placement's wording. */
export type PlacementWordKey = keyof typeof PLACEMENT_WORDS;
