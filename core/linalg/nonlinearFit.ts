/**
 * Nonlinear least squares for small dense models (a curve through calibration points), after Levenberg and Marquardt:
 * each step is solved by QR of the Jacobian with damping rows below it, scaled by the columns' lengths (More, 1978).
 * Networks have their own stepper, which knows gauges and constraints; this one knows only numbers.
 */
import { err, invariant, ok, type Result } from '../result.ts';
import { at } from './at.ts';
import { type Matrix, zeroMatrix } from './matrix.ts';
import { type LeastSquaresFit, leastSquares } from './qr.ts';

/** Where a fit arrived; `x` are the parameters, the cofactor that of the last undamped Jacobian. */
export interface NonlinearFit extends LeastSquaresFit {
  readonly iterations: number;
}

/** Why a fit did not arrive. */
export type NoFit =
  | { readonly code: 'linalg/notConverged'; readonly iterations: number }
  /** The residuals do not depend on this parameter where the fit stopped, or not apart from those before it. */
  | { readonly code: 'linalg/rankDeficient'; readonly column: number };

const FIRST_DAMPING = 1e-3;
const MOST_DAMPING = 1e16;
/** A step that changes every parameter by less than this share of itself has arrived: ten rounding errors. */
const ARRIVED = 2e-15;
/** Relative step of a central difference: the cube root of a double's rounding balances its two errors. */
const DIFFERENCE = 6e-6;

/** Minimises the squares of `residuals` from `start`. Parameters of zero are moved by absolute steps. */
export function fitNonlinear(
  residuals: (parameters: readonly number[]) => readonly number[],
  start: readonly number[],
  mostIterations = 500,
): Result<NonlinearFit, NoFit> {
  let x = start;
  let r = residuals(x);
  let squares = sumOfSquares(r);
  invariant(Number.isFinite(squares), 'the residuals at the start are numbers');
  let damping = FIRST_DAMPING;
  for (let iterations = 1; iterations <= mostIterations; iterations++) {
    const jacobian = differences(residuals, x, r.length);
    const step = dampedStep(jacobian, r, damping);
    const next = x.map((value, j) => value - at(step, j));
    const nextResiduals = residuals(next);
    const nextSquares = sumOfSquares(nextResiduals);
    const small = x.every((value, j) => Math.abs(at(step, j)) <= ARRIVED * Math.abs(value));
    if (nextSquares < squares) {
      x = next;
      r = nextResiduals;
      squares = nextSquares;
      damping /= 10;
    } else {
      damping *= 8;
    }
    if (small || damping > MOST_DAMPING) return finished(residuals, x, r, iterations);
  }
  return err({ code: 'linalg/notConverged', iterations: mostIterations });
}

/** The statistics where the fit stands; a stall far from flat is no arrival. */
function finished(
  residuals: (parameters: readonly number[]) => readonly number[],
  x: readonly number[],
  r: readonly number[],
  iterations: number,
): Result<NonlinearFit, NoFit> {
  const fit = leastSquares(differences(residuals, x, r.length), r);
  if (!fit.ok) return fit;
  const { x: last, cofactor, dof } = fit.value;
  const squares = sumOfSquares(r);
  // What an undamped step could still gain, against what is there: nothing, at a minimum.
  const gain = squares - fit.value.residualSquares;
  if (gain > 1e-9 * squares) return err({ code: 'linalg/notConverged', iterations });
  const polished = x.map((value, j) => value - at(last, j));
  const better = sumOfSquares(residuals(polished)) <= squares * (1 + 1e-12);
  const parameters = Float64Array.from(better ? polished : x);
  return ok({ x: parameters, cofactor, residualSquares: squares, dof, iterations });
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}

/** Central differences of every residual by every parameter. */
function differences(
  residuals: (parameters: readonly number[]) => readonly number[],
  x: readonly number[],
  rows: number,
): Matrix {
  const jacobian = zeroMatrix(rows, x.length);
  x.forEach((value, j) => {
    const h = DIFFERENCE * (Math.abs(value) || 1);
    const moved = (by: number) => residuals(x.map((other, k) => (k === j ? other + by : other)));
    const [above, below] = [moved(h), moved(-h)];
    for (let i = 0; i < rows; i++) {
      jacobian.data[i * x.length + j] = ((above[i] ?? Number.NaN) - (below[i] ?? Number.NaN)) / (2 * h);
    }
  });
  return jacobian;
}

/** Solves the damped step by QR of the Jacobian over a diagonal of its own column lengths. */
function dampedStep(jacobian: Matrix, r: readonly number[], damping: number): Float64Array {
  const { rows, columns: n } = jacobian;
  const stacked = zeroMatrix(rows + n, n);
  stacked.data.set(jacobian.data);
  for (let j = 0; j < n; j++) {
    let length = 0;
    for (let i = 0; i < rows; i++) length += at(jacobian.data, i * n + j) * at(jacobian.data, i * n + j);
    stacked.data[(rows + j) * n + j] = Math.sqrt(damping * (length || 1));
  }
  const solved = leastSquares(stacked, [...r, ...Array.from({ length: n }, () => 0)]);
  // Damping rows make every column independent unless they underflow; then no step is better than a wild one.
  return solved.ok ? solved.value.x : new Float64Array(n);
}
