import { normalDensity, normalIntegral } from "../special/normal-integral";
import { gaussLegendre } from "../special/quadrature";

const DEGREE = 17;
const tables = new Map<number, (Float64Array | undefined)[]>();

/**
 * P(range of k standard normals > w), by Chebyshev interpolation of its logarithm on unit intervals
 * of w, each filled from the exact integral when first asked for: comparisons of many pairs ask for
 * it millions of times. Relative error about 1e-12.
 */
export function rangeTail(w: number, groups: number): number {
  if (w <= 0) return 1;
  if (w >= 50) return 0; // below 1e-270
  let table = tables.get(groups);
  if (!table) tables.set(groups, (table = []));
  const cell = Math.floor(w);
  const coefficients = (table[cell] ??= chebyshev(cell, groups));
  // Clenshaw's recurrence on −1…1.
  const x = 2 * (w - cell) - 1;
  let b1 = 0;
  let b2 = 0;
  for (let j = DEGREE; j >= 1; j--) {
    const b0 = 2 * x * b1 - b2 + coefficients[j]!;
    b2 = b1;
    b1 = b0;
  }
  return Math.min(1, Math.exp(x * b1 - b2 + coefficients[0]!));
}

function chebyshev(cell: number, groups: number): Float64Array {
  const count = DEGREE + 1;
  const angles = Array.from({ length: count }, (_, i) => (Math.PI * (i + 0.5)) / count);
  const values = angles.map((angle) =>
    Math.log(exactRangeTail(cell + 0.5 + 0.5 * Math.cos(angle), groups)),
  );
  return Float64Array.from(
    { length: count },
    (_, j) =>
      ((j === 0 ? 1 : 2) / count) *
      values.reduce((sum, value, i) => sum + value * Math.cos(j * angles[i]!), 0),
  );
}

/**
 * k ∫ φ(z) {Φ(z)^(k−1) − [Φ(z) − Φ(z − w)]^(k−1)} dz, z the largest of the k: positive terms only,
 * so that small tails keep their digits.
 */
function exactRangeTail(w: number, groups: number): number {
  const { nodes, weights } = gaussLegendre(20);
  const power = groups - 1;
  const from = groups < 4 ? -6 : -5;
  const to = Math.max(8.5, w / 2 + 7);
  const panels = Math.ceil((to - from) / 1.5);
  const half = (to - from) / panels / 2;
  let total = 0;
  for (let panel = 0; panel < panels; panel++) {
    for (let i = 0; i < nodes.length; i++) {
      const z = from + half * (2 * panel + 1 + nodes[i]!);
      const below = normalIntegral(z);
      const share = normalIntegral(z - w) / below;
      const lost = share >= 1 ? 1 : -Math.expm1(power * Math.log1p(-share));
      total += half * weights[i]! * normalDensity(z) * Math.pow(below, power) * lost;
    }
  }
  return Math.min(1, groups * total);
}
