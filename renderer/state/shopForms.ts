/**
 * The shop's things as data: which fields a fixture, a target, a side arm, an instrument or a person has, and how the
 * typed texts become one. The schemas of the core have the last word. Pure.
 */
import type { z } from 'zod';
import { parseQuantity } from '../../core/entry/index.ts';
import type { LineStream } from '../../core/instruments/index.ts';
import { fixtureSchema, instrumentSchema, sideArmSchema, targetSchema } from '../../core/job/equipment.ts';
import { type SensorKind, sensorKindSchema } from '../../core/job/sensorKind.ts';
import { type Competence, personSchema, type Shop } from '../../core/job/shop.ts';
import { err, ok, type Result } from '../../core/result.ts';

export type ThingKind = 'people' | 'fixtures' | 'targets' | 'sideArms' | 'instruments';

export interface ThingField {
  readonly id: string;
  readonly kind: 'text' | 'day' | 'length' | 'number' | 'choice' | 'choices';
  /** Values of a choice; the word of value `v` of field `f` is `thing.f.v`. */
  readonly values?: readonly string[];
  readonly optional?: boolean;
}

const text = (id: string, optional = false): ThingField => ({ id, kind: 'text', optional });
const length = (id: string): ThingField => ({ id, kind: 'length' });
const choice = (id: string, values: readonly string[]): ThingField => ({ id, kind: 'choice', values });

/** The fields of what a person may do at one kind of sensor. */
export const evidenceField = (kind: SensorKind): string => `evidence.${kind}`;
export const untilField = (kind: SensorKind): string => `until.${kind}`;

const TRACED: readonly ThingField[] = [
  text('name'),
  text('serial', true),
  text('certificate', true),
  { id: 'dueOn', kind: 'day' },
];

/** The fields of each kind of thing, in the order they are asked. */
export const THING_FIELDS: Readonly<Record<ThingKind, readonly ThingField[]>> = {
  people: [
    text('name'),
    { id: 'roles', kind: 'choices', values: ['technician', 'signer', 'office', 'owner'] },
    text('qualification', true),
    ...sensorKindSchema.options.flatMap((kind) => [
      text(evidenceField(kind), true),
      { id: untilField(kind), kind: 'day' as const, optional: true },
    ]),
  ],
  fixtures: [
    ...TRACED,
    text('endMarkA'),
    text('endMarkB'),
    length('barLengthMm'),
    length('barLengthUMm'),
    length('faceAheadMm'),
    length('faceAboveBarMm'),
    length('faceUMm'),
  ],
  targets: [...TRACED, length('widthMm'), length('heightMm'), { ...length('targetUMm'), optional: true }],
  sideArms: [...TRACED, choice('side', ['left', 'right']), length('lengthMm'), length('uMm')],
  instruments: [
    ...TRACED,
    choice('kind', ['tape', 'plumbBob', 'level', 'inclinometer', 'luxMeter', 'rule', 'other']),
    choice('accuracyClass', ['none', 'I', 'II', 'III']),
    { id: 'resolution', kind: 'number' },
    choice('startsAt', ['zero', 'hook', 'hundred']),
    choice('numbersIn', ['mm', 'cm', 'in']),
  ],
};

const SCHEMAS: Readonly<Record<ThingKind, z.ZodType>> = {
  people: personSchema,
  fixtures: fixtureSchema,
  targets: targetSchema,
  sideArms: sideArmSchema,
  instruments: instrumentSchema,
};

/** Texts by field; several choices stand in one text, with commas. */
export type ThingTexts = Readonly<Record<string, string>>;

/** Fields that cannot be read, or that the schema refuses. */
export interface ThingProblem {
  readonly fields: readonly string[];
}

function typedThing(field: ThingField, typed: string): unknown {
  const read =
    field.kind === 'length' || field.kind === 'number'
      ? parseQuantity(typed, { kind: field.kind === 'length' ? 'length' : 'count' })
      : undefined;
  if (read !== undefined) return read.ok && read.value.questions.length === 0 ? read.value.value : undefined;
  if (field.kind === 'choices') return typed.split(',').filter((each) => each !== '');
  return typed.trim();
}

/** What a person may do, a kind of sensor a line; a line with neither evidence nor day is none. */
function competenceOf(values: Readonly<Record<string, unknown>>): readonly Competence[] {
  return sensorKindSchema.options.flatMap((sensor) => {
    const [evidence, until] = [String(values[evidenceField(sensor)]), String(values[untilField(sensor)])];
    return evidence === '' && until === '' ? [] : [{ sensor, evidence, until }];
  });
}

