/**
 * Draws what the readings of a trial say: each reading, and each thing known beforehand, about its own value, by what is
 * known of it (JCGM 101:2008, 6.4): normal for a well-known u, Student's t with u as its scale for a u of few degrees of
 * freedom (6.4.9.7), rectangular where limits alone are known (6.4.2.4), such as the class of a tape.
 */
import { at } from '../../linalg/at.ts';
import type { Random } from '../../uncertainty/random.ts';
import { sampler } from '../../uncertainty/sampler.ts';
import { EXPANDABLE_DOF, tFromNormal, zigguratNormal } from '../../uncertainty/ziggurat.ts';
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
  const normal = zigguratNormal(random);
  const draws = rows.map((knowledge) => drawOf(knowledge, random, normal));
  const middle = Float64Array.from(rows, ({ row }) => row.observed);
  return (observed) => {
    for (let r = 0; r < draws.length; r++) {
      const draw = draws[r];
      if (draw === undefined) continue;
      const centre = at(middle, r);
      for (let i = 0; i < LANES; i++) observed[r * LANES + i] = centre + draw();
    }
  };
}

function drawOf({ row: { u }, dof, flat }: RowKnowledge, random: Random, normal: () => number): () => number {
  if (flat) {
    const half = Math.sqrt(3) * u;
    return () => half * (2 * random.uniform() - 1);
  }
  if (dof === Number.POSITIVE_INFINITY) return () => u * normal();
  if (dof >= EXPANDABLE_DOF) return () => u * tFromNormal(normal(), dof);
  return sampler({ kind: 't', mean: 0, scale: u, dof }, random);
}
