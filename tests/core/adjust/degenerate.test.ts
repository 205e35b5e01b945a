/**
 * Layouts that cannot be adjusted, each with the failure it has to give: its code, the things it names first, and words
 * that say which, what and how to cure it.
 */
import { describe, expect, test } from 'vitest';
import type { AdjustCure, AdjustErrorCode } from '../../../core/adjust/errors.ts';
import type { Body, Network, NetworkPoint, Reading } from '../../../core/adjust/network.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { failureLines } from '../../../electron/cli/solveWords.ts';
import { failed, fixed, fixedPoint, free, freePoint, known, level, network, side } from './networks.ts';

type Distance = Extract<Reading, { kind: 'distance' }>;
type Pose = Extract<Reading, { kind: 'pose' }>;

interface Layout {
  readonly name: string;
  readonly parts: Partial<Network>;
  readonly code: AdjustErrorCode;
  readonly cure: AdjustCure;
  /** All of these are among the ids; the first of them is the first id. */
  readonly ids: readonly string[];
  readonly words: RegExp;
}

const A = fixedPoint('A', 0, 0);
const B = fixedPoint('B', 1000, 0);
const base = [A, B];
const P = freePoint('P');
const inSpace = (point: NetworkPoint): NetworkPoint => ({ ...point, z: free });
const taped = (from: string, to: string, valueMm: number): Distance => {
  const reading = level(from, to, valueMm, 1);
  if (reading.kind !== 'distance') throw new Error('a distance');
  return reading;
};
const left = side('P', 'A', 'B', 'left');
const height = (point: string, valueMm: number): Reading => ({
  kind: 'height',
  id: `${point}.height`,
  point,
  above: { levelMm: 0 },
  valueMm,
  uMm: 1,
});
const coordinate = (point: string, axis: 'x' | 'y', valueMm: number): Reading => ({
  kind: 'coordinate',
  id: `${point}.${axis}`,
  point,
  axis,
  valueMm,
  uMm: 1,
});
const exact = (id: string, point: string, value: number): Reading => ({
  kind: 'constraint',
  id,
  terms: [{ coefficient: 1, quantity: { of: 'coordinate', point, axis: 'x' } }],
  value,
  u: 'exact',
});
const apart = (id: string, a: string, b: string, value: number): Reading => ({
  kind: 'constraint',
  id,
  terms: [
    { coefficient: 1, quantity: { of: 'coordinate', point: b, axis: 'x' } },
    { coefficient: -1, quantity: { of: 'coordinate', point: a, axis: 'x' } },
  ],
  value,
  u: 'exact',
});
const angle = (at: string, from: string, to: string, valueRad: number): Reading => ({
  kind: 'angle',
  id: `${at}.${from}.${to}`,
  first: { from: at, to: from },
  second: { from: at, to },
  valueRad,
  uRad: 0.0002,
});
const tilt = (axis: 'pitch' | 'roll', body = 'bar'): Reading => ({
  kind: 'tilt',
  id: `${body}.${axis}`,
  body,
  axis,
  valueRad: 0,
  uRad: 0.001,
});
const freePose = { x: free, y: free, z: free, yaw: free, pitch: free, roll: free };
const own = (id: string, yMm: number, u = 0) => {
  return { id, xMm: 0, yMm, zMm: 0, uXMm: u, uYMm: u, uZMm: u };
};
const bar: Body = { id: 'bar', pose: freePose, points: [own('L', -1000), own('R', 1000)] };
const covariance = (u = [1, 1, 1, 0.001, 0.001, 0.001]) =>
  u.map((a, i) => u.map((_, j) => (i === j ? a * a : 0)));
const pose = (id: string, body: string, seenIn: Pose['in'] = 'bay'): Pose => {
  const numbers = { xMm: 900, yMm: 100, zMm: 50, yawRad: 0.2, pitchRad: 0, rollRad: 0 };
  return { kind: 'pose', id, body, in: seenIn, ...numbers, covariance: covariance() };
};
const ends = (x: number): readonly Reading[] =>
  (['L', 'R'] as const).flatMap((id) => [
    coordinate(id, 'x', x),
    coordinate(id, 'y', id === 'L' ? 990 : -1010),
    height(id, 900),
  ]);
