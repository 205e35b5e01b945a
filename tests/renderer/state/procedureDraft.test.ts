import { describe, expect, test } from 'vitest';
import { checkProcedure, isReviewed, procedureSchema } from '../../../core/procedure/index.ts';
import { invariant } from '../../../core/result.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { LISTED_CONDITIONS, withListed } from '../../../renderer/state/conditionList.ts';
import { keepDraft, keptDraft } from '../../../renderer/state/keptDraft.ts';
import {
  draftOf,
  emptyDraft,
  freeName,
  type ProcedureDraft,
  slidesFollow,
  withOneMoreStation,
  withSensor,
  withStation,
} from '../../../renderer/state/procedureDraft.ts';
import { procedureOfDraft } from '../../../renderer/state/procedureOfDraft.ts';
import { pageKindOf } from '../../../renderer/state/sourcePage.ts';
import { dayOfLocal } from '../../../renderer/state/today.ts';
import { invented } from '../../core/procedure/invented.ts';
import { shop } from '../demoHeld.ts';
import { context, typed } from './typedProcedure.ts';

const empty = emptyDraft('forwardCamera', '2026-11-25', 'Station 1');
const [station] = typed.stations;
invariant(station !== undefined, 'the sheet has a station');

const wheres = (draft: ProcedureDraft): readonly string[] => {
  const made = procedureOfDraft(draft, context);
  return made.ok ? [] : made.error.map((each) => each.where);
};

describe('a quick sheet', () => {
  test('becomes an unreviewed edition in the name of who typed it', () => {
    const made = procedureOfDraft(typed, context);
    invariant(made.ok, JSON.stringify(made));
    const { source, target, applicability, stations } = made.value;
    expect(procedureSchema.safeParse(made.value).success).toBe(true);
    expect(checkProcedure(made.value)).toEqual([]);
    expect(isReviewed(made.value)).toBe(false);
    expect(made.value.id).toBe('tidewell-petrel-forwardCamera');
    expect(made.value.title).toBe('Tidewell Petrel, Tern: Front camera');
    expect([target.widthMm, target.heightMm]).toEqual([1180, 840]);
    expect(applicability).toEqual({
      make: 'Tidewell',
      models: ['Petrel', 'Tern'],
      fromYear: 2024,
      toYear: null,
    });
    expect(source).toMatchObject({ enteredBy: 'Mira Sandbank', enteredOn: '2026-11-25', reviewedBy: null });
    expect(stations[0]?.left.value).toBe('-20 mm');
    expect(made.value.conditions.map((each) => each.id)).toEqual(['tyrePressures', 'doorsShut']);
  });

  test('nothing typed is missing everywhere it is asked, and nowhere else', () => {
    const made = procedureOfDraft(empty, context);
    invariant(!made.ok, 'it has faults');
    expect(made.error.every((each) => each.missing)).toBe(true);
    expect(made.error.map((each) => each.where).sort()).toEqual(
      [
        'applicability.make',
        'applicability.models',
        'applicability.fromYear',
        'target.name',
        'target.width',
        'target.height',
        'source.document',
        'stations.station1.ahead',
        'stations.station1.left',
        'stations.station1.up',
      ].sort(),
    );
  });

  test('a bad text is said beside its field while other fields are still empty', () => {
    const half = { ...empty, stations: [{ ...station, ahead: { ...station.ahead, value: '1500' } }] };
    const made = procedureOfDraft(half, context);
    invariant(!made.ok, 'it has faults');
    const fault = made.error.find((each) => each.where === 'stations.station1.ahead');
    expect(fault).toMatchObject({ missing: false });
    expect(fault?.words).toMatch(/no unit/);
    expect(made.error.some((each) => each.where === 'applicability.make')).toBe(true);
  });

  test.each<[string, Partial<ProcedureDraft>, string]>([
    ['a year', { fromYear: '24' }, 'applicability.fromYear'],
    ['a day', { readOn: 'in spring' }, 'source.readOn'],
    ['a day that no month has', { readOn: '2026-13-40' }, 'source.readOn'],
    ['a width', { target: { ...typed.target, width: 'wide' } }, 'target.width'],
    [
      'a tolerance without its limit',
      { stations: [{ ...station, up: { ...station.up, tolerance: { kind: 'twoSided', limit: '' } } }] },
      'stations.station1.up.tolerance',
    ],
    [
      'a tolerance inward',
      { stations: [{ ...station, up: { ...station.up, tolerance: { kind: 'upperOnly', upper: '-3 mm' } } }] },
      'stations.station1.up.tolerance',
    ],
    [
      'an unknown name',
      { stations: [{ ...station, up: { ...station.up, value: 'badge + 1 mm' } }] },
      'stations.station1.up',
    ],
    [
      'a condition without words',
      {
        conditions: [
          {
            kind: 'confirm',
            id: 'own',
            text: '',
            caution: '',
            blocking: true,
            unit: '',
            least: '',
            most: '',
            choices: [],
          },
        ],
      },
      'conditions.own',
    ],
    [
      'an input without limits',
      { inputs: [{ name: 'badge', label: 'Badge', quantity: 'length', least: '', most: '900 mm' }] },
      'inputs.badge.least',
    ],
    ['a sensor half placed', { sensorAt: { ahead: '1.7 m', left: '', up: '1.3 m' } }, 'sensorAt.left'],
  ])('%s that cannot be is told at its place in plain words', (_name, change, where) => {
    const made = procedureOfDraft({ ...typed, ...change }, context);
    invariant(!made.ok, 'it has a fault');
    expect(made.error.map((each) => each.where)).toContain(where);
    for (const fault of made.error) {
      expect(fault.words).not.toMatch(/[{}]|undefined|NaN/);
      expect(wordFaults(fault.words).filter((each) => each.fault !== 'signedNumber')).toEqual([]);
    }
  });

  test('an id that is taken gets a number', () => {
    const made = procedureOfDraft(typed, { ...context, taken: ['tidewell-petrel-forwardCamera'] });
    expect(made.ok && made.value.id).toBe('tidewell-petrel-forwardCamera-2');
  });

  test('a make in other letters still gives an id that fits', () => {
    const made = procedureOfDraft({ ...typed, make: '4 Ölmühle', models: '9-3' }, context);
    invariant(made.ok, JSON.stringify(made));
    expect(made.value.id).toMatch(/^[A-Za-z][A-Za-z0-9._-]{0,39}$/);
  });

  test('the sensor brings its usual target, unless another one was chosen', () => {
    expect(withSensor(empty, 'frontRadar').target.kind).toBe('plate');
    expect(withSensor({ ...empty, target: { ...empty.target, kind: 'mat' } }, 'frontRadar').target.kind).toBe(
      'mat',
    );
  });
});

