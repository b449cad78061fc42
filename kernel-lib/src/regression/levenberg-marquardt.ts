import { applyTransposedQ, factorise, solveUpper } from "../statistics/linear-algebra";
import { RegressionError } from "./regression-error";

/** Fitted values and their derivatives (one array a parameter) at given parameters. */
export type ResidualModel = (parameters: Float64Array) => {
  fitted: Float64Array;
  jacobian: Float64Array[];
};

export interface FoundMinimum {
  readonly parameters: Float64Array;
  readonly residuals: Float64Array;
  readonly jacobian: readonly Float64Array[];
  readonly sumOfSquares: number;
  readonly steps: number;
}

interface Point {
  readonly parameters: Float64Array;
  readonly residuals: Float64Array;
  readonly jacobian: Float64Array[];
  readonly sumOfSquares: number;
}

/**
 * Levenberg-Marquardt with column scaling, tried in up to three ways: each step solves min |r - J
 * d|^2 + lambda |D d|^2 by QR, D the largest column norms of J so far (More 1978), lambda by the
 * gain ratio (Nielsen 1999). Ends when the relative gain to be had and the step are at rounding.
 *
 * @throws RegressionError no_convergence with the reason
 */
export function searchMinimum(
  model: ResidualModel,
  y: Float64Array,
  start: Float64Array,
  maxSteps: number,
): FoundMinimum {
  let failure: RegressionError | null = null;
  for (const strategy of STRATEGIES) {
    try {
      const found = searchOnce(model, y, start, maxSteps, strategy);
      const flat = found.jacobian.findIndex(
        (column, j) => norm(column) * Math.abs(found.parameters[j]!) < 1e-9 * norm(y),
      );
      if (flat < 0) return found;
      failure = new RegressionError(
        "no_convergence",
        `The search ended on a plateau where parameter ${flat + 1} has no effect on the fitted values (sum of squares ${found.sumOfSquares}): expected a better start`,
      );
    } catch (error) {
      if (!(error instanceof RegressionError)) throw error;
      failure = error;
    }
  }
  throw failure ?? new RegressionError("no_convergence", "No search was made");
}

/**
 * First damping, and whether the scaling remembers the largest slopes; a failed search is tried the
 * other ways.
 */
interface Strategy {
  readonly damping: number;
  readonly remember: number;
}
const STRATEGIES: readonly Strategy[] = [
  { damping: 1, remember: 1 },
  { damping: 1, remember: 1e-8 },
  { damping: 1e4, remember: 1 },
];

function searchOnce(
  model: ResidualModel,
  y: Float64Array,
  start: Float64Array,
  maxSteps: number,
  strategy: Strategy,
): FoundMinimum {
  const p = start.length;
  let at = evaluate(model, y, start);
  if (
    !Number.isFinite(at.sumOfSquares) ||
    at.jacobian.some((c) => c.some((v) => !Number.isFinite(v)))
  )
    throw new RegressionError(
      "no_convergence",
      "The model has no finite value or slope at the start: expected a start inside its range",
    );
  const scale = at.jacobian.map(norm).map((v) => (v > 0 ? v : 1));
  let lambda = strategy.damping;
  let growth = 2;
  let quiet = 0;
  for (let step = 1; step <= maxSteps; step += 1) {
    at.jacobian.forEach((column, j) => {
      scale[j] = Math.max(strategy.remember * scale[j]!, norm(column));
    });
    const move = dampedStep(at, scale, lambda);
    const trial = evaluate(
      model,
      y,
      at.parameters.map((v, j) => v + move[j]!),
    );
    const linear = at.residuals.map(
      (r, i) => r - at.jacobian.reduce((sum, column, j) => sum + column[i]! * move[j]!, 0),
    );
    const damping = lambda * move.reduce((sum, d, j) => sum + (d * scale[j]!) ** 2, 0);
    const foreseen = at.sumOfSquares - squares(linear) + damping;
    const gain = at.sumOfSquares - trial.sumOfSquares;
    const size = Math.max(
      ...Array.from(move, (d, j) => Math.abs(d) / (Math.abs(at.parameters[j]!) + 1e-300)),
    );
    const accepted =
      Number.isFinite(trial.sumOfSquares) &&
      gain >= 0 &&
      trial.jacobian.every((c) => c.every((v) => Number.isFinite(v)));
    const tiny = foreseen <= 1e-15 * at.sumOfSquares || size < 1e-13 || at.sumOfSquares === 0;
    if (accepted) {
      at = trial;
      const quality = foreseen > 0 ? gain / foreseen : 1;
      lambda = Math.max(1e-20, lambda * Math.max(1 / 10, 1 - (2 * quality - 1) ** 3));
      growth = 2;
    } else {
      lambda *= growth;
      growth = Math.min(growth * 2, 64);
    }
    // Two quiet Gauss-Newton-like steps in a row: what is left is rounding.
    quiet = tiny ? quiet + 1 : 0;
    if ((quiet >= 3 && p > 0) || at.sumOfSquares === 0) return { ...at, steps: step };
    if (lambda > 1e40)
      throw new RegressionError(
        "no_convergence",
        `The search stalled after ${step} steps at sum of squares ${at.sumOfSquares}: expected a better start or fewer parameters`,
      );
  }
  throw new RegressionError(
    "no_convergence",
    `No minimum within ${maxSteps} steps (sum of squares ${at.sumOfSquares}): expected a better start or more steps`,
  );
}

function evaluate(model: ResidualModel, y: Float64Array, parameters: Float64Array): Point {
  const { fitted, jacobian } = model(parameters);
  const residuals = y.map((v, i) => v - fitted[i]!);
  return { parameters, residuals, jacobian, sumOfSquares: squares(residuals) };
}

/** d of the stacked problem [J; sqrt(lambda) D] d = [r; 0]. */
function dampedStep(at: Point, scale: readonly number[], lambda: number): Float64Array {
  const n = at.residuals.length;
  const p = at.parameters.length;
  const root = Math.sqrt(lambda);
  const columns = at.jacobian.map((column, j) => {
    const stacked = new Float64Array(n + p);
    stacked.set(column);
    stacked[n + j] = root * scale[j]!;
    return stacked;
  });
  const right = new Float64Array(n + p);
  right.set(at.residuals);
  const result = factorise(columns, 0);
  if (result.kind === "rank_deficient")
    throw new RegressionError(
      "no_convergence",
      "The slopes of the model vanish or coincide along the search: expected a better start or fewer parameters",
    );
  return solveUpper(result.qr, applyTransposedQ(result.qr, right));
}

function squares(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i += 1) sum += values[i]! * values[i]!;
  return sum;
}

function norm(values: Float64Array): number {
  return Math.sqrt(squares(values));
}
