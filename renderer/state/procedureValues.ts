/**
 * Every value of a procedure as a line to be looked at: where it stands, its name, what it says in words. For the review
 * beside the source page, for what changed between two editions. Pure.
 */
import { COORDINATES, type Coordinate } from '../../core/frames.ts';
import type { Procedure, ProcedureCondition, ProcedureStation } from '../../core/procedure/index.ts';
import { say } from '../../core/words/index.ts';
import { placeWords } from '../text/procedurePlace.ts';
import { coordinateValueText, toleranceText } from '../text/procedureWords.ts';
import { splitSign } from './signedText.ts';

export interface ValueLine {
  /** As in the check: `stations.centre.ahead`. */
  readonly where: string;
  readonly label: string;
  readonly text: string;
}

function conditionText(condition: ProcedureCondition): string {
  const parts = [
    condition.text,
    ...(condition.kind === 'value'
      ? [
          say('procedureValue.between', {
            least: String(condition.least),
            most: String(condition.most),
            unit: condition.unit,
          }),
        ]
      : []),
    ...(condition.kind === 'choice'
      ? condition.choices.map((each) =>
          each.fits ? each.text : say('procedureValue.unfit', { text: each.text }),
        )
      : []),
    ...(condition.caution === null ? [] : [condition.caution]),
    ...(condition.blocking ? [say('procedureValue.blocking')] : []),
  ];
  return parts.join('; ');
}

function stationLines(procedure: Procedure, station: ProcedureStation): readonly ValueLine[] {
  const at = `stations.${station.id}`;
  const line = (part: string, text: string): ValueLine => {
    const where = `${at}.${part}`;
    return { where, label: placeWords(where, procedure.stations), text };
  };
  const coordinate = (each: Coordinate): readonly ValueLine[] => [
    line(each, coordinateValueText(station, each)),
    line(
      `${each}.tolerance`,
      station.free.includes(each)
        ? say('toleranceText.free')
        : toleranceText(station[each].tolerance, each, station.place),
    ),
  ];
  const { radial } = station;
  return [
    line('kind', `${say(`stationKind.${station.kind}`)}, ${say(`stationPlace.${station.place}`)}`),
    ...COORDINATES.flatMap(coordinate),
    ...(radial === undefined
      ? []
      : [
          line(
            'radial',
            say(`radial.${radial.plane}.${radial.stated ? 'stated' : 'working'}`, { limit: radial.limit }),
          ),
        ]),
    ...(station.capturePrompt === '' ? [] : [line('capturePrompt', station.capturePrompt)]),
  ];
}

/** A limit below zero says so in a word. */
function unsigned(text: string): string {
  const { size, against } = splitSign(text);
  return against ? say('procedureValue.belowZero', { size }) : size;
}

/** All values in the order of the form; the review itself is none of them. */
export function procedureValues(procedure: Procedure): readonly ValueLine[] {
  const { applicability, source, target, sensorAt } = procedure;
  const line = (where: string, text: string): readonly ValueLine[] =>
    text === '' ? [] : [{ where, label: placeWords(where, procedure.stations), text }];
  const years = `${applicability.fromYear} \u2013 ${applicability.toYear ?? say('procedureValue.today')}`;
  return [
    ...line('sensor', say(`sensor.${procedure.sensor}`)),
    ...line('applicability.make', `${applicability.make} ${applicability.models.join(', ')}`),
    ...line('applicability.fromYear', years),
    ...line('source.document', [source.document, source.section].filter(Boolean).join(', ')),
    ...line('source.readOn', source.readOn),
    ...line('target.name', `${say(`targetKind.${target.kind}`)}, ${target.name}`),
    ...line('target.width', `${target.widthMm} \u00d7 ${target.heightMm} mm`),
    ...procedure.inputs.map((input) => ({
      where: `inputs.${input.name}`,
      label: input.name,
      text: say('procedureValue.input', {
        label: input.label,
        least: unsigned(input.least),
        most: unsigned(input.most),
      }),
    })),
    ...procedure.conditions.map((condition) => ({
      where: `conditions.${condition.id}`,
      label: say('procedurePart.conditions'),
      text: conditionText(condition),
    })),
    ...procedure.stations.flatMap((station) => stationLines(procedure, station)),
    ...(sensorAt === null
      ? []
      : line('sensorAt.ahead', [sensorAt.ahead, sensorAt.left, sensorAt.up].join(', '))),
    ...procedure.steps.map((step, index) => ({
      where: `steps.${index}`,
      label: say('procedurePart.steps'),
      text: [step.text, ...(step.caution === null ? [] : [step.caution])].join(' '),
    })),
  ];
}

/** One line of two editions; a side that has no such value is undefined. */
export interface Difference {
  readonly where: string;
  readonly label: string;
  readonly before: string | undefined;
  readonly after: string | undefined;
}

/** What differs between two procedures, in the order of the later one; what only the earlier one has comes last. */
export function procedureDifferences(before: Procedure, after: Procedure): readonly Difference[] {
  const earlier = procedureValues(before);
  const later = procedureValues(after);
  const textOf = (lines: readonly ValueLine[], where: string): string | undefined =>
    lines.find((each) => each.where === where)?.text;
  const gone = earlier.filter((each) => textOf(later, each.where) === undefined);
  return [...later, ...gone]
    .map(({ where, label }) => ({
      where,
      label,
      before: textOf(earlier, where),
      after: textOf(later, where),
    }))
    .filter((each) => each.before !== each.after);
}
