/**
 * What readings say about where things are, in the few forms a first guess can use. Kinds of reading translate
 * themselves into these; the construction (plan.ts, heights.ts) knows no kinds. Places and bodies by number, mm, rad.
 */
import type { Vec3 } from '../../geometry/vector.ts';
import type { Matrix } from '../../linalg/matrix.ts';
import { invariant } from '../../result.ts';

/** A plan direction: a line through two places, or a body's x (quarter 0) or y (quarter 1) axis. */
export type DirectionFact =
  | { readonly line: readonly [number, number] }
  | { readonly body: number; readonly quarter: 0 | 1 };

/** The fact form of a direction whose ids were looked up. */
export function factOf(direction: {
  readonly ends: readonly [number, number] | undefined;
  readonly axis: { readonly body: number; readonly quarter: 0 | 1 } | undefined;
}): DirectionFact {
  if (direction.ends !== undefined) return { line: direction.ends };
  invariant(direction.axis !== undefined, 'a plan direction is a line or an axis');
  return direction.axis;
}

/** Distance between two places; `level` when it already is the horizontal one. */
export interface DistanceFact {
  readonly a: number;
  readonly b: number;
  readonly mm: number;
  readonly level: boolean;
}

/** Where a place lies on a directed line through two others: along from the first, or offset to the left. */
export interface LineFact {
  readonly place: number;
  readonly line: readonly [number, number];
  readonly axis: 'along' | 'offset';
  readonly mm: number;
}

/** `mark` lies at `point` plus (along, across) of a direction, in plan. */
export interface DropFact {
  readonly point: number;
  readonly mark: number;
  readonly direction: DirectionFact;
  readonly along: number;
  readonly across: number;
}

/** `place` is `mm` above `above`, or above level zero of the bay frame when that is undefined. */
export interface HeightFact {
  readonly place: number;
  readonly above: number | undefined;
  readonly mm: number;
}

/** Turn from a first direction to a second. */
export interface AngleFact {
  readonly first: DirectionFact;
  readonly second: DirectionFact;
  readonly rad: number;
}

/** One bay coordinate of a place, read directly. */
export interface CoordinateFact {
  readonly place: number;
  readonly axis: 'x' | 'y' | 'z';
  readonly mm: number;
}

/** A component of a body's pose or a shared unknown, read directly, by slot. */
export interface SlotFact {
  readonly slot: number;
  readonly value: number;
}

/** A body seen from another: its origin along the other's axes, and the rotation from its axes to the other's. */
export interface PoseFact {
  readonly body: number;
  readonly reference: number;
  readonly shift: Vec3;
  readonly rotation: Matrix;
}

/** Collected facts. */
export interface StartFacts {
  readonly distances: DistanceFact[];
  readonly lines: LineFact[];
  readonly drops: DropFact[];
  readonly heights: HeightFact[];
  readonly angles: AngleFact[];
  readonly coordinates: CoordinateFact[];
  readonly slots: SlotFact[];
  readonly poses: PoseFact[];
  /** First guess of a shared unknown by slot; 0 for slot -1. */
  readonly sharedStart: (slot: number) => number;
}
