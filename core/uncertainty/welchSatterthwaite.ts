/** Effective degrees of freedom of a combined uncertainty. */

/** One contribution: its standard uncertainty in the unit of the result (|c| u), and its degrees of freedom. */
export interface WeighedContribution {
  readonly u: number;
  readonly dof: number;
}

/**
 * Welch-Satterthwaite, JCGM 100:2008 formula (G.2b): u^4 over the sum of u_i^4 / dof_i. Infinite when every
 * contribution is well known or there is no uncertainty at all.
 */
export function effectiveDof(contributions: readonly WeighedContribution[]): number {
  let variance = 0;
  let spread = 0;
  for (const { u, dof } of contributions) {
    variance += u * u;
    spread += (u * u * u * u) / dof;
  }
  return spread === 0 ? Number.POSITIVE_INFINITY : (variance * variance) / spread;
}
