import { describe, expect, test } from 'vitest';
import {
  checkProcedure,
  faultKey,
  isReviewed,
  type Procedure,
  type ProcedureFault,
  procedureSchema,
  resolveProcedure,
} from '../../../core/procedure/index.ts';
import { PROCEDURE_WORDS } from '../../../core/words/procedure.ts';
import { invented } from './invented.ts';

const DEG = Math.PI / 180;
const car = new Map([
  ['reach', 870],
  ['aim', 0.4 * DEG],
]);

const [sample] = invented.stations;
if (sample === undefined) throw new Error('one station');

type Station = Procedure['stations'][number];

function withStation(index: number, change: Partial<Station>): Procedure {
  return {
    ...invented,
    stations: invented.stations.map((station, at) => (at === index ? { ...station, ...change } : station)),
  };
}

function faults(procedure: Procedure, inputs: ReadonlyMap<string, number> = car): readonly ProcedureFault[] {
  const resolved = resolveProcedure(procedure, inputs);
  return resolved.ok ? [] : resolved.error;
}

describe('numbers for one car', () => {
  test('every coordinate, datum and tolerance', () => {
    const resolved = resolveProcedure(procedureSchema.parse(invented), car);
    if (!resolved.ok) throw new Error(JSON.stringify(resolved.error));
    const [centre, side] = resolved.value.stations;
    expect(centre?.ahead).toEqual({
      value: 2370,
      from: 'frontAxle',
      permitted: { lower: -10, upper: 10, stated: true },
    });
    expect(centre?.left.value).toBe(0);
    expect(centre?.left.permitted?.lower).toBe(-5);
    expect(centre?.left.permitted?.upper).toBeCloseTo(6.35, 12);
    expect(centre?.up.value).toBeCloseTo(1349.375, 12);
    expect(centre?.up.permitted).toEqual({ lower: -5, upper: 5, stated: false });
    expect(centre?.yaw.value).toBeCloseTo(Math.PI, 12);
    expect(centre?.yaw.permitted?.upper).toBeCloseTo(0.5 * DEG, 12);
    expect(centre?.pitch).toEqual({
      value: 0.4 * DEG,
      from: 'contactPlane',
      permitted: { upper: DEG, stated: true },
    });
    expect(centre?.roll.permitted).toEqual({ lower: -DEG, stated: true });
    expect(side?.left.value).toBe(550);
    expect(side?.ahead.permitted).toBeUndefined();
    expect(side).toMatchObject({ kind: 'slide', place: 'ahead', free: ['pitch'] });
    expect(resolved.value.sensor).toEqual({ aheadMm: 1900, leftMm: 0, upMm: 1310 });
  });

  test('a procedure without a sensor position leaves it out', () => {
    const resolved = resolveProcedure({ ...invented, sensorAt: null }, car);
    expect(resolved.ok && resolved.value.sensor).toBeUndefined();
  });

  test('an input that was not measured, is unknown, or lies outside its limits is named', () => {
    const { reach, aim } = { reach: ['reach', 870] as const, aim: ['aim', 0] as const };
    expect(faults(invented, new Map([aim]))).toEqual([
      { code: 'procedure/inputMissing', where: 'stations.centre.ahead', text: 'reach' },
      { code: 'procedure/inputMissing', where: 'stations.carLeft.ahead', text: 'reach' },
    ]);
    expect(faults(invented, new Map([aim, ['reach', 1201]]))).toEqual([
      { code: 'procedure/inputOutOfLimits', where: 'inputs.reach', text: 'reach' },
    ]);
    expect(faults(invented, new Map([aim, ['reach', 599]]))).toHaveLength(1);
    expect(faults(invented, new Map([aim, ['reach', Number.NaN]]))).not.toEqual([]);
    const odd = withStation(0, { left: { ...sample.left, value: 'overhang + 1 mm' } });
    expect(faults(odd, new Map<string, number>([reach, aim]))).toEqual([
      { code: 'procedure/inputUnknown', where: 'stations.centre.left', text: 'overhang' },
    ]);
  });
});

