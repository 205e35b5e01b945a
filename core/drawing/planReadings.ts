/**
 * The readings on the plan: a line or a sign each, touchable, pencil when taken and dotted while missing; the one that
 * comes next in accent. Lines that cross carry their touch area where it is farthest from the others.
 */
import { type ReadingPoint, type ReadingSpec, slotKey } from '../placement/recipe.ts';
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

/** The words of a reading for a reader for the blind. */
function labelOf(reading: ReadingSpec): string {
  return templateOf(reading.label) ?? reading.id;
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
  for (const reading of readings) {
    const ends = readingEnds(reading, model.points);
    if (ends === undefined) continue;
    const room = (share: number): number => {
      const at = layout.transform.toSheet(between(ends[0], ends[1], share));
      return Math.min(
        Number.MAX_VALUE,
        ...placed.map((other) => distance(at, layout.transform.toSheet(other.touch))),
      );
    };
    const shares = reading.kind === 'distance' || reading.kind === 'offset' ? TOUCH_SHARES : [1];
    const best = shares.reduce<number>(
      (held, share) => (room(share) > room(held) + 1 ? share : held),
      shares[0] ?? 1,
    );
    placed.push({ reading, ends, touch: between(ends[0], ends[1], best) });
  }
  return placed;
}

/** Diameter of a touch area, points: 48 CSS pixels. */
export const TOUCH_PT = 48;

function strokeOf(isNext: boolean, isTaken: boolean): Stroke {
  if (isNext) return { role: 'accent', pen: 'thick' };
  return isTaken ? { role: 'pencil', pen: 'thin' } : { role: 'pencil', pen: 'thin', dash: 'dotted' };
}

function readingItems(
  placed: Placed,
  isNext: boolean,
  isTaken: boolean,
  touchable: boolean,
): readonly SceneItem[] {
  const { reading, ends, touch } = placed;
  const pulse: Touchable = isNext ? { pulse: true } : {};
  const drawn: SceneItem = line(ends, strokeOf(isNext, isTaken), pulse);
  const area: SceneItem = {
    kind: 'symbol',
    at: touch,
    shape: 'touch',
    sizePt: TOUCH_PT,
    role: 'accent',
    pick: slotKey(reading),
    pickLabel: labelOf(reading),
  };
  const ring: readonly SceneItem[] =
    isNext && reading.kind !== 'distance' && reading.kind !== 'offset'
      ? [{ ...sign(ends[1], 'ring', 26, 'accent'), pulse: true }]
      : [];
  return touchable ? [drawn, ...ring, area] : [drawn];
}

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
  return {
    lines: ordered.flatMap((each) =>
      readingItems(each, isNext(each), request.taken.includes(slotKey(each.reading)), onScreen),
    ),
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
