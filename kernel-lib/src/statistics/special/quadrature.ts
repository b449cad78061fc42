/** Nodes and weights of a quadrature rule on [−1, 1]. */
export interface QuadratureRule {
  nodes: Float64Array;
  weights: Float64Array;
}

const rules = new Map<number, QuadratureRule>();

/**
 * Gauss–Legendre rule with `count` points on [−1, 1]; exact for polynomials up to degree 2·count −
 * 1. Nodes are the roots of the Legendre polynomial, by Newton's method from Tricomi's start.
 */
export function gaussLegendre(count: number): QuadratureRule {
  const known = rules.get(count);
  if (known) return known;
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let iteration = 0; iteration < 50; iteration++) {
      let previous = 1;
      let value = x;
      for (let k = 2; k <= count; k++) {
        const next = ((2 * k - 1) * x * value - (k - 1) * previous) / k;
        previous = value;
        value = next;
      }
      slope = (count * (x * value - previous)) / (x * x - 1);
      const step = value / slope;
      x -= step;
      if (Math.abs(step) < 1e-16) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  const rule = { nodes, weights };
  rules.set(count, rule);
  return rule;
}