describe('faults of the document', () => {
  const first = invented.stations[0];
  const second = invented.stations[1];
  if (first === undefined || second === undefined) throw new Error('two stations');
  const ahead = (value: string): Procedure => withStation(0, { ahead: { ...first.ahead, value } });

  test.each([
    ['1350', 'procedure/unitMissing'],
    ['reach + 1500', 'procedure/unitsDoNotMatch'],
    ['2 * 3', 'procedure/unitMissing'],
    ['1,350 mm', 'procedure/groupingDoubtful'],
    ['1.350 mm', 'procedure/groupingDoubtful'],
    ['12-3/4 in', 'procedure/unitsDoNotMatch'],
    ['aim', 'procedure/unitsDoNotMatch'],
    ['reach * reach', 'procedure/unitsDoNotMatch'],
    ['reach / 0', 'procedure/divisionByZero'],
    ['sqrt(-1) * reach', 'procedure/notANumber'],
    ['f(x) = x', 'procedure/expressionNotAllowed'],
    ['reach +', 'procedure/expressionUnreadable'],
    [' ', 'procedure/expressionEmpty'],
  ])('ahead "%s": %s', (value, code) => {
    const found = checkProcedure(ahead(value));
    expect(found.map((fault) => fault.code)).toEqual([code]);
    expect(found[0]?.where).toBe('stations.centre.ahead');
  });

  test.each(['0', '0 mm', '0 in', '1 - 1'])('zero needs no unit: %s', (value) => {
    expect(faults(withStation(0, { left: { ...first.left, value } }))).toEqual([]);
  });

  test.each([
    [{ kind: 'twoSided', limit: '-3 mm' }],
    [{ kind: 'twoSided', limit: '0' }],
    [{ kind: 'unequal', lower: '3 mm', upper: '5 mm' }],
    [{ kind: 'unequal', lower: '-3 mm', upper: '-1 mm' }],
    [{ kind: 'unequal', lower: '0', upper: '0' }],
    [{ kind: 'lowerOnly', lower: '1 mm' }],
    [{ kind: 'upperOnly', upper: '-1 mm' }],
    [{ kind: 'notStated', workingLimit: '-1 mm' }],
  ] as const)('a tolerance that does not reach outward: %o', (tolerance) => {
    const found = checkProcedure(withStation(0, { ahead: { ...first.ahead, tolerance } }));
    expect(found.map((fault) => [fault.code, fault.where])).toEqual([
      ['procedure/toleranceSign', 'stations.centre.ahead.tolerance'],
    ]);
  });

  test('an unreadable tolerance is one fault, not two', () => {
    const tolerance = { kind: 'twoSided', limit: 'much' } as const;
    expect(
      checkProcedure(withStation(0, { ahead: { ...first.ahead, tolerance } })).map((f) => f.code),
    ).toEqual(['procedure/inputUnknown']);
  });

  test('a range is two values of the coordinate itself, and holds the required one', () => {
    const range = (least: string, most: string) => ({ kind: 'range', least, most }) as const;
    const up = (tolerance: ReturnType<typeof range>) => withStation(0, { up: { ...first.up, tolerance } });
    const resolved = resolveProcedure(up(range('1340 mm', '1.36 m')), car);
    const permitted = resolved.ok ? resolved.value.stations[0]?.up.permitted : undefined;
    // Required are 53 1/8 in, that is 1349.375 mm.
    expect(permitted?.lower).toBeCloseTo(-9.375, 9);
    expect(permitted?.upper).toBeCloseTo(10.625, 9);
    expect(permitted?.stated).toBe(true);
    const codes = (least: string, most: string) => checkProcedure(up(range(least, most))).map((f) => f.code);
    expect(codes('1360 mm', '1340 mm')).toEqual(['procedure/limitsCrossed']);
    expect(codes('1355 mm', '1360 mm')).toEqual(['procedure/toleranceSign']);
    expect(codes('1340', '1360 mm')).toEqual(['procedure/unitMissing']);
    expect(codes('1340 mm', 'much')).toEqual(['procedure/inputUnknown']);
  });

  test('a circle has a radius above zero, in a unit of length', () => {
    const circle = (limit: string) =>
      withStation(0, { radial: { plane: 'aheadLeft', limit, stated: false } });
    const resolved = resolveProcedure(circle('1/4 in'), car);
    expect(resolved.ok && resolved.value.stations[0]?.radial).toEqual({
      plane: 'aheadLeft',
      radiusMm: 6.35,
      stated: false,
    });
    expect(checkProcedure(circle('10 mm'))).toEqual([]);
    for (const limit of ['0', '-5 mm']) {
      expect(checkProcedure(circle(limit))).toEqual([
        { code: 'procedure/toleranceSign', where: 'stations.centre.radial', text: limit },
      ]);
    }
    expect(checkProcedure(circle('5'))[0]?.code).toBe('procedure/unitMissing');
    expect(checkProcedure(circle('2 deg'))[0]?.code).toBe('procedure/unitsDoNotMatch');
  });

  test('the schema takes a circle and a range, and refuses other planes; old documents are whole without them', () => {
    expect(procedureSchema.safeParse(invented).success).toBe(true);
    const radial = { plane: 'leftUp', limit: '10 mm', stated: true } as const;
    const tolerance = { kind: 'range', least: '1340 mm', most: '1360 mm' } as const;
    const made = withStation(0, { radial, up: { ...first.up, tolerance } });
    expect(procedureSchema.parse(made)).toEqual(made);
    const crooked = { ...made, stations: [{ ...first, radial: { ...radial, plane: 'aheadUp' } }] };
    expect(procedureSchema.safeParse(crooked).success).toBe(false);
    const old = resolveProcedure(invented, car);
    expect(old.ok && Object.keys(old.value.stations[0] ?? {})).not.toContain('radial');
  });

  test('a slide keeps everything but its side', () => {
    expect(checkProcedure(withStation(1, { left: { ...second.left, value: '-550 mm' } }))).toEqual([]);
    expect(checkProcedure(withStation(1, { up: { ...second.up, value: '1350 mm' } }))).toEqual([
      { code: 'procedure/slideMoves', where: 'stations.carLeft', text: 'up' },
    ]);
    expect(checkProcedure(withStation(1, { yaw: { ...second.yaw, from: 'centreline' } }))).toEqual([
      { code: 'procedure/slideMoves', where: 'stations.carLeft', text: 'yaw' },
    ]);
    expect(checkProcedure({ ...invented, stations: [second] })).toEqual([
      { code: 'procedure/slideWithoutBase', where: 'stations.carLeft', text: 'carLeft' },
    ]);
  });

  test('names are used once and never those of units or functions', () => {
    expect(checkProcedure({ ...invented, stations: [first, { ...second, id: 'centre' }] })).toEqual([
      { code: 'procedure/nameTaken', where: 'stations', text: 'centre' },
    ]);
    const [reach, aim] = invented.inputs;
    if (reach === undefined || aim === undefined) throw new Error('two inputs');
    expect(checkProcedure({ ...invented, inputs: [reach, aim, reach] }).map((f) => f.code)).toEqual([
      'procedure/nameTaken',
    ]);
    for (const name of ['mm', 'in', 'sqrt', 'mod', 'end']) {
      const found = checkProcedure({ ...invented, inputs: [reach, aim, { ...aim, name }] });
      expect(found.map((fault) => fault.code)).toContain('procedure/nameTaken');
    }
  });

  test('limits that cross, choices that cannot be met', () => {
    const [reach, aim] = invented.inputs;
    if (reach === undefined || aim === undefined) throw new Error('two inputs');
    expect(
      checkProcedure({ ...invented, inputs: [reach, { ...aim, least: '3 deg' }] }).map((f) => f.code),
    ).toContain('procedure/limitsCrossed');
    const [, choice, value] = invented.conditions;
    if (choice?.kind !== 'choice' || value?.kind !== 'value') throw new Error('conditions');
    const unfit = { ...choice, choices: choice.choices.map((each) => ({ ...each, fits: false })) };
    const crossed = { ...value, least: 16 };
    expect(checkProcedure({ ...invented, conditions: [unfit, crossed] }).map((fault) => fault.code)).toEqual([
      'procedure/nothingFits',
      'procedure/limitsCrossed',
    ]);
  });
});

