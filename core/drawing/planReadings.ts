/**
 * The readings on the plan: a line or a sign each, touchable, pencil when taken and dotted while missing; the one that
 * comes next in accent. Lines that cross carry their touch area where it is farthest from the others.
 */
import { type ReadingPoint, type ReadingSpec, slotKey } from '../placement/recipe.ts';
import { invariant } from '../result.ts';
import { templateOf } from '../words/index.ts';
import { between, line, sign } from './pieces.ts';
import type { PlanLayout } from './planLayout.ts';
import type { PlanModel, PlanRequest } from './planModel.ts';
import type { SceneItem, ScenePoint, Stroke, Touchable } from './scene.ts';
import type { SheetPoint } from './sceneView.ts';

/** Kinds of reading that lie in the plan; heights, tilts and floor levels belong to the side view. */
const PLAN_KINDS: ReadonlySet<ReadingSpec['kind']> = new Set(['drop', 'distance', 'offset', 'toe', 'slide']);

/** Where along its line a reading may carry its touch area, best first. */
const TOUCH_SHARES = [0.5, 0.35, 0.65, 0.25, 0.75, 0.15, 0.85] as const;

/** The two places a reading joins on the plan. */
export function readingEnds(
  reading: ReadingSpec,
  points: Readonly<Record<ReadingPoint, ScenePoint>>,
): readonly [ScenePoint, ScenePoint] | undefined {
  const [first, second, third] = reading.points;
  if (first === undefined) return undefined;
  if (second === undefined) return [points[first], points[first]];
  if (third === undefined) return [points[first], points[second]];
  return [between(points[first], points[second], 0.5), points[third]];
}

/** The words of a reading, from the catalogue; a reading without words is a bug. */
export function readingWords(reading: ReadingSpec): string {
  const words = templateOf(reading.label);
  invariant(words !== undefined, `no words for ${reading.label}`);
  return words;
}

interface Placed {
  readonly reading: ReadingSpec;
  readonly ends: readonly [ScenePoint, ScenePoint];
  readonly touch: ScenePoint;
}

function distance(a: SheetPoint, b: SheetPoint): number {
  return Math.hypot(a.xPt - b.xPt, a.yPt - b.yPt);
}

/** Gives each reading the touch place farthest from those already given. */
function placeTouches(
  readings: readonly ReadingSpec[],
  model: PlanModel,
  layout: PlanLayout,
): readonly Placed[] {
  const placed: Placed[] = [];
  const drawn = readings.flatMap((reading) => {
    const ends = readingEnds(reading, model.points);
    return ends === undefined ? [] : [{ reading, ends }];
  });
  // Whole steps, so that measuring a car does not make touch places change places.
  const length = ({ ends: [a, b] }: (typeof drawn)[number]): number =>
    Math.round(Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm) / LENGTH_STEP_MM);
  // The shorter a line, the less choice it has: it chooses first.
  for (const { reading, ends } of [...drawn].sort((a, b) => length(a) - length(b))) {
    const [from, to, shares] = touchLine(reading, ends);
    const room = (share: number): number => {
      const at = layout.transform.toSheet(between(from, to, share));
      return Math.min(
        Number.MAX_VALUE,
        ...placed.map((other) => distance(at, layout.transform.toSheet(other.touch))),
      );
    };
    const best = shares.reduce((held, share) => (room(share) > room(held) + 1 ? share : held));
    placed.push({ reading, ends, touch: between(from, to, best) });
  }
  // Walking order again, which is the order of the keyboard.
  return readings.flatMap((reading) => placed.filter((each) => each.reading === reading));
}

/** Lines whose lengths differ by less choose in walking order, mm. */
const LENGTH_STEP_MM = 250;

/** Where a reading's touch place may lie: along its line, at its mark, or for a wheel's toe inside of the wheel. */
function touchLine(
  reading: ReadingSpec,
  [from, to]: readonly [ScenePoint, ScenePoint],
): readonly [ScenePoint, ScenePoint, readonly number[]] {
  if (reading.kind === 'distance' || reading.kind === 'offset') return [from, to, TOUCH_SHARES];
  if (reading.kind === 'toe') return [from, { xMm: from.xMm, yMm: 0 }, [TOE_SHARE]];
  return [from, to, [1]];
}

