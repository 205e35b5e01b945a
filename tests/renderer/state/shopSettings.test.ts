// Changing what the shop has: things, checks, details, bays; and drafts that wait for the record.
import { beforeEach, describe, expect, test } from 'vitest';
import { shopSchema } from '../../../core/job/shop.ts';
import { invariant } from '../../../core/result.ts';
import { checkOf, withNewCheck } from '../../../renderer/state/checkForm.ts';
import { textsOfShop, withBay, withDetails } from '../../../renderer/state/shopDetails.ts';
import { dropDraft, keepDraft, useShopDrafts } from '../../../renderer/state/shopDrafts.ts';
import { THING_FIELDS, type ThingKind, textsOf, withThing } from '../../../renderer/state/shopForms.ts';
import { textsOfStream } from '../../../renderer/state/streamForm.ts';
import { shop } from '../demoHeld.ts';

const kinds = Object.keys(THING_FIELDS) as ThingKind[];

function firstOf(kind: ThingKind) {
  const [first] = shop[kind];
  invariant(first !== undefined, `the demo shop has ${kind}`);
  return first;
}

describe('changing a thing', () => {
  test.each(kinds)('%s as it is kept, saved unchanged, changes nothing', (kind) => {
    for (const { id } of shop[kind]) {
      const saved = withThing(shop, kind, textsOf(shop, kind, id), id);
      invariant(saved.ok, JSON.stringify(saved));
      expect(JSON.parse(JSON.stringify(saved.value))).toEqual(JSON.parse(JSON.stringify(shop)));
    }
  });

  test.each(kinds)('%s keeps its id and its place under another name', (kind) => {
    const { id } = firstOf(kind);
    const saved = withThing(shop, kind, { ...textsOf(shop, kind, id), name: 'Another name' }, id);
    invariant(saved.ok, 'it is a name');
    expect(saved.value[kind][0]).toMatchObject({ id, name: 'Another name' });
    expect(saved.value[kind]).toHaveLength(shop[kind].length);
    expect(shopSchema.safeParse(saved.value).success).toBe(true);
  });

  test('what the form does not ask for stays: checks of a fixture, how an instrument sends', () => {
    const check = {
      kind: 'barByReversal',
      on: '2026-11-25',
      by: 'x',
      firstMm: 1,
      secondMm: 1,
      limitMm: 1,
    } as const;
    const fixtures = shop.fixtures.map((each) => ({ ...each, checks: [check] }));
    const { id } = firstOf('fixtures');
    const saved = withThing({ ...shop, fixtures }, 'fixtures', textsOf(shop, 'fixtures', id), id);
    expect(saved.ok && saved.value.fixtures[0]?.checks).toEqual([check]);
  });

  test('how an instrument sends is kept with it, and taken off again', () => {
    const { id } = firstOf('instruments');
    const stream = {
      source: { kind: 'tcp' as const, host: '127.0.0.1', port: 4001 },
      format: { pattern: '(?<value>.+)', kind: 'length' as const, unit: 'mm', channel: '', good: [] },
    };
    const texts = { ...textsOf(shop, 'instruments', id), ...textsOfStream(stream) };
    const saved = withThing(shop, 'instruments', texts, id, { stream });
    invariant(saved.ok, JSON.stringify(saved));
    expect(saved.value.instruments[0]?.stream).toEqual(stream);
    const off = withThing(saved.value, 'instruments', texts, id, { stream: undefined });
    expect(off.ok && off.value.instruments[0]?.stream).toBeUndefined();
  });

  test('competence is a line a kind of sensor; half a line is named by its field', () => {
    const { id } = firstOf('people');
    const texts = textsOf(shop, 'people', id);
    const radar = { 'evidence.frontRadar': 'course 12', 'until.frontRadar': '2027-11-25' };
    const saved = withThing(shop, 'people', { ...texts, ...radar }, id);
    invariant(saved.ok, JSON.stringify(saved));
    expect(saved.value.people[0]?.competence).toEqual([
      { sensor: 'frontRadar', evidence: 'course 12', until: '2027-11-25' },
    ]);
    expect(textsOf(saved.value, 'people', id)).toMatchObject(radar);
    const half = withThing(shop, 'people', { ...texts, 'evidence.frontRadar': 'course 12' }, id);
    expect(half).toEqual({ ok: false, error: { fields: ['until.frontRadar'] } });
    const other = withThing(shop, 'people', { ...texts, 'until.cornerRadar': '2027-11-25' }, id);
    expect(other).toEqual({ ok: false, error: { fields: ['evidence.cornerRadar'] } });
  });

  test("a target's u is kept where it is typed, and named where it cannot be read", () => {
    const { id } = firstOf('targets');
    const texts = textsOf(shop, 'targets', id);
    const saved = withThing(shop, 'targets', { ...texts, targetUMm: '0,3' }, id);
    expect(saved.ok && saved.value.targets[0]?.uMm).toBe(0.3);
    const wrong = withThing(shop, 'targets', { ...texts, targetUMm: '0' }, id);
    expect(!wrong.ok && wrong.error.fields).toEqual(['targetUMm']);
  });
});

