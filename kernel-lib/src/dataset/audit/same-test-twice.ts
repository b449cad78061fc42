import { diagnostic, type Diagnostic } from "../diagnostics";
import { likelyDuplicates } from "./duplicates";
import type { TestTable } from "../table/test-table";

/** Two tests of different studies that agree within the precision to which tables are printed. */
export interface SameTest {
  readonly rows: readonly [number, number];
  readonly studies: readonly [string, string];
}

/** Relative difference of two values printed with three digits; diameters are also printed as the next whole size. */
const PRINTED = 0.005;
const WORDS = ["bar_material", "action", "setup"] as const;
const NUMBERS = ["embedment_mm", "concrete_strength_MPa", "bar_diameter_mm"] as const;
const DIAMETER = 0.02;
/** Looking at every pair of equal load takes too long in larger tables. */
const MOST_ROWS = 50_000;

/**
 * Tests that two studies, or two folders read together, seem to hold of one specimen: bar material, action and set-up agree, and
 * embedment, concrete strength and load within 0.5 % (three printed digits), the diameter within 2 % (a size for its diameter).
 * Each test is matched once.
 */
export function sameTestTwice(tests: TestTable): SameTest[] {
  const studies = tests.texts("study_id");
  if (tests.length > MOST_ROWS || new Set(studies).size < 2) return [];
  const loads = tests.numbers("peak_load_kN");
  const words = WORDS.map((name) => tests.texts(name));
  const numbers = NUMBERS.map((name) => tests.numbers(name));
  const order = Array.from({ length: tests.length }, (_, i) => i).filter((i) => (loads[i] ?? NaN) > 0).sort((a, b) => loads[a]! - loads[b]!);
  const agree = (a: number, b: number): boolean =>
    words.every((column) => column[a] === column[b]) && numbers.every((column, k) => near(column[a]!, column[b]!, NUMBERS[k] === "bar_diameter_mm" ? DIAMETER : PRINTED));
  const taken = new Set<number>();
  const found: SameTest[] = [];
  order.forEach((a, place) => {
    if (taken.has(a)) return;
    for (let next = place + 1; next < order.length; next++) {
      const b = order[next]!;
      if (!near(loads[a]!, loads[b]!, PRINTED)) break;
      if (taken.has(b) || studies[a] === studies[b] || !agree(a, b)) continue;
      taken.add(a).add(b);
      const rows = a < b ? ([a, b] as const) : ([b, a] as const);
      found.push({ rows, studies: [studies[rows[0]] ?? "", studies[rows[1]] ?? ""] });
      break;
    }
  });
  return found.sort((one, other) => one.rows[0] - other.rows[0]);
}

function near(a: number, b: number, within: number): boolean {
  return Math.abs(a - b) <= within * Math.max(Math.abs(a), Math.abs(b));
}

/** Fewer agreements may be chance among some thousand tests of two laboratories with one programme. */
const NOT_BY_CHANCE = 3;

/** One finding for each two studies: how many tests, and which. A warning from three on, else information. */
export function sameTestFindings(tests: TestTable, file: string): Diagnostic[] {
  const ids = tests.texts("test_id");
  const pairs = new Map<string, SameTest[]>();
  // What agrees to the last digit is listed as a likely duplicate.
  const listed = new Set(likelyDuplicates(tests).flatMap(({ test_ids }) => test_ids));
  for (const one of sameTestTwice(tests)) {
    if (one.rows.every((i) => listed.has(ids[i] ?? ""))) continue;
    const key = [...one.studies].sort().join(" and ");
    pairs.set(key, [...(pairs.get(key) ?? []), one]);
  }
  return [...pairs].map(([studies, found]) => {
    const named = found.slice(0, 4).map(({ rows }) => rows.map((i) => ids[i] ?? "").join(" = "));
    const more = found.length > 4 ? ` and ${String(found.length - 4)} more` : "";
    const n = `${String(found.length)} ${found.length === 1 ? "test" : "tests"}`;
    const message = `${n} of the studies ${studies} agree in bar, embedment, concrete strength and load as far as tables are printed (${named.join(", ")}${more}): expected each specimen in one study`;
    const chance = found.length < NOT_BY_CHANCE;
    return diagnostic(chance ? "information" : "warning", "same-test-in-two-studies", message, { file, column: "test_id", value: named.join(", "), expected: "each specimen once" });
  });
}
