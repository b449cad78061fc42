/** Affine matrix (a, b, c, d, e, f) as SVG writes it: x' = a x + c y + e, y' = b x + d y + f. */
export type Matrix = readonly [number, number, number, number, number, number];

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const identity: Matrix = [1, 0, 0, 1, 0, 0];
export const emptyBox: Box = { x: 0, y: 0, width: 0, height: 0 };

/** The transformation that applies n first, then m. */
export function multiply(m: Matrix, n: Matrix): Matrix {
  return [
    m[0] * n[0] + m[2] * n[1],
    m[1] * n[0] + m[3] * n[1],
    m[0] * n[2] + m[2] * n[3],
    m[1] * n[2] + m[3] * n[3],
    m[0] * n[4] + m[2] * n[5] + m[4],
    m[1] * n[4] + m[3] * n[5] + m[5],
  ];
}

/** Reads an SVG `transform` attribute; functions that plotly never writes (skew) are left out. */
export function parseTransform(transform: string | null): Matrix {
  let m = identity;
  for (const [, name = "", list = ""] of (transform ?? "").matchAll(/(\w+)\(([^)]*)\)/g)) {
    const v = list
      .split(/[\s,]+/)
      .filter((part) => part !== "")
      .map(Number);
    const at = (i: number, otherwise: number): number => v[i] ?? otherwise;
    if (name === "translate") m = multiply(m, [1, 0, 0, 1, at(0, 0), at(1, 0)]);
    else if (name === "scale") m = multiply(m, [at(0, 1), 0, 0, at(1, at(0, 1)), 0, 0]);
    else if (name === "rotate") m = multiply(m, rotation(at(0, 0), at(1, 0), at(2, 0)));
    else if (name === "matrix")
      m = multiply(m, [at(0, 1), at(1, 0), at(2, 0), at(3, 1), at(4, 0), at(5, 0)]);
  }
  return m;
}

function rotation(degrees: number, x: number, y: number): Matrix {
  const angle = (degrees * Math.PI) / 180;
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return [c, s, -s, c, x - c * x + s * y, y - s * x - c * y];
}

/** The upright box around a transformed box. */
export function transformBox(box: Box, m: Matrix): Box {
  const corners = [
    [box.x, box.y],
    [box.x + box.width, box.y],
    [box.x, box.y + box.height],
    [box.x + box.width, box.y + box.height],
  ].map(([x = 0, y = 0]) => [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]] as const);
  const xs = corners.map((corner) => corner[0]);
  const ys = corners.map((corner) => corner[1]);
  const x = Math.min(...xs);
  const y = Math.min(...ys);
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

/** The least box around two boxes. */
export function joinBoxes(a: Box, b: Box): Box {
  const x = Math.min(a.x, b.x);
  const y = Math.min(a.y, b.y);
  return {
    x,
    y,
    width: Math.max(a.x + a.width, b.x + b.width) - x,
    height: Math.max(a.y + a.height, b.y + b.height) - y,
  };
}
