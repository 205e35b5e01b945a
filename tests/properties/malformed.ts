/**
 * Malformed network documents without end: a small sound one that uses every kind of reading, then damaged by one to four
 * slips anywhere in its tree: numbers that are nought, tiny, huge, infinite or none; other types; ids of other things;
 * parts missing, doubled, empty or out of order.
 */
import type { Network, Reading } from '../../core/adjust/network.ts';

/** Draws numbers from 0 up to 1. */
export type Draw = () => number;

const free = { state: 'free' } as const;
const fixed = (valueMm: number) => ({ state: 'fixed', valueMm }) as const;
const freePose = { x: free, y: free, z: free, yaw: free, pitch: free, roll: free };
const diagonal = (u: readonly number[]) => u.map((a, i) => u.map((_, j) => (i === j ? a * a : 0)));

const mm = (valueMm: number) => ({ valueMm, uMm: 1 });
const readings: readonly Reading[] = [
  {
    kind: 'distance',
    id: 'd1',
    from: 'A',
    to: 'P',
    mode: 'level',
    ...mm(1500),
    scale: 'scale',
    zero: 'hook',
  },
  { kind: 'distance', id: 'd2', from: 'B', to: 'P', mode: 'floor', ...mm(1880), scale: 'scale' },
  { kind: 'distance', id: 'd3', from: 'A', to: 'Q', mode: 'slope', ...mm(2236) },
  { kind: 'offset', id: 'o1', point: 'Q', line: { from: 'A', to: 'B' }, ...mm(1000) },
  { kind: 'along', id: 'a1', point: 'Q', line: { from: 'A', to: 'B' }, ...mm(2000) },
  { kind: 'height', id: 'h1', point: 'P', above: { point: 'A' }, ...mm(4) },
  { kind: 'height', id: 'h2', point: 'Q', above: { levelMm: 0 }, ...mm(-3) },
  {
    kind: 'drop',
    id: 'p1',
    point: 'L',
    mark: 'Q',
    direction: { body: 'bar', axis: 'x' },
    alongMm: 12,
    acrossMm: -7,
    arm: { shared: 'hook', along: 0, across: 1 },
    uAlongMm: 1,
    uAcrossMm: 1,
  },
  {
    kind: 'angle',
    id: 'w1',
    first: { from: 'A', to: 'B' },
    second: { body: 'bar', axis: 'y' },
    valueRad: 1.7,
    uRad: 0.002,
  },
  { kind: 'tilt', id: 't1', body: 'bar', axis: 'pitch', valueRad: 0.01, uRad: 0.001 },
  { kind: 'tilt', id: 't2', body: 'bar', axis: 'roll', valueRad: -0.02, uRad: 0.001 },
  { kind: 'height', id: 'h3', point: 'L', above: { point: 'Q' }, ...mm(900) },
  {
    kind: 'pose',
    id: 's1',
    body: 'board',
    in: { body: 'bar' },
    xMm: 100,
    yMm: 40,
    zMm: 300,
    yawRad: 0.1,
    pitchRad: 0.02,
    rollRad: 0,
    covariance: diagonal([1, 1, 1, 0.001, 0.001, 0.001]),
  },
  { kind: 'coordinate', id: 'c1', point: 'E', axis: 'x', ...mm(2065) },
  {
    kind: 'constraint',
    id: 'k1',
    terms: [
      { coefficient: 1, quantity: { of: 'coordinate', point: 'P', axis: 'z' } },
      { coefficient: -1, quantity: { of: 'coordinate', point: 'A', axis: 'z' } },
    ],
    value: 4,
    u: 'exact',
  },
];

/** The sound document. */
export const soundNetwork: Network = {
  format: 'datumline-network-1',
  points: [
    { id: 'A', x: fixed(0), y: fixed(0), z: fixed(0) },
    { id: 'B', x: { state: 'known', valueMm: 2700, uMm: 2 }, y: fixed(0), z: fixed(6) },
    { id: 'P', x: free, y: free, z: free },
    { id: 'Q', x: free, y: free, z: free },
  ],
  bodies: [
    {
      id: 'bar',
      pose: freePose,
      points: [{ id: 'L', xMm: 0, yMm: -300, zMm: 0, uXMm: 0, uYMm: 0.4, uZMm: 0 }],
    },
    {
      id: 'board',
      pose: freePose,
      points: [{ id: 'E', xMm: 20, yMm: 0, zMm: 10, uXMm: 0, uYMm: 0, uZMm: 0 }],
    },
  ],
  shared: [
    { id: 'scale', quantity: 'ratio', is: { state: 'known', value: 0, u: 0.0002 } },
    { id: 'hook', quantity: 'length', is: { state: 'known', valueMm: 0, uMm: 0.3, dof: 12 } },
  ],
  readings,
  sides: [{ point: 'P', line: { from: 'A', to: 'B' }, side: 'left' }],
  correlations: [
    {
      id: 'g1',
      rows: ['d1/value', 'd2/value'],
      covariance: [
        [1, 0.5],
        [0.5, 1],
      ],
    },
  ],
};