describe('who looked at it', () => {
  const review = (change: Partial<Procedure['source']>): Procedure => ({
    ...invented,
    source: { ...invented.source, ...change },
  });
  test.each([
    ['a second person', {}, true],
    ['own second entry', { reviewWay: 'ownSecondEntry', reviewedBy: 'A. Example' }, true],
    ['another shop', { reviewWay: 'otherShop', reviewedBy: 'C. Elsewhere' }, true],
    ['nobody', { reviewWay: 'unreviewed', reviewedBy: null }, false],
  ] as const)('%s', (_name, change, reviewed) => {
    expect(checkProcedure(review(change))).toEqual([]);
    expect(isReviewed(review(change))).toBe(reviewed);
  });

  test.each([
    ['the same person as the second', { reviewedBy: ' a. example' }],
    ['nobody as the second', { reviewedBy: null }],
    ['a name on an unreviewed one', { reviewWay: 'unreviewed' }],
    ['another person for an own second entry', { reviewWay: 'ownSecondEntry' }],
  ] as const)('%s does not fit', (_name, change) => {
    expect(checkProcedure(review(change)).map((fault) => fault.code)).toEqual(['procedure/reviewUnclear']);
    expect(isReviewed(review(change))).toBe(false);
  });
});

test('every fault has wording of its own', () => {
  const codes = Object.keys(PROCEDURE_WORDS).map((key) => key.replace('.', '/'));
  for (const code of codes) expect(faultKey(code as ProcedureFault['code'])).toBe(code.replace('/', '.'));
  expect(codes).toHaveLength(20);
});

test('the schema refuses what it does not know', () => {
  expect(procedureSchema.safeParse({ ...invented, extra: 1 }).success).toBe(false);
  expect(procedureSchema.safeParse({ ...invented, format: 'datumline-procedure-2' }).success).toBe(false);
  expect(procedureSchema.safeParse({ ...invented, stations: [] }).success).toBe(false);
  expect(procedureSchema.safeParse(JSON.parse(JSON.stringify(invented))).success).toBe(true);
});
