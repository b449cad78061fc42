import type { EmbedmentPoint } from "./embedment-interval";

const CLOSER_LOOK = 17;

/** Equal ratios from one length to another, both included. */
export function between(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, k) =>
    k === 0 ? from : k === count - 1 ? to : from * (to / from) ** (k / (count - 1)),
  );
}

/**
 * Points added about every peak and dip of the margin, so that a narrow interval or gap between two
 * points is not missed.
 */
export function withTurns(
  line: readonly EmbedmentPoint[],
  look: (embedments: readonly number[]) => EmbedmentPoint[],
): EmbedmentPoint[] {
  const added = line.slice(1, -1).flatMap((one, k) => {
    const [before, after] = [line[k] as EmbedmentPoint, line[k + 2] as EmbedmentPoint];
    const turns = (one.margin - before.margin) * (after.margin - one.margin) < 0;
    return turns && after.embedment / before.embedment > 1 + 1e-9
      ? between(before.embedment, after.embedment, CLOSER_LOOK).slice(1, -1)
      : [];
  });
  if (added.length === 0) return [...line];
  const known = new Set(line.map(({ embedment }) => embedment));
  return [...line, ...look([...new Set(added)].filter((embedment) => !known.has(embedment)))].sort(
    (a, b) => a.embedment - b.embedment,
  );
}

/**
 * Divides a bracket between an embedment that counts and one that does not until they are
 * neighbours.
 */
export function narrowed(
  low: EmbedmentPoint,
  high: EmbedmentPoint,
  look: (embedments: readonly number[]) => EmbedmentPoint[],
  counts: (one: EmbedmentPoint) => boolean,
): [EmbedmentPoint, EmbedmentPoint] {
  let [a, b] = [low, high];
  while (b.embedment - a.embedment > 1e-15 * b.embedment) {
    const [start, end] = [a.embedment, b.embedment];
    const inner = [...new Set(between(start, end, CLOSER_LOOK).slice(1, -1))].filter(
      (x) => x > start && x < end,
    );
    if (inner.length === 0) break;
    const line = [a, ...look(inner), b];
    const k = line.findIndex((one) => counts(one) !== counts(low));
    [a, b] = [line[k - 1] as EmbedmentPoint, line[k] as EmbedmentPoint];
  }
  return [a, b];
}
