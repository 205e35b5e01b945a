/**
 * Integrals of smooth functions by Gauss-Legendre rules on equal panels. Nodes are found by Newton's method on the
 * Legendre polynomial (Abramowitz & Stegun 25.4.29); sixteen per panel are exact for polynomials of degree 31.
 */
import { invariant } from '../result.ts';

const NODES = 16;

interface Node {
  /** In (-1, 1). */
  readonly place: number;
  readonly weight: number;
}

function legendreNodes(n: number): readonly Node[] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    // Newton doubles the digits each time: from this start five rounds are more than enough.
    for (let round = 0; round < 8; round++) {
      let [p0, p1] = [1, x];
      for (let k = 2; k <= n; k++) [p0, p1] = [p1, ((2 * k - 1) * x * p1 - (k - 1) * p0) / k];
      slope = (n * (x * p1 - p0)) / (x * x - 1);
      x -= p1 / slope;
    }
    return { place: x, weight: 2 / ((1 - x * x) * slope * slope) };
  });
}

const RULE = legendreNodes(NODES);

/** Integral of `f` from `from` to `to`, in `panels` equal parts. */
export function integral(f: (x: number) => number, from: number, to: number, panels = 8): number {
  invariant(
    Number.isFinite(from) && Number.isFinite(to),
    `an integral has finite ends, got ${from} and ${to}`,
  );
  const half = (to - from) / panels / 2;
  let sum = 0;
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half;
    for (const { place, weight } of RULE) sum += weight * f(middle + half * place);
  }
  return sum * half;
}
