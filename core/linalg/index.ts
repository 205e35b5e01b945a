/** Small typed-array matrices and their factorisations. */
export { addAt, at, indexAt, item } from './at.ts';
export { choleskyInPlace, choleskyInverse, choleskySolve, packedIndex, packedSize } from './cholesky.ts';
export { symmetricEigen } from './eigen.ts';
export {
  determinant3,
  entry,
  identityMatrix,
  type Matrix,
  matrixFromRows,
  multiply,
  transpose,
  zeroMatrix,
} from './matrix.ts';
export { fitNonlinear, type NoFit, type NonlinearFit } from './nonlinearFit.ts';
export { nullSpace } from './nullSpace.ts';
export { type LeastSquaresFit, leastSquares, type RankDeficient } from './qr.ts';
export { type Svd, singularValues } from './svd.ts';