/** How far from the hub toward the centreline a toe is touched. */
const TOE_SHARE = 0.4;

/** Diameter of a touch area, points: 48 CSS pixels. */
export const TOUCH_PT = 48;

function strokeOf(isNext: boolean, isTaken: boolean, isSuspect: boolean): Stroke {
  if (isSuspect) return { role: 'outside', pen: 'thick', dash: 'dashed' };
  if (isNext) return { role: 'accent', pen: 'thick' };
  return isTaken ? { role: 'pencil', pen: 'thin' } : { role: 'pencil', pen: 'thin', dash: 'dotted' };
}

/** The line of a reading, and a ring about a point that comes next. */
function readingLine(
  { reading, ends, touch }: Placed,
  isNext: boolean,
  isTaken: boolean,
  isSuspect: boolean,
): readonly SceneItem[] {
  const pulse: Touchable = isNext ? { pulse: true } : {};
  const drawn = line(ends, strokeOf(isNext, isTaken, isSuspect), pulse);
  if (isSuspect) return [drawn, sign(touch, 'ring', NEXT_RING_PT, 'outside')];
  const isPoint = reading.kind !== 'distance' && reading.kind !== 'offset';
  return isNext && isPoint ? [drawn, sign(ends[1], 'ring', NEXT_RING_PT, 'accent', pulse)] : [drawn];
}

/** Diameter of the ring about the next point, points. */
const NEXT_RING_PT = 26;

const touchItem = ({ reading, touch }: Placed): SceneItem =>
  sign(touch, 'touch', TOUCH_PT, 'accent', { pick: slotKey(reading), pickLabel: readingWords(reading) });

/** What is drawn of the readings. */
export interface ReadingDrawing {
  readonly lines: readonly SceneItem[];
  readonly next?: ReadingSpec;
}

/** Lines and touch areas of all readings that lie in the plan; the next one last, so that it lies on top. */
export function readingDrawing(request: PlanRequest, model: PlanModel, layout: PlanLayout): ReadingDrawing {
  const slot = request.answer?.nextReading;
  const onScreen = request.medium === 'screen';
  const nextKey = onScreen ? (request.next ?? (slot === undefined ? undefined : slotKey(slot))) : undefined;
  const readings = request.recipe.filter((reading) => PLAN_KINDS.has(reading.kind));
  const placed = placeTouches(readings, model, layout);
  const isNext = (each: Placed): boolean => slotKey(each.reading) === nextKey;
  const ordered = [...placed.filter((each) => !isNext(each)), ...placed.filter(isNext)];
  const next = placed.find(isNext)?.reading;
  const drawn = ordered.flatMap((each) =>
    readingLine(
      each,
      isNext(each),
      request.taken.includes(slotKey(each.reading)),
      request.suspects?.includes(slotKey(each.reading)) === true,
    ),
  );
  return {
    lines: onScreen ? [...drawn, ...placed.map(touchItem)] : drawn,
    ...(next === undefined ? {} : { next }),
  };
}

const SIGN_PT = { hub: 9, mark: 9, linePoint: 9, barEnd: 8 } as const;

/** The signs of hubs, marks and extended points. */
export function pointSigns(model: PlanModel, scale: number): readonly SceneItem[] {
  const role = model.datumKnown ? 'ink' : 'pencil';
  const { points } = model;
  const wheels = ['FL', 'FR', 'RL', 'RR'] as const;
  return [
    ...wheels.map((wheel) =>
      line([points[`hub.${wheel}`], points[`mark.${wheel}`]], { role: 'pencil', pen: 'thin' }),
    ),
    ...wheels.map((wheel) => sign(points[`hub.${wheel}`], 'hub', SIGN_PT.hub * scale, role)),
    ...wheels.map((wheel) => sign(points[`mark.${wheel}`], 'mark', SIGN_PT.mark * scale, role)),
    ...(['ahead.L', 'ahead.R', 'behind.L', 'behind.R'] as const).map((name) =>
      sign(points[name], 'linePoint', SIGN_PT.linePoint * scale, role),
    ),
  ];
}
