import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { shopSchema } from '../../../core/job/shop.ts';
import { withProcedure } from '../../../core/job/shopProcedures.ts';
import { invariant } from '../../../core/result.ts';
import { templateOf, wordFaults } from '../../../core/words/index.ts';
import { readProcedureFile } from '../../../renderer/state/procedureFile.ts';
import {
  idFor,
  THING_FIELDS,
  type ThingKind,
  type ThingTexts,
  withThing,
} from '../../../renderer/state/shopForms.ts';
import { shop } from '../demoHeld.ts';

const traced = { name: 'Bar two', serial: 'B-2', certificate: 'C-9', dueOn: '2027-02-28' };

const good: Readonly<Record<ThingKind, ThingTexts>> = {
  people: { name: 'Nora Pilot', roles: 'technician,signer', qualification: '' },
  fixtures: {
    ...traced,
    endMarkA: 'blue',
    endMarkB: 'green',
    barLengthMm: '2,0 m',
    barLengthUMm: '0,3',
    faceAheadMm: '60',
    faceAboveBarMm: '350',
    faceUMm: '0.5',
  },
  targets: { ...traced, widthMm: '1180', heightMm: '84 cm' },
  sideArms: { ...traced, side: 'left', lengthMm: '250', uMm: '0.3' },
  instruments: {
    ...traced,
    kind: 'tape',
    accuracyClass: 'none',
    resolution: '0.5',
    startsAt: 'hook',
    numbersIn: 'mm',
  },
};

const kinds = Object.keys(THING_FIELDS) as ThingKind[];

describe('one more thing of the shop', () => {
  test.each(kinds)('%s is taken, and the shop still fits its schema', (kind) => {
    const made = withThing(shop, kind, good[kind]);
    invariant(made.ok, JSON.stringify(made));
    expect(made.value[kind]).toHaveLength(shop[kind].length + 1);
    expect(shopSchema.safeParse(made.value).success).toBe(true);
    expect(new Set(made.value[kind].map((each) => each.id)).size).toBe(made.value[kind].length);
  });

  test('lengths are read with their unit, the end marks become a pair, no class is null', () => {
    const fixture = withThing(shop, 'fixtures', good.fixtures);
    expect(fixture.ok && fixture.value.fixtures.at(-1)).toMatchObject({
      barLengthMm: 2000,
      barLengthUMm: 0.3,
      endMarks: ['blue', 'green'],
    });
    const tape = withThing(shop, 'instruments', good.instruments);
    expect(tape.ok && tape.value.instruments.at(-1)).toMatchObject({ accuracyClass: null, startsAt: 'hook' });
  });

  test.each(kinds)('%s with nothing typed names every field it needs', (kind) => {
    const made = withThing(shop, kind, {});
    const needed = THING_FIELDS[kind].filter((field) => field.optional !== true).map((field) => field.id);
    expect(!made.ok && [...made.error.fields].sort()).toEqual(needed.sort());
  });

  test.each([
    ['fixtures', 'barLengthMm', 'long'],
    ['fixtures', 'barLengthMm', '1,350'],
    ['fixtures', 'barLengthUMm', '0'],
    ['fixtures', 'endMarkA', ' '],
    ['targets', 'dueOn', 'next spring'],
    ['targets', 'widthMm', '-5'],
    ['instruments', 'resolution', '0'],
    ['people', 'roles', ''],
    ['people', 'name', 'x'.repeat(81)],
  ] as const)('%s with %s "%s" names that field and records nothing', (kind, field, typed) => {
    expect(withThing(shop, kind, { ...good[kind], [field]: typed })).toEqual({
      ok: false,
      error: { fields: [field] },
    });
  });

  test.each(kinds)('every field and choice of %s has plain words', (kind) => {
    for (const field of THING_FIELDS[kind]) {
      const keys = [
        `thing.${field.id}`,
        `thing.wrong.${field.kind}`,
        ...(field.values ?? []).map((value) => `thing.${field.id}.${value}`),
      ];
      for (const key of keys) expect(wordFaults(templateOf(key) ?? 'bare left'), key).toEqual([]);
    }
  });

  test.each([
    ['Steel tape, 10 m', [], 'steel-tape-10-m'],
    ['Steel tape', ['steel-tape'], 'steel-tape-2'],
    ['Steel tape', ['steel-tape', 'steel-tape-2'], 'steel-tape-3'],
    ['   ', [], 'thing'],
    ['Maß '.repeat(30), [], /^[a-z0-9-]{1,36}$/],
  ] as const)('"%s" beside %o gets the id %s', (name, taken, id) => {
    expect(idFor(name, taken)).toMatch(id);
  });
});

describe('a procedure from a file', () => {
  const [procedure] = shop.procedures;
  invariant(procedure !== undefined, 'the demo shop has one');
  const file = (change: object): string => JSON.stringify({ ...procedure, ...change });

  test('is taken, and a newer edition takes the place of the older', () => {
    const read = readProcedureFile(file({ edition: 2 }));
    invariant(read.ok, 'it fits');
    const after = withProcedure(shop, read.value);
    expect(after.procedures).toHaveLength(shop.procedures.length);
    expect(after.procedures.find((each) => each.id === procedure.id)?.edition).toBe(2);
  });

  test.each([
    ['no JSON', '{"format":', /not JSON/],
    ['not one', '{}', /does not fit/],
    ['another format', file({ format: 'datumline-procedure-9' }), /format/],
    ['a fault of its own', file({ stations: [procedure.stations[0], procedure.stations[0]] }), /used twice/],
    ['too long', ' '.repeat(500_000), /longer/],
    ['hostile names', '{"__proto__": {"format": "datumline-procedure-1"}}', /does not fit/],
  ])('%s is told in words and changes nothing', (_name, text, words) => {
    const read = readProcedureFile(text);
    invariant(!read.ok, 'it has faults');
    expect(read.error.join(' ')).toMatch(words);
    expect(read.error.length).toBeLessThanOrEqual(8);
    for (const line of read.error) expect(wordFaults(line), line).toEqual([]);
  });

  test('the shipped shop’s own file is no procedure', () => {
    const text = readFileSync(new URL('../../../assets/demo/shop.json', import.meta.url), 'utf8');
    expect(readProcedureFile(text).ok).toBe(false);
  });
});
