import { type Box, emptyBox } from "./matrix";

interface Point {
  readonly x: number;
  readonly y: number;
}

/** How many numbers each path command takes. */
const counts: Record<string, number> = { M: 2, L: 2, T: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, A: 7 };
const segmentsPerCurve = 8;

/**
 * Corner points of an SVG path. Bezier curves become short chords; arcs are taken by the box of
 * their circle's quadrant points, which is exact for the half circles that plotly's markers are
 * made of.
 */
export function pathPoints(d: string | null): Point[] {
  const points: Point[] = [];
  let x = 0;
  let y = 0;
  let start: Point = { x: 0, y: 0 };
  // The letter e is left out: it belongs to numbers such as 1e-7.
  for (const [, command = "", list = ""] of (d ?? "").matchAll(
    /([a-df-zA-DF-Z])([^a-df-zA-DF-Z]*)/g,
  )) {
    const kind = command.toUpperCase();
    if (kind === "Z") {
      x = start.x;
      y = start.y;
      points.push(start);
      continue;
    }
    const v = (list.match(/[-+]?(?:\d*\.\d+|\d+\.?)(?:[eE][-+]?\d+)?/g) ?? []).map(Number);
    const step = counts[kind];
    if (step === undefined) continue;
    const relative = kind !== command;
    for (let i = 0; i + step <= v.length; i += step) {
      const from = { x, y };
      const baseX = relative ? x : 0;
      const baseY = relative ? y : 0;
      const at = (k: number): number => v[i + k] ?? 0;
      if (kind === "H") x = baseX + at(0);
      else if (kind === "V") y = baseY + at(0);
      else {
        x = baseX + at(step - 2);
        y = baseY + at(step - 1);
      }
      if (kind === "C" || kind === "Q") {
        const controls: Point[] = [];
        for (let k = 0; k < step; k += 2) controls.push({ x: baseX + at(k), y: baseY + at(k + 1) });
        points.push(...curve([from, ...controls]));
      } else {
        if (kind === "A") points.push(...aroundChord(from, { x, y }, at(0)));
        points.push({ x, y });
      }
      if (kind === "M" && i === 0) start = { x, y };
    }
  }
  return points;
}

/** De Casteljau's construction at equal steps. */
function curve(controls: readonly Point[]): Point[] {
  return Array.from({ length: segmentsPerCurve }, (_, k) => {
    const t = (k + 1) / segmentsPerCurve;
    let level = [...controls];
    while (level.length > 1) {
      level = level.slice(1).map((to, j) => {
        const from = level[j] ?? to;
        return { x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t };
      });
    }
    return level[0] ?? { x: 0, y: 0 };
  });
}

/** For an arc that is a half circle, the two quadrant points between its ends. */
function aroundChord(from: Point, to: Point, radius: number): Point[] {
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const half = Math.hypot(to.x - from.x, to.y - from.y) / 2;
  if (radius === 0 || half < 0.9 * radius) return [];
  const across = { x: -(to.y - from.y) / (2 * half), y: (to.x - from.x) / (2 * half) };
  return [-1, 1].map((side) => ({
    x: middle.x + side * across.x * radius,
    y: middle.y + side * across.y * radius,
  }));
}

/** The box around the points of an SVG path; empty for a path without points. */
export function pathBox(d: string | null): Box {
  const points = pathPoints(d);
  if (points.length === 0) return emptyBox;
  let left = Infinity;
  let right = -Infinity;
  let top = Infinity;
  let bottom = -Infinity;
  for (const point of points) {
    left = Math.min(left, point.x);
    right = Math.max(right, point.x);
    top = Math.min(top, point.y);
    bottom = Math.max(bottom, point.y);
  }
  return { x: left, y: top, width: right - left, height: bottom - top };
}

/**
 * Length along a path, and the point at a length, as the SVG interface of the same names gives
 * them.
 */
export function pathLength(d: string | null): { total: number; at: (length: number) => Point } {
  const points = pathPoints(d);
  const reached = [0];
  for (let i = 1; i < points.length; i += 1) {
    const a = points[i - 1] as Point;
    const b = points[i] as Point;
    reached.push((reached[i - 1] ?? 0) + Math.hypot(b.x - a.x, b.y - a.y));
  }
  const total = reached[reached.length - 1] ?? 0;
  return {
    total,
    at(length) {
      const wanted = Math.max(0, Math.min(total, length));
      let i = 1;
      while (i < reached.length - 1 && (reached[i] ?? 0) < wanted) i += 1;
      const a = points[i - 1] ?? { x: 0, y: 0 };
      const b = points[i] ?? a;
      const span = (reached[i] ?? 0) - (reached[i - 1] ?? 0) || 1;
      const share = (wanted - (reached[i - 1] ?? 0)) / span;
      return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
    },
  };
}
