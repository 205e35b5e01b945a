/** English wording of what can be wrong with a procedure; `{where}` names the place, `{text}` what stands there. */
export const PROCEDURE_WORDS = {
  'procedure.expressionEmpty': '{where}: nothing is written here.',
  'procedure.expressionTooLong': '{where}: longer than 300 characters.',
  'procedure.expressionTooComplex': '{where}: too many parts. Split it with a measured input.',
  'procedure.expressionUnreadable':
    '{where}: "{text}" cannot be read. Write numbers with units, as in 1350 mm or reach + 1500 mm.',
  'procedure.expressionNotAllowed':
    '{where}: "{text}" is not allowed. Only numbers, units, inputs, + - * / ^, parentheses, min max abs sqrt, sind cosd tand.',
  'procedure.inputMissing': '{where}: {text} has not been measured on this car yet.',
  'procedure.inputUnknown': '{where}: {text} is neither a unit nor an input of this procedure.',
  'procedure.inputOutOfLimits': '{where}: {text} is outside the limits the procedure gives for it.',
  'procedure.unitsDoNotMatch':
    '{where}: "{text}" mixes things of different units, or gives another kind of value.',
  'procedure.unitMissing': '{where}: "{text}" has no unit. Write mm, in or deg after it.',
  'procedure.groupingDoubtful':
    '{where}: "{text}" may be grouped digits. Write it without a sign in between.',
  'procedure.divisionByZero': '{where}: "{text}" divides by zero.',
  'procedure.notANumber': '{where}: "{text}" has no value.',
  'procedure.nameTaken': '{where}: the name {text} is used twice, or belongs to a unit or function.',
  'procedure.limitsCrossed': '{where}: the lower limit lies above the upper one ({text}).',
  'procedure.toleranceSign': '{where}: a tolerance must reach from the required value outward ({text}).',
  'procedure.slideWithoutBase': '{where}: a slide needs a placed station before it.',
  'procedure.slideMoves': '{where}: a slide keeps the bar where it stands, but this {text} differs.',
  'procedure.reviewUnclear':
    '{where}: who entered, who reviewed and in which way do not fit together ({text}).',
  'procedure.nothingFits': '{where}: no choice fits ({text}).',
} as const;
