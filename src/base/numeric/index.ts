export {
  type Assignment,
  type AssignmentProblem,
  type CompleteAssignment,
  type IncompleteAssignment,
  leastCostAssignment,
  type Shortage,
} from "./assignment.ts";
export { choleskyFactor, choleskySolve } from "./cholesky.ts";
export {
  addScaledInto,
  type ComplexArray,
  complexArray,
  multiplyInto,
  phaseOf,
  scaleInto,
  squaredMagnitude,
  unwrapped,
} from "./complex-array.ts";
export { columnProducts, gramMatrix, transposedTimes } from "./gram-matrix.ts";
export {
  boundedLeastSquares,
  type LeastSquaresBudget,
  type LeastSquaresLimits,
  type LeastSquaresModel,
  type LeastSquaresResult,
  type LeastSquaresWorkspace,
  leastSquaresWorkspace,
  sumOfSquares,
} from "./least-squares.ts";
export { polynomialRoots, type Root } from "./polynomial-roots.ts";
export { integrationWeights, meanBetween } from "./quadrature.ts";
export { type Random, seededRandom } from "./random.ts";
