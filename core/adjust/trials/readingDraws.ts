/**
 * Draws what the readings of a trial say: each reading, and each thing known beforehand, about its own value, by what is
 * known of it (JCGM 101:2008, 6.4): normal for a well-known u, Student's t with u as its scale for a u of few degrees of
 * freedom (6.4.9.7), rectangular where limits alone are known (6.4.2.4), such as the class of a tape.
 */
import { at } from '../../linalg/at.ts';
import type { Random } from '../../uncertainty/random.ts';
import { sampler } from '../../uncertainty/sampler.ts';
import { EXPANDABLE_DOF, tFromNormal, zigguratFill } from '../../uncertainty/ziggurat.ts';
import type { RowResult } from '../solution.ts';
import { LANES } from './laneState.ts';

/** One row's distribution as lanes draw it. */
export interface RowKnowledge {
  readonly row: RowResult;
  readonly dof: number;
  /** True when `u` comes from limits alone. */
  readonly flat: boolean;
}

/** Fills the readings of all lanes: row by row, `LANES` numbers each. */
export function readingDraws(
  rows: readonly RowKnowledge[],
  random: Random,
): (observed: Float64Array) => void {
  const fill = zigguratFill(random);
  const draws = rows.map((knowledge) => drawOf(knowledge, random));
  const middle = Float64Array.from(rows, ({ row }) => row.observed);
  const u = Float64Array.from(rows, ({ row }) => row.u);
  const dof = Float64Array.from(rows, (knowledge) => knowledge.dof);
  return (observed) => {
    for (let r = 0; r < draws.length; r++) {
      const first = r * LANES;
      const draw = draws[r];
      if (draw === undefined) {
        fill(observed, first, first + LANES);
        spread(observed, first, at(middle, r), at(u, r), at(dof, r));
      } else {
        const centre = at(middle, r);
        for (let i = first; i < first + LANES; i++) observed[i] = centre + draw();
      }
    }
  };
}

/** Makes one row of standard normal numbers into what is known of its reading. */
function spread(numbers: Float64Array, first: number, centre: number, u: number, dof: number): void {
  if (dof === Number.POSITIVE_INFINITY) {
    for (let i = first; i < first + LANES; i++) numbers[i] = centre + u * at(numbers, i);
  } else {
    for (let i = first; i < first + LANES; i++) numbers[i] = centre + u * tFromNormal(at(numbers, i), dof);
  }
}

/** How a row is drawn that is not made of a normal number: rectangular, or of too few degrees of freedom. */
function drawOf({ row: { u }, dof, flat }: RowKnowledge, random: Random): (() => number) | undefined {
  if (flat) {
    const half = Math.sqrt(3) * u;
    return () => half * (2 * random.uniform() - 1);
  }
  return dof >= EXPANDABLE_DOF ? undefined : sampler({ kind: 't', mean: 0, scale: u, dof }, random);
}