describe('a check', () => {
  const texts = { on: '2026-11-25', by: 'Mira', firstMm: '1000,4', secondMm: '999.6', limitMm: '0,5' };

  test.each(['fixtures', 'targets'] as const)(
    'of %s is kept with it, and moves its due date where one is given',
    (kind) => {
      const { id, dueOn } = shop[kind][0] ?? { id: '', dueOn: '' };
      const kept = withNewCheck(shop, kind, id, texts);
      expect(kept.ok && kept.value[kind][0]).toMatchObject({
        dueOn,
        checks: [{ firstMm: 1000.4, secondMm: 999.6 }],
      });
      const moved = withNewCheck(shop, kind, id, { ...texts, nextDueOn: '2028-01-31' });
      invariant(moved.ok, 'a good day');
      expect(moved.value[kind][0]?.dueOn).toBe('2028-01-31');
      expect(moved.value[kind].slice(1)).toEqual(shop[kind].slice(1));
      expect(shopSchema.safeParse(moved.value).success).toBe(true);
    },
  );

  test('names what cannot be read', () => {
    const wrong = checkOf('targets', { ...texts, firstMm: 'long', by: ' ' });
    expect(!wrong.ok && [...wrong.error.fields].sort()).toEqual(['by', 'firstMm']);
    expect(checkOf('targets', { ...texts, nextDueOn: 'soon' })).toEqual({
      ok: false,
      error: { fields: ['nextDueOn'] },
    });
  });
});

describe('the shop itself', () => {
  test('saved as it is kept changes nothing', () => {
    expect(withDetails(shop, textsOfShop(shop))).toEqual({ ok: true, value: shop });
  });

  test('capitals are made of a code; an empty line of the address is none; wrong fields are named', () => {
    const texts = {
      ...textsOfShop(shop),
      code: 'quay2',
      address0: 'Pier 4',
      address1: '',
      address2: 'Haven',
    };
    const saved = withDetails(shop, texts);
    expect(saved.ok && saved.value).toMatchObject({ code: 'QUAY2', bays: shop.bays });
    expect(saved.ok && saved.value.address.slice(0, 2)).toEqual(['Pier 4', 'Haven']);
    const wrong = withDetails(shop, { ...texts, name: ' ', code: 'q', decisionRule: 'maybe' });
    expect(!wrong.ok && [...wrong.error.fields].sort()).toEqual(['code', 'decisionRule', 'name']);
  });

  test('a bay is renamed, keeps its code, and no code is given twice', () => {
    const code = shop.bays[0]?.code ?? '';
    const renamed = withBay(shop, { name: 'Far bay', code: 'ZZ' }, code);
    expect(renamed.ok && renamed.value.bays[0]).toMatchObject({ code, name: 'Far bay' });
    const added = withBay(shop, { name: 'Ferry bay', code: 'f1' });
    expect(added.ok && added.value.bays.at(-1)).toEqual({ code: 'F1', name: 'Ferry bay' });
    expect(withBay(shop, { name: 'Twin', code })).toEqual({ ok: false, error: { fields: ['code'] } });
    expect(withBay(shop, { name: '', code: 'F2' })).toEqual({ ok: false, error: { fields: ['name'] } });
  });
});

describe('what is typed and not recorded', () => {
  beforeEach(() => useShopDrafts.setState({ texts: {} }));

  test('waits by the name of its form until it is dropped', () => {
    keepDraft('people:new', { name: 'Nora' });
    keepDraft('details', { name: 'Quay' });
    expect(useShopDrafts.getState().texts['people:new']).toEqual({ name: 'Nora' });
    dropDraft('people:new');
    expect(useShopDrafts.getState().texts).toEqual({ details: { name: 'Quay' } });
  });
});
