import type { Random } from "../random";
import { createFiller } from "./index-words";

/** What is drawn with replacement: rows, or whole clusters; within strata when given. */
export interface ResamplePlan {
  /** Number of rows of the data. */
  readonly rows: number;
  /** Units drawn: each a list of row indices (one row each unless clustered). */
  readonly units: readonly Int32Array[];
  /** Unit indices of each stratum; a single stratum when not stratified. */
  readonly strata: readonly Int32Array[];
  readonly clustered: boolean;
}

/**
 * Plans a bootstrap of `rows` rows.
 *
 * @throws RangeError for labels of another length, fewer than 2 units in all, or a cluster that
 *   lies in two strata
 */
export function planResample(
  rows: number,
  options: { strata?: ArrayLike<string | number>; clusters?: ArrayLike<string | number> } = {},
): ResamplePlan {
  for (const [name, labels] of [
    ["strata", options.strata],
    ["clusters", options.clusters],
  ] as const) {
    if (labels !== undefined && labels.length !== rows)
      throw new RangeError(
        `Bootstrap ${name}: got ${labels.length} labels, expected ${rows}, one per row`,
      );
  }
  const units =
    options.clusters === undefined
      ? Array.from({ length: rows }, (_, i) => Int32Array.of(i))
      : gather(rows, options.clusters);
  if (units.length < 2)
    throw new RangeError(
      `Bootstrap: ${units.length} ${options.clusters === undefined ? "rows" : "clusters"} to draw from, expected at least 2`,
    );
  const { strata: labels } = options;
  if (labels === undefined)
    return {
      rows,
      units,
      strata: [Int32Array.from(units.keys())],
      clustered: options.clusters !== undefined,
    };
  units.forEach((unit) => {
    const odd = unit.find((row) => labels[row] !== labels[unit[0]!]);
    if (odd !== undefined)
      throw new RangeError(
        `Bootstrap: the cluster of row ${odd} lies in strata "${labels[unit[0]!]!}" and "${labels[odd]!}", expected each cluster within one stratum`,
      );
  });
  return {
    rows,
    units,
    strata: gather(
      units.length,
      units.map((unit) => labels[unit[0]!]!),
    ),
    clustered: options.clusters !== undefined,
  };
}

function gather(length: number, labels: ArrayLike<string | number>): Int32Array[] {
  const lists = new Map<string | number, number[]>();
  for (let i = 0; i < length; i += 1) {
    const list = lists.get(labels[i]!);
    if (list === undefined) lists.set(labels[i]!, [i]);
    else list.push(i);
  }
  return [...lists.values()].map((list) => Int32Array.from(list));
}

/**
 * Draws one resample after another into one buffer; the returned view is overwritten by the next
 * draw.
 */
export function createDrawer(plan: ResamplePlan, random: Random): () => Int32Array {
  const { units, strata } = plan;
  if (!plan.clustered) {
    const buffer = new Int32Array(plan.rows);
    if (strata.length === 1) {
      const fill = createFiller(random, buffer.length);
      return () => {
        fill(buffer, 0, buffer.length);
        return buffer;
      };
    }
    const fillers = strata.map((stratum) => createFiller(random, stratum.length));
    return () => {
      let at = 0;
      for (let s = 0; s < strata.length; s += 1) {
        const stratum = strata[s]!;
        fillers[s]!(buffer, at, stratum.length);
        for (let i = 0; i < stratum.length; i += 1, at += 1) buffer[at] = stratum[buffer[at]!]!;
      }
      return buffer;
    };
  }
  // Clusters differ in size, so a resample may be longer than the data.
  const longest = strata.reduce(
    (sum, stratum) =>
      sum + stratum.length * stratum.reduce((top, u) => Math.max(top, units[u]!.length), 0),
    0,
  );
  const buffer = new Int32Array(longest);
  return () => {
    let at = 0;
    for (const stratum of strata) {
      for (let i = 0; i < stratum.length; i += 1) {
        const unit = units[stratum[random.integer(stratum.length)]!]!;
        buffer.set(unit, at);
        at += unit.length;
      }
    }
    return buffer.subarray(0, at);
  };
}

/** Rows left when unit `u` is taken out, for the jackknife. */
export function rowsWithout(plan: ResamplePlan, u: number): Int32Array {
  const out = plan.units[u]!;
  const rows = new Int32Array(plan.rows - out.length);
  let at = 0;
  plan.units.forEach((unit, k) => {
    if (k === u) return;
    rows.set(unit, at);
    at += unit.length;
  });
  return rows;
}