const NUMBERS: readonly number[] = [
  0,
  -0,
  -1,
  1,
  0.5,
  Math.PI,
  1e-300,
  Number.MIN_VALUE,
  1e-9,
  1e-7,
  1e6,
  999_999_999,
  1e9,
  1e30,
  1e200,
  Number.MAX_VALUE,
  -1e12,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
];
const IDS = [
  'A',
  'B',
  'P',
  'Q',
  'L',
  'E',
  'bar',
  'board',
  'scale',
  'hook',
  'd1',
  'g1',
  'nobody',
  '',
  'a b',
  'd1/value',
];
const WORDS = [
  'free',
  'fixed',
  'known',
  'exact',
  'left',
  'x',
  'yaw',
  'bay',
  'pose',
  'drop',
  'level',
  'distance',
];
const OTHERS: readonly unknown[] = [null, true, 'text', [], {}, [[]], undefined, { id: 'A' }, '1500', -1];

type Tree = { [key: string]: unknown } | unknown[];

function isTree(value: unknown): value is Tree {
  return typeof value === 'object' && value !== null;
}

function pick<T>(list: readonly T[], draw: Draw): T | undefined {
  return list[Math.floor(draw() * list.length)];
}

/** A place in a tree: the part that holds it, and its key. */
type Place = readonly [Tree, string];

/** Places by what stands there. */
interface Places {
  readonly numbers: Place[];
  readonly names: Place[];
  readonly lists: Place[];
  readonly all: Place[];
}

/** Fields, and places in lists, that name something; the other texts are words of the format. */
const REFERS = /^(id|from|to|point|mark|body|shared|scale|zero|\d+)$/;

/** A copy of a tree, its places noted on the way. */
function copied(tree: Tree, places: Places): Tree {
  const copy: Tree = Array.isArray(tree) ? [] : {};
  for (const key of Object.keys(tree)) {
    const value: unknown = Reflect.get(tree, key);
    const place: Place = [copy, key];
    Reflect.set(copy, key, isTree(value) ? copied(value, places) : value);
    places.all.push(place);
    if (typeof value === 'number') places.numbers.push(place);
    else if (typeof value === 'string' && REFERS.test(key)) places.names.push(place);
    else if (Array.isArray(value)) places.lists.push(place);
  }
  return copy;
}

function change(among: readonly Place[], draw: Draw, next: (old: unknown) => unknown): void {
  const place = pick(among, draw);
  if (place !== undefined) Reflect.set(place[0], place[1], next(Reflect.get(place[0], place[1])));
}

/** A number becomes a bad one, a name another name, a list loses or doubles a part: the types stay right. */
function slip({ numbers, names, lists }: Places, draw: Draw): void {
  const kind = draw();
  if (kind < 0.5)
    change(numbers, draw, (old) => (draw() < 0.5 ? 1 : Number(old)) * (pick(NUMBERS, draw) ?? 1));
  else if (kind < 0.7) change(names, draw, () => pick(IDS, draw));
  else change(lists, draw, (old) => rearranged(Array.isArray(old) ? old : [], draw));
}

/** Anything at all: a part taken out, or one of another type. */
function spoil(places: Places, draw: Draw): void {
  const kind = draw();
  if (kind < 0.3) {
    const [tree, key] = pick(places.all, draw) ?? [[], ''];
    Reflect.deleteProperty(tree, key);
  } else if (kind < 0.6) change(places.all, draw, () => pick(OTHERS, draw));
  else if (kind < 0.7) change(places.names, draw, () => pick(WORDS, draw));
  else slip(places, draw);
}

function rearranged(list: readonly unknown[], draw: Draw): unknown[] {
  const how = draw();
  const at = Math.floor(draw() * list.length);
  if (how < 0.6) return list.filter((_, i) => i !== at);
  if (how < 0.65) return [];
  if (how < 0.8) return [...list].reverse();
  const one = list[at];
  const twin = isTree(one) && !Array.isArray(one) && 'id' in one ? { ...one, id: `${String(one.id)}+` } : one;
  return list.length === 0 ? [] : [...list, how < 0.9 ? twin : one];
}

function damaged(draw: Draw, how: (places: Places, draw: Draw) => void): unknown {
  const places: Places = { numbers: [], names: [], lists: [], all: [] };
  const document = copied(soundTree, places);
  const slips = 1 + Math.floor(draw() * 4);
  for (let k = 0; k < slips; k++) how(places, draw);
  return document;
}

const soundTree: Tree = { ...soundNetwork };

/** A document from anywhere: its types may be wrong, so the parser has to see it first. */
export function malformedDocument(draw: Draw): unknown {
  return damaged(draw, spoil);
}

/** A network whose types are right and whose content is not, numbers that are none included, as only code could make it. */
export function malformedNetwork(draw: Draw): Network {
  return damaged(draw, slip) as Network;
}
