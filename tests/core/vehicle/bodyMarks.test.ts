import { describe, expect, test } from 'vitest';
import { radFromDeg } from '../../../core/units.ts';
import {
  type BodyMark,
  type BodyMarkDatum,
  centrelineFromBodyMarks,
} from '../../../core/vehicle/bodyMarks.ts';
import { sideKnowledge } from '../../../core/vehicle/datumLine.ts';
import { independentPlaces } from '../../../core/vehicle/knownPlaces.ts';

const IDS = ['a', 'b', 'c', 'd'] as const;
type Id = (typeof IDS)[number];

const mark = (aheadMm: number, leftMm: number, uMm = 0): BodyMark => ({ aheadMm, leftMm, uMm });
/** Four jacking points. */
const MARKS = { a: mark(2000, 600), b: mark(2000, -600), c: mark(400, 600), d: mark(400, -600) };

/** The marks as read: the car turned, at (300, 200), with errors in x and y. */
function read(
  degrees: number,
  u = 1,
  errors: Partial<Record<Id, readonly [number, number]>> = {},
  ids: readonly Id[] = IDS,
) {
  const [c, s] = [Math.cos(radFromDeg(degrees)), Math.sin(radFromDeg(degrees))];
  const at = (id: Id) => {
    const { aheadMm, leftMm } = MARKS[id];
    const [ex, ey] = errors[id] ?? [0, 0];
    return {
      xMm: 300 + c * aheadMm - s * leftMm + ex,
      yMm: 200 + s * aheadMm + c * leftMm + ey,
      uXMm: u,
      uYMm: u,
    };
  };
  return independentPlaces(ids, { a: at('a'), b: at('b'), c: at('c'), d: at('d') });
}

const datum = (found: ReturnType<typeof centrelineFromBodyMarks>): BodyMarkDatum => {
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
};

describe('the centreline from body marks', () => {
  test('exact marks give the line back, whatever its heading', () => {
    for (const degrees of [0, 30, 170, -95]) {
      const { line, chiSquare, dof } = datum(centrelineFromBodyMarks(read(degrees), MARKS));
      expect(line.headingRad).toBeCloseTo(radFromDeg(degrees), 9);
      expect(line.origin.xMm).toBeCloseTo(300, 6);
      expect(line.origin.yMm).toBeCloseTo(200, 6);
      expect(chiSquare).toBeCloseTo(0, 9);
      expect(dof).toBe(5);
    }
  });

  test('u by hand: the turn is 1 over the root of the summed squared distances from the middle', () => {
    const { line } = datum(centrelineFromBodyMarks(read(20), MARKS));
    // Each mark lies 1000 mm from the middle (800 along, 600 across): 1 / sqrt(4 * 1000^2).
    expect(line.heading.u).toBeCloseTo(1 / 2000, 9);
    // The middle is 1200 ahead: there u across is 1 / sqrt 4.
    expect(sideKnowledge(line, 1200).u).toBeCloseTo(0.5, 6);
    expect(sideKnowledge(line, 5000).u).toBeCloseTo(Math.hypot(0.5, 3800 / 2000), 6);
  });

  test('how well the marks are placed in the body counts like their reading', () => {
    const loose = {
      a: mark(2000, 600, 1),
      b: mark(2000, -600, 1),
      c: mark(400, 600, 1),
      d: mark(400, -600, 1),
    };
    const { line } = datum(centrelineFromBodyMarks(read(20), loose));
    expect(line.heading.u).toBeCloseTo(Math.SQRT2 / 2000, 9);
  });

  test('a bent corner of 12 mm shows as a misfit that cannot be chance', () => {
    const { chiSquare, probability, misfitMm } = datum(
      centrelineFromBodyMarks(read(10, 1, { a: [0, 12] }), MARKS),
    );
    expect(chiSquare).toBeGreaterThan(50);
    expect(probability).toBeLessThan(1e-6);
    const worst = [...misfitMm].sort(
      (p, q) => Math.hypot(q.aheadMm, q.leftMm) - Math.hypot(p.aheadMm, p.leftMm),
    );
    expect(worst[0]?.id).toBe('a');
  });

  test('a mark ten times worse hardly turns the line', () => {
    const poor = { ...MARKS, a: mark(2000, 600, 10) };
    const trusted = datum(centrelineFromBodyMarks(read(0, 1, { a: [0, 12] }), MARKS)).line.headingRad;
    const doubted = datum(centrelineFromBodyMarks(read(0, 1, { a: [0, 12] }), poor)).line.headingRad;
    expect(Math.abs(doubted)).toBeLessThan(Math.abs(trusted) / 20);
  });

  test('two marks fix the line; their distance is the one thing to spare', () => {
    const two = read(10, 1, {}, ['a', 'c']);
    const { line, dof, chiSquare } = datum(centrelineFromBodyMarks(two, MARKS));
    expect(line.headingRad).toBeCloseTo(radFromDeg(10), 9);
    expect(dof).toBe(1);
    expect(chiSquare).toBeCloseTo(0, 9);
  });

  test('one mark, marks at one place, exact marks', () => {
    const one = read(0, 1, {}, ['a']);
    expect(centrelineFromBodyMarks(one, MARKS)).toMatchObject({
      error: { code: 'vehicle/tooFewMarks', count: 1 },
    });
    const close = { ...MARKS, c: mark(2000, 560) };
    expect(centrelineFromBodyMarks(read(0, 1, {}, ['a', 'c']), close)).toMatchObject({
      error: { code: 'vehicle/marksTooClose' },
    });
    expect(centrelineFromBodyMarks(read(0, 0), MARKS)).toMatchObject({
      error: { code: 'vehicle/marksExact' },
    });
  });
});