const bad = (valueMm: number, uMm = 1) => ({
  points: [...base, P],
  readings: [{ ...taped('A', 'P', valueMm), uMm }],
});
const zero = /uncertainty is zero.*State an uncertainty/s;
const number = /not finite or beyond reason.*Correct the number/s;
const twice = /same id.*Rename one/s;
const undefinedName = /not defined.*Define it/s;
const coincide = /coincide.*Separate the two points/s;
const covarianceWords = (why: string) =>
  new RegExp(`covariance cannot be one.*${why}.*Correct the covariance`, 's');
const open = (id: string, part: string, reading: string) =>
  new RegExp(
    `${id.replace('.', '\\.')}: ${part} is open; one of these would hold it:.*${reading}.*Add a reading`,
    's',
  );

/** Ids, codes and cures that repeat. */
const few = { code: 'adjust/tooFewReadings', cure: 'addReading' } as const;
const loose = { code: 'adjust/undetermined', cure: 'addReading' } as const;
const infinite = { code: 'adjust/notFinite', cure: 'correctNumber', words: number } as const;
const exactly = { code: 'adjust/zeroUncertainty', cure: 'stateUncertainty', words: zero } as const;
const same = { code: 'adjust/coincidentPoints', cure: 'separatePoints', words: coincide } as const;
const clash = {
  code: 'adjust/contradictoryConstraints',
  cure: 'dropConstraint',
  words: /contradict each other, or what is fixed.*Drop or correct one/s,
} as const;
const undeclared = {
  code: 'adjust/mirrorUndeclared',
  cure: 'declareSide',
  words: /Two mirrored positions fit.*Declare the side/s,
} as const;
const twins = { code: 'adjust/duplicateId', cure: 'renameDuplicate', words: twice } as const;
const badCovariance = { code: 'adjust/badCovariance', cure: 'correctCovariance' } as const;

