/** English wording of a repeatability study on the command line. */
export const STUDY_WORDS = {
  'study.size': '{parts} set-ups, {people} people, {trials} readings of each',
  'study.table': 'Analysis of variance',
  'study.head.dof': 'dof',
  'study.head.meanSquare': 'mean square',
  'study.head.f': 'F',
  'study.head.p': 'p',
  'study.line.part': 'set-ups',
  'study.line.person': 'people',
  'study.line.interaction': 'people by set-up',
  'study.line.reading': 'readings',
  'study.line.pooled': 'readings and people by set-up, pooled',
  'study.spread': 'Standard deviation, and share of the measuring',
  'study.head.anova': 'by variance',
  'study.head.range': 'by ranges',
  'study.component.repeatability': 'same person',
  'study.component.reproducibility': 'between people',
  'study.component.interaction': 'people by set-up',
  'study.component.measuring': 'measuring as a whole',
  'study.component.parts': 'between set-ups',
  'study.component.total': 'total',
  'study.noConstants':
    'The method of ranges has constants for 2 or 3 readings and for 2 to 10 people and set-ups only.',
  'study.samePerson': 'One reading repeated by the same person: {s} with {dof} degrees of freedom.',
  'study.anybody': 'One reading by anybody who took part: {s} with {dof} degrees of freedom.',
  'study.peopleDiffer':
    'The people differ by more than chance (p = {p}): look at how each of them holds and reads the tape before this is used.',
  'study.line': "Line for the shop's record, repeatability, tape:",
  'study.notYet':
    'By itself it does not replace the stated default: {least} degrees of freedom are needed, of all studies together.',
  'study.replaces': 'It replaces the stated default in every placement whose equipment is chosen afterwards.',
  'study.allAlike':
    'Repeats never differed: the step of the tape is wider than its spread, and the stated default stays.',
  'study.tooFew': 'A study needs at least two set-ups, two people and two readings of each.',
  'study.unequal':
    'Set-up {part}, person {person}: another number of readings than at the first. Nothing is filled in.',
  'study.notANumber': 'Set-up {part}, person {person}, reading {trial} is no number.',
} as const;