describe('an edition opened for writing', () => {
  test.each([...shop.procedures, invented])('$id opens and closes without a change', (procedure) => {
    const { source } = procedure;
    const made = procedureOfDraft(draftOf(procedure), { ...context, edition: procedure.edition });
    invariant(made.ok, JSON.stringify(made));
    const {
      enteredBy: _by,
      enteredOn: _on,
      reviewedBy: _reviewer,
      reviewWay: _way,
      ...read
    } = made.value.source;
    expect({ ...made.value, source: read }).toEqual({
      ...procedure,
      source: { document: source.document, section: source.section, readOn: source.readOn },
    });
  });
});

describe('stations', () => {
  test('a slide takes everything of its stand but the side, and follows it', () => {
    const slid = withOneMoreStation(typed, 'slide', 'Slide');
    const [, slide] = slid.stations;
    expect(slide).toMatchObject({
      id: 'station2',
      kind: 'slide',
      ahead: { value: '1500 mm' },
      left: { value: '' },
    });
    const typedSlide = slid.stations.map((each) =>
      each.kind === 'slide' ? { ...each, left: { ...each.left, value: '550 mm' } } : each,
    );
    expect(wheres({ ...slid, stations: typedSlide })).toEqual([]);
    const moved = withStation({ ...slid, stations: typedSlide }, 0, {
      ...station,
      place: 'ahead',
      ahead: { ...station.ahead, value: '1600 mm', from: 'frontAxle' },
    });
    expect(wheres(moved)).toContain('stations.station2');
    const followed = { ...moved, stations: slidesFollow(moved.stations) };
    expect(followed.stations[1]?.ahead).toMatchObject({ value: '1600 mm', from: 'frontAxle' });
    expect(followed.stations[1]?.left.value).toBe('550 mm');
    expect(wheres(followed)).toEqual([]);
  });

  test('a slide without a stand is an empty stand', () => {
    const none = { ...typed, stations: [] };
    expect(withOneMoreStation(none, 'slide', 'Slide').stations[0]?.kind).toBe('reposition');
  });

  test('names are not used twice', () => {
    expect(freeName('station', ['station1', 'station3'])).toBe('station4');
    expect(freeName('station', ['station2', 'a', 'station4'])).toBe('station5');
    expect(freeName('station', ['station2'])).toBe('station3');
  });
});

describe('the short list of conditions', () => {
  test('picks and drops, and leaves alone what the procedure says itself', () => {
    const own = draftOf(invented).conditions;
    const picked = withListed(own, ['batterySupport']);
    expect(picked.map((each) => each.id)).toEqual(['batterySupport', ...own.map((each) => each.id)]);
    const changed = picked.map((each) => (each.id === 'batterySupport' ? { ...each, caution: 'Hot' } : each));
    expect(withListed(changed, ['batterySupport', 'doorsShut'])[0]?.id).toBe('doorsShut');
    expect(withListed(changed, ['batterySupport'])[0]?.caution).toBe('Hot');
    expect(withListed(changed, [])).toEqual(own);
    expect(new Set(withListed([], LISTED_CONDITIONS).map((each) => each.text)).size).toBe(
      LISTED_CONDITIONS.length,
    );
  });
});

describe('a draft kept on this PC', () => {
  const place = (held: Map<string, string>) => ({
    read: (key: string) => held.get(key) ?? null,
    write: (key: string, value: string) => void held.set(key, value),
    remove: (key: string) => void held.delete(key),
  });

  test('comes again as it was typed', () => {
    const held = new Map<string, string>();
    keepDraft(place(held), 'quick', typed);
    expect(keptDraft(place(held), 'quick', empty)).toEqual(typed);
    expect(keptDraft(place(held), 'new', empty)).toBeUndefined();
  });

  test.each(['{', '7', 'null', '{"make":1}'])('%s is no draft', (text) => {
    const held = new Map([['datumline.procedureDraft.quick', text]]);
    expect(keptDraft(place(held), 'quick', empty)).toBeUndefined();
  });
});

test('a source page is what its first bytes say', () => {
  expect(pageKindOf(new TextEncoder().encode('%PDF-1.7'))).toBe('pdf');
  expect(pageKindOf(new Uint8Array([0xff, 0xd8, 0xff, 0xe0]))).toBe('picture');
  expect(pageKindOf(new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))).toBe('picture');
  expect(pageKindOf(new TextEncoder().encode('<html>'))).toBeUndefined();
  expect(pageKindOf(new Uint8Array())).toBeUndefined();
});

test('the day is that of the place’s own clock', () => {
  expect(dayOfLocal(Date.UTC(2026, 10, 25, 23, 59))).toBe('2026-11-25');
  expect(dayOfLocal(Date.UTC(2026, 10, 26, 0, 0))).toBe('2026-11-26');
});