const layouts: readonly Layout[] = [
  // What the readings leave open.
  {
    name: 'no reading at all',
    parts: { points: [P, freePoint('Q')] },
    ...few,
    ids: ['P', 'Q'],
    words: open('P', 'plan', 'distance'),
  },
  {
    name: 'one distance for a point',
    parts: bad(500),
    ...few,
    ids: ['P'],
    words: open('P', 'plan', 'offset'),
  },
  {
    name: 'the same distance three times',
    parts: {
      points: [...base, P],
      readings: [1, 2, 3].map((k) => ({ ...taped('A', 'P', 500), id: `d${k}` })),
    },
    ...loose,
    ids: ['P'],
    words: open('P', 'plan', 'distance'),
  },
  {
    name: 'collinear marks: all distances along one line hold nothing across it',
    parts: {
      points: [...base, fixedPoint('C', 2000, 0), freePoint('P', 1500, 0)],
      readings: [taped('A', 'P', 1500), taped('B', 'P', 500), taped('C', 'P', 500)],
    },
    ...loose,
    ids: ['P'],
    words: open('P', 'plan', 'offset'),
  },
  {
    name: 'offsets from two parallel lines',
    parts: {
      points: [...base, fixedPoint('C', 0, 500), fixedPoint('D', 1000, 500), P],
      readings: [
        { kind: 'offset', id: 'o1', point: 'P', line: { from: 'A', to: 'B' }, valueMm: 200, uMm: 1 },
        { kind: 'offset', id: 'o2', point: 'P', line: { from: 'C', to: 'D' }, valueMm: -300, uMm: 1 },
      ],
    },
    ...loose,
    ids: ['P'],
    words: open('P', 'plan', 'along'),
  },
  {
    name: 'missing scale: angles alone, and nothing that has a length',
    parts: {
      points: [freePoint('P', 0, 0), freePoint('Q', 1000, 20), freePoint('S', 480, 900)],
      readings: [angle('P', 'Q', 'S', 1.06), angle('Q', 'S', 'P', 1.05), angle('S', 'P', 'Q', 1.03)],
    },
    ...loose,
    ids: ['S'],
    words: /plan is open.*Add a reading/s,
  },
  {
    name: 'a free tape scale where only that tape measured',
    parts: {
      points: [freePoint('P', 0, 0), freePoint('Q', 1000, 20), freePoint('S', 480, 900)],
      shared: [{ id: 'tape.scale', quantity: 'ratio', is: { state: 'free' } }],
      readings: [
        { ...taped('P', 'Q', 1000), scale: 'tape.scale' },
        { ...taped('Q', 'S', 1020), scale: 'tape.scale' },
        { ...taped('S', 'P', 1020), scale: 'tape.scale' },
        { ...taped('P', 'Q', 1000), id: 'again', scale: 'tape.scale' },
      ],
    },
    ...loose,
    ids: ['tape.scale'],
    words: open('tape.scale', 'value', 'known'),
  },
  {
    name: 'a free zero that only one distance has',
    parts: {
      points: [...base, P],
      shared: [{ id: 'hook', quantity: 'length', is: { state: 'free' } }],
      readings: [
        taped('A', 'P', 600),
        taped('B', 'P', 700),
        { ...taped('A', 'B', 1000), zero: 'hook' },
        { ...taped('A', 'P', 1), id: 'x', zero: 'nail' },
      ],
    },
    code: 'adjust/unknownShared',
    cure: 'defineMissing',
    ids: ['nail', 'x'],
    words: undefinedName,
  },
  {
    name: 'a shared unknown that no reading has',
    parts: { points: base, shared: [{ id: 'bias', quantity: 'angle', is: { state: 'free' } }] },
    ...few,
    ids: ['bias'],
    words: open('bias', 'value', 'known'),
  },
  {
    name: 'a height that nothing reads',
    parts: {
      points: [...base, inSpace(P)],
      readings: [taped('A', 'P', 600), taped('B', 'P', 700)],
      sides: [left],
    },
    ...few,
    ids: ['P'],
    words: open('P', 'height', 'height'),
  },
  {
    name: 'a height held only by the slant of floor tapes',
    parts: {
      points: [...base, fixedPoint('C', 500, 900, 12), inSpace(P)],
      readings: ['A', 'B', 'C'].map(
        (from): Reading => ({ ...taped(from, 'P', from === 'C' ? 400 : 707), mode: 'floor' }),
      ),
    },
    ...loose,
    ids: ['P'],
    words: open('P', 'height', 'height'),
  },
  {
    name: 'a drop without height: the mark is placed, the hub is at no height',
    parts: {
      points: [...base, { ...freePoint('mark'), z: fixed(0) }, inSpace(freePoint('hub'))],
      readings: [
        taped('A', 'mark', 600),
        taped('B', 'mark', 700),
        {
          kind: 'drop',
          id: 'drop',
          point: 'hub',
          mark: 'mark',
          direction: { from: 'A', to: 'B' },
          alongMm: 0,
          acrossMm: 0,
          uAlongMm: 1,
          uAcrossMm: 1,
        },
      ],
      sides: [side('mark', 'A', 'B', 'left')],
    },
    ...few,
    ids: ['hub'],
    words: open('hub', 'height', 'height'),
  },
  {
    name: 'a body with one point may turn about it',
    parts: {
      points: base,
      bodies: [{ ...bar, points: [own('L', -1000)] }],
      readings: [
        coordinate('L', 'x', 5000),
        coordinate('L', 'y', 990),
        height('L', 900),
        tilt('pitch'),
        tilt('roll'),
      ],
    },
    ...few,
    ids: ['bar'],
    words: open('bar', 'yaw', 'angle'),
  },
  {
    name: 'a body without any point or reading',
    parts: { points: base, bodies: [{ ...bar, points: [] }] },
    ...few,
    ids: ['bar'],
    words: open('bar', 'yaw', 'angle'),
  },
  {
    name: 'a bar held by its two ends may pitch about itself',
    parts: { bodies: [bar], readings: ends(5000) },
    ...loose,
    ids: ['bar'],
    words: open('bar', 'pitch', 'tilt'),
  },
  {
    name: 'a bar held by tilts alone is nowhere',
    parts: { points: base, bodies: [bar], readings: [tilt('pitch'), tilt('roll')] },
    ...few,
    ids: ['bar'],
    words: open('bar', 'plan', 'distance'),
  },
  {
    name: 'two bodies that share all their readings hang together in the air',
    parts: {
      points: base,
      bodies: [bar, { ...bar, id: 'board', points: [own('E', -500), own('F', 500)] }],
      readings: [
        pose('seen', 'board', { body: 'bar' }),
        { ...taped('L', 'E', 1300), mode: 'slope' },
        { ...taped('R', 'F', 1250), mode: 'slope' },
      ],
    },
    ...few,
    ids: ['bar', 'board'],
    words: /plan is open.*Add a reading/s,
  },
  {
    name: 'a point on the circle through the three marks it was resected from',
    parts: {
      points: [
        fixedPoint('A', 1000, 0),
        fixedPoint('B', 0, 1000),
        fixedPoint('C', -1000, 0),
        freePoint('P', 0, -1000),
      ],
      readings: [angle('P', 'A', 'B', Math.PI / 4), angle('P', 'B', 'C', Math.PI / 4)],
    },
    ...loose,
    ids: ['P'],
    words: open('P', 'plan', 'distance'),
  },
  // What is contradictory.
  {
    name: 'two exact values for one coordinate',
    parts: {
      points: [...base, P],
      readings: [taped('A', 'P', 600), taped('B', 'P', 700), exact('k1', 'P', 430), exact('k2', 'P', 431)],
      sides: [left],
    },
    ...clash,
    ids: ['k2', 'k1'],
  },
  {
    name: 'an exact value for a fixed coordinate',
    parts: { points: base, readings: [exact('k', 'A', 3)] },
    ...clash,
    ids: ['k'],
  },
  {
    name: 'a ring of equalities that does not close',
    parts: {
      points: [...base, P, freePoint('Q'), freePoint('S')],
      readings: [
        ...['P', 'Q', 'S'].flatMap((id) => [taped('A', id, 600), taped('B', id, 700)]),
        apart('e1', 'P', 'Q', 5),
        apart('e2', 'Q', 'S', 5),
        apart('e3', 'P', 'S', 11),
      ],
      sides: ['P', 'Q', 'S'].map((id) => side(id, 'A', 'B', 'left')),
    },
    ...clash,
    ids: ['e3', 'e1', 'e2'],
  },
  {
    name: 'a constraint that speaks of nothing yet wants something',
    parts: {
      points: base,
      readings: [
        {
          kind: 'constraint',
          id: 'k',
          terms: [{ coefficient: 0, quantity: { of: 'coordinate', point: 'A', axis: 'x' } }],
          value: 5,
          u: 'exact',
        },
      ],
    },
    ...clash,
    ids: ['k'],
  },
  {
    name: 'a side that the readings do not bear out',
    parts: {
      points: [...base, freePoint('P', 400, -500)],
      readings: [taped('A', 'P', 600), taped('B', 'P', 700)],
      sides: [left],
    },
    code: 'adjust/sideContradicted',
    cure: 'checkSide',
    ids: ['P', 'A', 'B'],
    words: /other side of the line.*Check the declared side/s,
  },
  // Mirror images.
  {
    name: 'two distances and no side',
    parts: { points: [...base, P], readings: [taped('A', 'P', 600), taped('B', 'P', 700)] },
    ...undeclared,
    ids: ['P', 'A', 'B'],
  },
  {
    name: 'a third distance from the same line does not tell the sides apart',
    parts: {
      points: [...base, fixedPoint('C', 2000, 0), P],
      readings: [taped('A', 'P', 600), taped('B', 'P', 700), taped('C', 'P', 1655)],
    },
    ...undeclared,
    ids: ['P'],
  },
  // Numbers.
  { name: 'not a number as a reading', parts: bad(Number.NaN), ...infinite, ids: ['A-P'] },
  { name: 'an infinite reading', parts: bad(Number.POSITIVE_INFINITY), ...infinite, ids: ['A-P'] },
  { name: 'not a number as an uncertainty', parts: bad(500, Number.NaN), ...infinite, ids: ['A-P'] },
  { name: 'an infinite uncertainty', parts: bad(500, Number.POSITIVE_INFINITY), ...infinite, ids: ['A-P'] },
  { name: 'a negative uncertainty', parts: bad(500, -1), ...infinite, ids: ['A-P'] },
  { name: 'a thousand kilometres', parts: bad(1e12), ...infinite, ids: ['A-P'] },
  { name: 'the largest number there is', parts: bad(Number.MAX_VALUE), ...infinite, ids: ['A-P'] },
  {
    name: 'a fixed coordinate that is no number',
    parts: { points: [fixedPoint('A', Number.NaN, 0)] },
    ...infinite,
    ids: ['A'],
  },
  {
    name: 'a start that is no number',
    parts: { points: [freePoint('P', Number.NaN, 1)] },
    ...infinite,
    ids: ['P'],
  },
  {
    name: 'a point of a body that is no number',
    parts: { bodies: [{ ...bar, points: [own('L', Number.NaN)] }] },
    ...infinite,
    ids: ['L'],
  },
  {
    name: 'zero degrees of freedom',
    parts: { points: [...base, P], readings: [{ ...taped('A', 'P', 500), dof: 0 }] },
    ...infinite,
    ids: ['A-P'],
  },
  { name: 'zero uncertainty of a reading', parts: bad(500, 0), ...exactly, ids: ['A-P'] },
  { name: 'an uncertainty of a picometre', parts: bad(500, 1e-12), ...exactly, ids: ['A-P'] },
  { name: 'the smallest uncertainty there is', parts: bad(500, Number.MIN_VALUE), ...exactly, ids: ['A-P'] },
  {
    name: 'zero uncertainty of a known coordinate',
    parts: { points: [{ ...A, id: 'K', x: known(5, 0) }] },
    ...exactly,
    ids: ['K'],
  },
  {
    name: 'zero uncertainty of a tilt',
    parts: { bodies: [bar], readings: [{ ...tilt('pitch'), uRad: 0 } as Reading] },
    ...exactly,
    ids: ['bar.pitch'],
  },
  {
    name: 'zero uncertainty across a drop',
    parts: {
      points: [...base, P],
      readings: [
        {
          kind: 'drop',
          id: 'drop',
          point: 'P',
          mark: 'A',
          direction: { from: 'A', to: 'B' },
          alongMm: 0,
          acrossMm: 0,
          uAlongMm: 1,
          uAcrossMm: 0,
        },
      ],
    },
    ...exactly,
    ids: ['drop'],
  },
  {
    name: 'a constraint with zero uncertainty that is not called exact',
    parts: { points: [P], readings: [{ ...exact('k', 'P', 3), u: 0 } as Reading] },
    ...exactly,
    ids: ['k'],
  },
  // Names.
  { name: 'two points of one name', parts: { points: [A, A] }, ...twins, ids: ['A'] },
  {
    name: 'two readings of one name',
    parts: { points: [...base, P], readings: [taped('A', 'P', 1), taped('A', 'P', 2)] },
    ...twins,
    ids: ['A-P'],
  },
  {
    name: 'a point of a body named like a point',
    parts: { points: base, bodies: [{ ...bar, points: [own('A', 5)] }] },
    ...twins,
    ids: ['A'],
  },
  {
    name: 'a body named like its own point',
    parts: { bodies: [{ ...bar, points: [own('bar', 5)] }] },
    ...twins,
    ids: ['bar'],
  },
  {
    name: 'a reading to an unknown point',
    parts: { points: base, readings: [taped('A', 'Q', 5)] },
    code: 'adjust/unknownPoint',
    cure: 'defineMissing',
    ids: ['Q', 'A-Q'],
    words: undefinedName,
  },
  {
    name: 'a tilt of an unknown body',
    parts: { readings: [tilt('roll', 'ghost')] },
    code: 'adjust/unknownBody',
    cure: 'defineMissing',
    ids: ['ghost', 'ghost.roll'],
    words: undefinedName,
  },
  {
    name: 'a pose seen by an unknown body',
    parts: { bodies: [bar], readings: [pose('shot', 'bar', { body: 'camera' })] },
    code: 'adjust/unknownBody',
    cure: 'defineMissing',
    ids: ['camera', 'shot'],
    words: undefinedName,
  },
  {
    name: 'a side of an unknown point',
    parts: { points: base, sides: [side('X', 'A', 'B', 'left')] },
    code: 'adjust/unknownPoint',
    cure: 'defineMissing',
    ids: ['X'],
    words: undefinedName,
  },
  {
    name: 'a length where a ratio is wanted',
    parts: {
      points: base,
      shared: [{ id: 'hook', quantity: 'length', is: known(0, 0.2) }],
      readings: [{ ...taped('A', 'B', 1000), scale: 'hook' }],
    },
    code: 'adjust/wrongUnit',
    cure: 'correctDocument',
    ids: ['hook', 'A-B'],
    words: /another unit.*Correct the document/s,
  },
  {
    name: 'a constraint that adds a length and an angle',
    parts: {
      bodies: [bar],
      readings: [
        {
          kind: 'constraint',
          id: 'k',
          terms: [
            { coefficient: 1, quantity: { of: 'coordinate', point: 'L', axis: 'x' } },
            { coefficient: 1, quantity: { of: 'pose', body: 'bar', component: 'yaw' } },
          ],
          value: 0,
          u: 'exact',
        },
      ],
    },
    code: 'adjust/wrongUnit',
    cure: 'correctDocument',
    ids: ['k'],
    words: /another unit.*Correct the document/s,
  },
  // Points in one place.
  {
    name: 'a distance from a point to itself',
    parts: { points: base, readings: [taped('A', 'A', 0)] },
    ...same,
    ids: ['A', 'A-A'],
  },
  {
    name: 'a tape between two fixed points in one place',
    parts: { points: [...base, fixedPoint('A2', 0, 0)], readings: [taped('A', 'A2', 0.1)] },
    ...same,
    ids: ['A', 'A2'],
  },
  {
    name: 'distances of zero put a point on the mark it was taped from',
    parts: { points: [A, B, P], readings: [taped('A', 'P', 0), taped('B', 'P', 1000)] },
    ...same,
    ids: ['A', 'P'],
  },
  {
    name: 'a line through one point',
    parts: {
      points: [...base, P],
      readings: [{ kind: 'offset', id: 'o', point: 'P', line: { from: 'A', to: 'A' }, valueMm: 5, uMm: 1 }],
    },
    ...same,
    ids: ['A', 'o'],
  },
  {
    name: 'an angle from a line between two points in one place',
    parts: {
      points: [...base, fixedPoint('A2', 0, 0), freePoint('P', 5, 5)],
      readings: [{ ...angle('A', 'A2', 'B', 0) }],
    },
    ...same,
    ids: ['A', 'A2'],
  },
  {
    name: 'a line through a hub and the mark straight below it',
    parts: {
      points: [fixedPoint('hub', 0, 0, 300), fixedPoint('mark', 0, 0), freePoint('P', 500, 200)],
      readings: [
        { kind: 'along', id: 'a', point: 'P', line: { from: 'mark', to: 'hub' }, valueMm: 500, uMm: 1 },
        coordinate('P', 'y', 200),
      ],
    },
    ...same,
    ids: ['mark', 'hub'],
  },
  // Covariances.
  {
    name: 'a pose with a singular covariance',
    parts: {
      bodies: [bar],
      readings: [
        {
          ...pose('shot', 'bar'),
          covariance: covariance().map((row, i, all) =>
            i === 1
              ? row.map((_, j) => (j < 2 ? 1 : 0))
              : i === 0
                ? row.map((_, j) => (j < 2 ? 1 : 0))
                : (all[i] ?? row),
          ),
        },
      ],
    },
    ...badCovariance,
    ids: ['shot', 'shot/y', 'shot/x'],
    words: covarianceWords('not positive definite'),
  },
  {
    name: 'a pose with a lopsided covariance',
    parts: {
      bodies: [bar],
      readings: [
        {
          ...pose('shot', 'bar'),
          covariance: covariance().map((row, i) => row.map((v, j) => (i === 0 && j === 5 ? 1e-4 : v))),
        },
      ],
    },
    ...badCovariance,
    ids: ['shot', 'shot/x', 'shot/turnZ'],
    words: covarianceWords('not the same above and below'),
  },
  {
    name: 'a pose with a negative variance',
    parts: {
      bodies: [bar],
      readings: [
        {
          ...pose('shot', 'bar'),
          covariance: covariance().map((row, i) => row.map((v) => (i === 2 ? -v : v))),
        },
      ],
    },
    ...infinite,
    ids: ['shot'],
  },
  {
    name: 'a pose without uncertainty in one turn',
    parts: {
      bodies: [bar],
      readings: [{ ...pose('shot', 'bar'), covariance: covariance([1, 1, 1, 0.001, 0, 0.001]) }],
    },
    ...exactly,
    ids: ['shot'],
  },
  {
    name: 'a pose of a body in itself',
    parts: { bodies: [bar], readings: [pose('shot', 'bar', { body: 'bar' })] },
    code: 'adjust/sameBody',
    cure: 'correctDocument',
    ids: ['bar', 'shot'],
    words: /in the body itself.*Correct the document/s,
  },
  {
    name: 'a group with a correlation of more than one',
    parts: {
      points: [...base, P],
      readings: [taped('A', 'P', 600), taped('B', 'P', 700)],
      sides: [left],
      correlations: [
        {
          id: 'g',
          rows: ['A-P/value', 'B-P/value'],
          covariance: [
            [1, 1.1],
            [1.1, 1],
          ],
        },
      ],
    },
    ...badCovariance,
    ids: ['g', 'B-P/value', 'A-P/value'],
    words: covarianceWords('not positive definite'),
  },
  {
    name: 'a group of a row that does not exist',
    parts: {
      points: [...base, P],
      readings: [taped('A', 'P', 600), taped('B', 'P', 700)],
      sides: [left],
      correlations: [
        {
          id: 'g',
          rows: ['A-P/value', 'A-P/along'],
          covariance: [
            [1, 0],
            [0, 1],
          ],
        },
      ],
    },
    code: 'adjust/unknownRow',
    cure: 'defineMissing',
    ids: ['A-P/along', 'g'],
    words: /row that is not there.*Define it/s,
  },
  // No way to begin.
  {
    name: 'a resection by angles without a start',
    parts: {
      points: [fixedPoint('A', 0, 0), fixedPoint('B', 1000, 100), fixedPoint('C', 2000, -50), P],
      readings: [angle('P', 'A', 'B', -0.75), angle('P', 'B', 'C', -0.76)],
    },
    code: 'adjust/noStart',
    cure: 'giveStart',
    ids: ['P'],
    words: /No starting position.*Give a starting position/s,
  },
  {
    name: 'distances that cannot close: the point ends on the line, where nothing holds it across',
    parts: {
      points: [...base, freePoint('P', 500, 30)],
      readings: [taped('A', 'P', 300), taped('B', 'P', 300)],
    },
    ...loose,
    ids: ['P'],
    words: open('P', 'plan', 'offset'),
  },
];

describe(`${layouts.length} layouts that cannot be adjusted`, () => {
  test('the catalogue is as long as promised, with no case twice', () => {
    expect(layouts.length).toBeGreaterThanOrEqual(40);
    expect(new Set(layouts.map(({ name }) => name)).size).toBe(layouts.length);
  });

  test.each(layouts)('$name', ({ parts, code, cure, ids, words }) => {
    const error = failed(solve(network(parts)));
    expect(error).toMatchObject({ code, cure });
    expect(error.ids[0]).toBe(ids[0]);
    for (const id of ids) expect(error.ids).toContain(id);
    const text = failureLines(error).join('\n');
    expect(text).toMatch(words);
    for (const id of ids) expect(text).toContain(id);
  });
});
