/**
 * The shop's things as data: which fields a fixture, a target, a side arm, an instrument or a person has, and how the
 * typed texts become one. The schemas of the core have the last word. Pure.
 */
import type { z } from 'zod';
import { parseQuantity } from '../../core/entry/index.ts';
import { fixtureSchema, instrumentSchema, sideArmSchema, targetSchema } from '../../core/job/equipment.ts';
import { personSchema, type Shop } from '../../core/job/shop.ts';
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
  targets: [...TRACED, length('widthMm'), length('heightMm')],
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

/** Fields that are kept in another shape than they are asked in. */
function shaped(kind: ThingKind, values: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const { endMarkA, endMarkB, accuracyClass, ...rest } = values;
  if (kind === 'fixtures') return { ...rest, endMarks: [endMarkA, endMarkB] };
  if (kind === 'instruments')
    return { ...rest, accuracyClass: accuracyClass === 'none' ? null : accuracyClass };
  return rest;
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

/** The shop with one more thing in it, or the fields that are not right yet. */
export function withThing(shop: Shop, kind: ThingKind, texts: ThingTexts): Result<Shop, ThingProblem> {
  const fields = THING_FIELDS[kind];
  const empty = fields.filter((field) => field.optional !== true && (texts[field.id] ?? '').trim() === '');
  const values = Object.fromEntries(
    fields.map((field) => [field.id, typedThing(field, texts[field.id] ?? '')]),
  );
  const unread = fields.filter((field) => values[field.id] === undefined);
  const wrong = new Set([...empty, ...unread].map((field) => field.id));
  if (wrong.size > 0) return err({ fields: [...wrong] });
  const taken = shop[kind].map((each) => each.id);
  const parsed = SCHEMAS[kind].safeParse({ id: idFor(texts.name ?? '', taken), ...shaped(kind, values) });
  if (!parsed.success) {
    return err({ fields: parsed.error.issues.map((issue) => askedField(String(issue.path[0]))) });
  }
  return ok({ ...shop, [kind]: [...shop[kind], parsed.data] } as Shop);
}

function askedField(path: string): string {
  return path === 'endMarks' ? 'endMarkA' : path;
}
