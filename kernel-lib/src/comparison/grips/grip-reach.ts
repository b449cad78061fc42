import { modeMargins, type FailureMode } from "../../provisions";
import type { Comparison } from "../comparison";

/** The embedments of one bar size at which a grip lets the mode under study be reached. */
export interface GripReach {
  readonly size: string;
  /** The single specimen away from edges from which the embedment is varied. */
  readonly testId: string;
  readonly diameter_mm: number;
  /** Reliable load of the grip: share x bar area x measured bar strength. */
  readonly grip_kN: number;
  /**
   * Largest embedment up to which the grip carries margin x predicted load; null if none from 2 d.
   */
  readonly embedment_mm: number | null;
  /** True where the search ended at 30 d with the grip still sufficient. */
  readonly beyond: boolean;
  /**
   * Required over reliable grip load at the specimen's own embedment; up to 1 the grip suffices.
   */
  readonly required: number;
}

/** What a grip can be relied on for, and what the mode under study asks of it. */
export interface ReachQuestion {
  readonly mode: FailureMode;
  /** Reliable share of bar strength. */
  readonly share: number;
  /** Required grip load over predicted load of the mode. */
  readonly margin: number;
}

/** Embedments looked at, in bar diameters. */
const [FROM, TO, STEP] = [2, 30, 0.05];

/**
 * The embedments that a grip allows, one answer a bar size, each from an unconfined single specimen
 * away from edges: the one with the median concrete strength among those of the most frequent
 * adhesive and state of cracking. From 2 d to 30 d in steps of 0.05 d; the member is thickened
 * along.
 * @param rows rows of the comparison's tests among which specimens are looked for
 */
export function gripReaches(
  comparison: Comparison,
  rows: Iterable<number>,
  question: ReachQuestion,
): GripReach[] {
  const { tests } = comparison;
  const concretes = tests.numbers("concrete_strength_MPa");
  const plain = [...new Set(rows)].filter(
    (row) =>
      tests.text(row, "setup") !== "confined_tension" &&
      Number.isNaN(tests.number(row, "edge_1_mm")) &&
      !(tests.number(row, "group_nx") > 1) &&
      !(tests.number(row, "group_ny") > 1) &&
      !Number.isNaN(tests.number(row, "bar_area_mm2") * tests.number(row, "bar_strength_MPa")),
  );
  // One adhesive and state of cracking for all sizes, as far as there are tests of it.
  const kind = (row: number): string =>
    `${tests.text(row, "adhesive") ?? ""} ${tests.text(row, "cracked") ?? ""}`;
  const usual = mostFrequent(plain.map(kind));
  const sizeOf = (row: number): string =>
    tests.text(row, "bar_size") ?? `${tests.number(row, "bar_diameter_mm")} mm`;
  return [...new Set(plain.map(sizeOf))]
    .map((size) => {
      const all = plain.filter((row) => sizeOf(row) === size);
      const alike = all.filter((row) => kind(row) === usual);
      const sorted = (alike.length > 0 ? alike : all).sort(
        (a, b) => concretes[a]! - concretes[b]! || a - b,
      );
      return reachOf(comparison, sorted[Math.floor(sorted.length / 2)]!, size, question);
    })
    .sort((a, b) => a.diameter_mm - b.diameter_mm);
}

function mostFrequent(words: readonly string[]): string | undefined {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}

function reachOf(
  { tests, code, prediction: { level } }: Comparison,
  row: number,
  size: string,
  { mode, share, margin }: ReachQuestion,
): GripReach {
  const [d, own] = [tests.number(row, "bar_diameter_mm"), tests.number(row, "member_thickness_mm")];
  const grip = share * tests.number(row, "bar_area_mm2") * tests.number(row, "bar_strength_MPa");
  const n = Math.round((TO - FROM) / STEP) + 1;
  // The last one is the specimen as it was tested.
  const embedment = Float64Array.from({ length: n + 1 }, (_, k) =>
    k === n ? tests.number(row, "embedment_mm") : (FROM + k * STEP) * d,
  );
  const thickness = embedment.map((length) =>
    Math.max(Number.isNaN(own) ? 0 : own, length + 4 * d),
  );
  const changes = { embedment_mm: embedment, member_thickness_mm: thickness };
  const { wanted } = modeMargins(code, tests, row, mode, changes, n + 1, { level });
  const loads = wanted.subarray(0, n);
  const first = loads.findIndex((load) => !Number.isNaN(load));
  const stop = loads.findIndex((load, k) => k >= first && !(grip >= margin * load));
  const last = first < 0 || stop === first ? null : stop < 0 ? n - 1 : stop - 1;
  return {
    size,
    testId: tests.text(row, "test_id") ?? "",
    diameter_mm: d,
    grip_kN: grip / 1000,
    embedment_mm: last === null ? null : embedment[last]!,
    beyond: last === n - 1,
    required: (margin * wanted[n]!) / grip,
  };
}
