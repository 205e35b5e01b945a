/**
 * English wording of planning: what can be proven before a reading is taken, what cannot and why, and what is in the way.
 * `{tolerance}` is a phrase of this file that names amount and coordinate; amounts are rounded and never signed.
 */
export const PLANNING_WORDS = {
  'planning.tolerance.ahead': '{amount} along the car',
  'planning.tolerance.left': "{amount} to the car's left or right",
  'planning.tolerance.up': '{amount} in height',
  'planning.tolerance.yaw': '{amount} of turn',
  'planning.tolerance.pitch': '{amount} of lean along the car',
  'planning.tolerance.roll': '{amount} of tilt across the car',
  'planning.tolerance.endless': 'a limit on one side only',
  'planning.proves':
    'Can be proven: {tolerance}. U is {U}, and the target may stand {room} off its best place.',
  'planning.provesAlways': 'Can be proven: {tolerance}. U is {U}, and this rule takes nothing off for it.',
  'planning.moreWould':
    'These readings cannot prove {tolerance}: U is {U}. More drops or repeats would: U is {best} at best. Largest part: {limit}, {share}.',
  'planning.cannot':
    '{limit} cannot prove {tolerance}: U is {best} at best, however often it is read. Its part is {share}.',
  'planning.wouldProve': '{recipe}, {work} work, would prove {tolerance}: U is {U}.',
  'planning.nothingWould': 'Nothing this program knows with these instruments would prove {tolerance}.',
  'planning.rearOnly':
    'The rear axle alone gives the direction of the car by two hubs that stand close together, and an axle need not be square to the car.',
  'planning.fewest': 'Fewest readings that prove every tolerance: {count}, about {minutes} minutes.',
  'planning.fewest.more': '{reading}: {times} times',
  'planning.fewest.without': 'Not needed: {reading}',
  'planning.fewest.none':
    'No number of drops and repeats proves {tolerance}. {limit} remains: {share} of what repeats cannot lower.',
  'planning.fewest.tooMany':
    'More readings would be needed than anybody should take: {tolerance} is too tight for them.',
  'planning.fewest.blocked': 'Without this reading nothing can be placed, and it is blocked: {reading}.',
  'planning.setOut': 'Car-side lines set out {amount} beyond the marks, so that every tape passes the tyres.',
  'planning.nextHead': 'Most gained by one reading more:',
  'planning.next': '{reading}: U falls from {before} to {after}',
  'planning.blocked': '{reading}: blocked by {obstacles}',
  'planning.and': '{first} and {second}',
  'planning.undetermined': 'Planned readings leave something open. Also needed: {readings}.',
  'planning.datumNotGiven':
    'This recipe does not give the line or the edge that a station measures from: {recipe}.',
  'planning.impossible': 'These dimensions make no layout: {cause}.',
  'planning.recipe.default': 'All four hubs with both diagonals',
  'planning.recipe.oneDiagonal': 'All four hubs with one diagonal',
  'planning.recipe.rimHeadings': 'All four hubs, rear headings read at the rims',
  'planning.recipe.rearOnly': 'The two rear hubs alone',
  'planning.work.typical': 'typical',
  'planning.work.careful': 'careful',
  'planning.work.best': 'best',
  'planning.reading.rear.sameL': "car's-left rear mark to car's-left bar end",
  'planning.reading.rear.sameR': "car's-right rear mark to car's-right bar end",
  'planning.reading.rear.diagLR': "car's-left rear mark to car's-right bar end",
  'planning.reading.rear.diagRL': "car's-right rear mark to car's-left bar end",
  'planning.reading.rim.RL': "four rim gaps of the car's left rear wheel",
  'planning.reading.rim.RR': "four rim gaps of the car's right rear wheel",
  'planning.obstacle.tyre.FL': "the car's left front tyre",
  'planning.obstacle.tyre.FR': "the car's right front tyre",
  'planning.obstacle.tyre.RL': "the car's left rear tyre",
  'planning.obstacle.tyre.RR': "the car's right rear tyre",
  'planning.obstacle.body': 'the body and its sills',
  'planning.obstacle.stand': "the base of the fixture's stand",
  'planning.limit.tapes': 'This tape, held between the marks',
  'planning.limit.tapeScale': 'The scale of this tape',
  'planning.limit.tapeHook': 'The hook of this tape',
  'planning.limit.heightTape': "The tape held to the target's centre",
  'planning.limit.hubDrops': 'Plumbing the hubs to their marks',
  'planning.limit.barEndDrops': 'The drop of the bar ends',
  'planning.limit.sideArms': 'The length of the side arms',
  'planning.limit.lines': 'Setting out the car-side lines',
  'planning.limit.level': 'This level with its staff',
  'planning.limit.floor': 'The floor between the staff places',
  'planning.limit.inclinometer': 'This inclinometer',
  'planning.limit.barLength': 'The length of the bar',
  'planning.limit.faceCentre': "The place of the target's centre on this fixture",
  'planning.limit.bodyFace': "Plumbing the body's front-most point",
  'planning.limit.slide': 'The slide of this fixture',
  'planning.limit.alignmentReport': 'The rear toe of the alignment report',
  'planning.limit.rims': 'Reading the rear headings at the rims',
  'planning.limit.rearAxle': 'The rear axle alone',
} as const;

/** A key of planning's wording. */
export type PlanningWordKey = keyof typeof PLANNING_WORDS;
