/**
 * Adjusts one network again and again with readings that differ by their errors, as a simulation after JCGM 101 wants it:
 * each trial is the full nonlinear least-squares solution of its own readings, to the adjuster's own limit of arrival.
 * First the redundant part of the network is solved, then what follows from it (redundantPart.ts); both in steps that
 * use one factored matrix (laneStage.ts). Neither changes any answer: tests hold trials to the general solver.
 */
import { indexAt } from '../../linalg/at.ts';
import { err, invariant, ok, type Result } from '../../result.ts';
import type { Layout } from '../layout.ts';
import type { Network } from '../network.ts';
import { prepare } from '../problem.ts';
import type { Solution } from '../solution.ts';
import { knownSum, type LaneIds, type LaneReading, laneRow } from './laneRows.ts';
import { LaneStage } from './laneStage.ts';
import { LANES, LaneState } from './laneState.ts';
import { redundantPart } from './redundantPart.ts';

/** Why a network cannot be simulated on lanes: each of its trials has to be solved as a whole. */
export interface NoLanes {
  readonly code: 'adjust/noLanes';
  readonly cause: 'kindOfReading' | 'correlated' | 'exact' | 'freeNetwork' | 'notThisNetwork';
  readonly ids: readonly string[];
}

/** A reading's lanes and its rows. */
interface PlacedRow {
  readonly lanes: LaneReading;
  readonly first: number;
  readonly count: number;
}

/** Many trials of one network, `LANES` at a time. */
export class Readjuster {
  readonly state: LaneState;
  /** What the readings of each trial say, row by row of the solution: written by the caller before `readjust`. */
  readonly observed: Float64Array;
  private readonly layout: Layout;
  private readonly start: Float64Array;
  private readonly stages: readonly LaneStage[];

  constructor(layout: Layout, readings: readonly PlacedRow[], state: LaneState, solution: Solution) {
    const { linearised } = solution;
    const rows = solution.rows.length;
    this.layout = layout;
    this.state = state;
    this.observed = new Float64Array(rows * LANES);
    this.start = new Float64Array(state.numbers.length);
    layout.slots.forEach((slot, s) => {
      const column = indexAt(layout.columns, s);
      const value = column < 0 ? (slot.prior.value ?? 0) : (linearised.x[column] ?? 0);
      this.start.fill(value, s * LANES, (s + 1) * LANES);
    });
    const redundant = redundantPart(linearised, rows, linearised.x.length);
    const solvedFor = Float64Array.from(solution.rows, ({ observed }) => observed);
    this.stages = [true, false].flatMap((inPart) => {
      const own = indices(redundant.rows, inPart);
      const unknowns = indices(redundant.unknowns, inPart);
      if (unknowns.length === 0) return [];
      const taking = readings.filter(({ first, count }) =>
        redundant.rows.slice(first, first + count).includes(inPart),
      );
      const parts = {
        readings: taking.map(({ lanes }) => lanes),
        rows: own,
        unknowns,
        slotOfColumn: layout.slotOfColumn,
        turns: unknowns.some((unknown) => {
          const slot = layout.slots[indexAt(layout.slotOfColumn, unknown)];
          return slot?.of === 'body' && slot.unit === 'rad';
        }),
        solvedFor,
      };
      return [new LaneStage(parts, linearised, this.observed)];
    });
  }

  /** Offset in `state.numbers` of a number of the network, by its id such as `fixture/yaw`. */
  offsetOf(slotId: string): number {
    const slot = this.layout.slots.findIndex(({ id }) => id === slotId);
    invariant(slot >= 0, `no number ${slotId} in the network`);
    return slot * LANES;
  }

  /** Offset of the first of a place's three bay coordinates, which stand `LANES` apart. */
  placeOffset(id: string): number {
    const place = this.layout.placeById.get(id);
    invariant(place !== undefined, `no point ${id} in the network`);
    return this.state.place(place).x;
  }

  /** Offset in `state.rotation` of a body's rotation, nine numbers row by row. */
  rotationOffset(id: string): number {
    const body = this.layout.bodyById.get(id);
    invariant(body !== undefined, `no body ${id} in the network`);
    return 9 * body * LANES;
  }

  /** Solves all lanes for `observed`, leaving their layouts in `state`. Answers the steps made; -1 when a lane did not arrive. */
  readjust(): number {
    this.state.numbers.set(this.start);
    let steps = 0;
    for (const stage of this.stages) {
      const made = stage.solve(this.state);
      if (made < 0) return -1;
      steps += made;
    }
    this.state.update();
    return steps;
  }
}

const indices = (flags: readonly boolean[], value: boolean): readonly number[] =>
  flags.flatMap((flag, i) => (flag === value ? [i] : []));

/** A readjuster of a solved network; fails where the network has something that lanes do not know. */
export function readjuster(network: Network, solution: Solution): Result<Readjuster, NoLanes> {
  const no = (cause: NoLanes['cause'], ids: readonly string[] = []): Result<never, NoLanes> =>
    err({ code: 'adjust/noLanes', cause, ids });
  const prepared = prepare(network);
  if (!prepared.ok || prepared.value.observations.length !== solution.rows.length)
    return no('notThisNetwork');
  const { layout, observations, bound, known, groups } = prepared.value;
  if (groups.length > 0)
    return no(
      'correlated',
      groups.map(({ source }) => source),
    );
  if (solution.gauge.length > 0) return no('freeNetwork');
  const exact = observations.find((one) => one.exact === true);
  if (exact !== undefined) return no('exact', [exact.source]);
  const state = new LaneState(layout);
  const ids = idsOf(layout, state);
  const rows: PlacedRow[] = [];
  let first = 0;
  for (const [r, reading] of network.readings.entries()) {
    const lanes = laneRow(reading, first, ids);
    if (lanes === undefined) return no('kindOfReading', [reading.id]);
    const count = bound[r]?.heads.length ?? 0;
    rows.push({ lanes, first, count });
    first += count;
  }
  for (const slot of known) {
    rows.push({ lanes: knownSum(slot * LANES, first), first, count: 1 });
    first += 1;
  }
  return ok(new Readjuster(layout, rows, state, solution));
}

function idsOf(layout: Layout, state: LaneState): LaneIds {
  const number = (map: ReadonlyMap<string, number>, id: string): number => {
    const found = map.get(id);
    invariant(found !== undefined, `${id} is in the prepared network`);
    return found;
  };
  return {
    place: (id) => state.place(number(layout.placeById, id)),
    body: (id) => {
      const body = number(layout.bodyById, id);
      return { number: body, pose: (layout.bodies[body]?.slot ?? 0) * LANES };
    },
    shared: (id) => (id === undefined ? -1 : number(layout.sharedById, id) * LANES),
  };
}