/** Fields that are kept in another shape than they are asked in. */
function shaped(kind: ThingKind, values: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const { endMarkA, endMarkB, accuracyClass, targetUMm, ...rest } = values;
  if (kind === 'fixtures') return { ...rest, endMarks: [endMarkA, endMarkB] };
  if (kind === 'instruments')
    return { ...rest, accuracyClass: accuracyClass === 'none' ? null : accuracyClass };
  if (kind === 'targets') return { ...rest, uMm: targetUMm === '' ? undefined : targetUMm };
  if (kind === 'people') {
    const competence = competenceOf(values);
    const { name, roles, qualification } = values;
    return { name, roles, qualification, competence: competence.length === 0 ? undefined : competence };
  }
  return rest;
}

/** What is kept, as the texts it would be typed as. Lengths in mm. */
export function textsOf(shop: Shop, kind: ThingKind, id: string): ThingTexts {
  const found: unknown = shop[kind].find((each) => each.id === id);
  const thing = (typeof found === 'object' && found !== null ? found : {}) as Readonly<
    Record<string, unknown>
  >;
  const { endMarks, accuracyClass, uMm, competence } = thing;
  const marks = Array.isArray(endMarks) ? { endMarkA: endMarks[0], endMarkB: endMarks[1] } : {};
  const lines = Array.isArray(competence) ? (competence as readonly Competence[]) : [];
  const competent = lines.flatMap(({ sensor, evidence, until }) => [
    [evidenceField(sensor), evidence],
    [untilField(sensor), until],
  ]);
  const all: Readonly<Record<string, unknown>> = {
    ...thing,
    ...marks,
    ...Object.fromEntries(competent),
    accuracyClass: accuracyClass ?? 'none',
    targetUMm: uMm,
  };
  return Object.fromEntries(
    THING_FIELDS[kind].map(({ id: field }) => {
      const value = all[field];
      return [field, Array.isArray(value) ? value.join(',') : value === undefined ? '' : String(value)];
    }),
  );
}

/** An id from a name, unlike those already there: `Steel tape` is `steel-tape`, the next one `steel-tape-2`. */
export function idFor(name: string, taken: readonly string[]): string {
  const plain = name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 36);
  const base = plain === '' ? 'thing' : plain;
  for (let count = 1; ; count += 1) {
    const id = count === 1 ? base : `${base}-${count}`;
    if (!taken.includes(id)) return id;
  }
}

/** What is kept of a thing beside its form: how an instrument sends, checks that were made. */
export interface ThingExtras {
  readonly stream?: LineStream | undefined;
}

function isEmpty(texts: ThingTexts, field: ThingField): boolean {
  return (texts[field.id] ?? '').trim() === '';
}

/**
 * The shop with one more thing in it, or, with an `id`, with that thing as it is typed now; or the fields that are not
 * right yet. What the form does not ask for stays as it was.
 */
export function withThing(
  shop: Shop,
  kind: ThingKind,
  texts: ThingTexts,
  id?: string,
  extras: ThingExtras = {},
): Result<Shop, ThingProblem> {
  const fields = THING_FIELDS[kind];
  const empty = fields.filter((field) => field.optional !== true && isEmpty(texts, field));
  const values = Object.fromEntries(
    fields.map((field) => [
      field.id,
      field.optional === true && isEmpty(texts, field) ? '' : typedThing(field, texts[field.id] ?? ''),
    ]),
  );
  const unread = fields.filter((field) => values[field.id] === undefined);
  const wrong = new Set([...empty, ...unread].map((field) => field.id));
  if (wrong.size > 0) return err({ fields: [...wrong] });
  const all: readonly { readonly id: string }[] = shop[kind];
  const before = all.find((each) => each.id === id);
  const named =
    before?.id ??
    idFor(
      texts.name ?? '',
      all.map((each) => each.id),
    );
  const parsed = SCHEMAS[kind].safeParse({ ...before, ...shaped(kind, values), ...extras, id: named });
  if (!parsed.success)
    return err({ fields: parsed.error.issues.map(({ path }) => askedField(kind, path, values)) });
  const things =
    before === undefined ? [...all, parsed.data] : all.map((each) => (each === before ? parsed.data : each));
  return ok({ ...shop, [kind]: things } as Shop);
}

/** The field that is asked for what the schema names. */
function askedField(
  kind: ThingKind,
  path: readonly PropertyKey[],
  values: Readonly<Record<string, unknown>>,
): string {
  const [first, index, part] = path;
  if (first === 'endMarks') return index === 1 ? 'endMarkB' : 'endMarkA';
  if (first === 'uMm' && kind === 'targets') return 'targetUMm';
  const sensor = first === 'competence' ? competenceOf(values)[Number(index)]?.sensor : undefined;
  return sensor === undefined ? String(first) : part === 'until' ? untilField(sensor) : evidenceField(sensor);
}
