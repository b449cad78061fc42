import { diagnostic, type Diagnostic } from "../diagnostics";
import { likelyDuplicates } from "./duplicates";
import { nearCells } from "./near-cells";
import { wordCodes } from "./word-codes";
import type { TestTable } from "../table/test-table";

/** Two tests of different studies that agree within the precision to which tables are printed. */
export interface SameTest {
  readonly rows: readonly [number, number];
  readonly studies: readonly [string, string];
}

/**
 * Relative difference of two values printed with three digits; diameters are also printed as the
 * next whole size.
 */
const PRINTED = 0.005;
const WORDS = ["bar_material", "action", "setup"] as const;
const DIAMETER = 0.02;

/**
 * Tests that two studies, or two folders read together, seem to hold of one specimen: bar material,
 * action and set-up agree, and embedment, concrete strength and load within 0.5 % (three printed
 * digits), the diameter within 2 % (a size for its diameter). Each test is matched once.
 */
export function sameTestTwice(tests: TestTable): SameTest[] {
  const studies = wordCodes(tests, "study_id");
  const names = tests.texts("study_id");
  if (!Array.prototype.some.call(studies, (study: number) => study !== studies[0])) return [];
  const [load, embedment, strength, diameter] = (
    ["peak_load_kN", "embedment_mm", "concrete_strength_MPa", "bar_diameter_mm"] as const
  ).map((name) => tests.numbers(name)) as [Float64Array, Float64Array, Float64Array, Float64Array];
  const visitNear = nearCells({
    kinds: kindsOf(tests),
    groups: studies,
    numbers: [load, embedment, strength],
    within: PRINTED,
  });
  const agree = (a: number, b: number): boolean =>
    near(load[a]!, load[b]!, PRINTED) &&
    near(embedment[a]!, embedment[b]!, PRINTED) &&
    near(strength[a]!, strength[b]!, PRINTED) &&
    near(diameter[a]!, diameter[b]!, DIAMETER);
  const follows = (a: number, b: number): boolean =>
    load[b]! > load[a]! || (load[b] === load[a] && b > a);
  const taken = new Uint8Array(tests.length);
  const found: SameTest[] = [];
  for (const a of Uint32Array.from(load, (_, i) => i)
    .filter((i) => load[i]! > 0)
    .sort((one, other) => load[one]! - load[other]! || one - other)) {
    if (taken[a] === 1) continue;
    // The next higher load that agrees.
    let partner = -1;
    visitNear(a, (b) => {
      if (taken[b] === 0 && follows(a, b) && (partner < 0 || follows(b, partner)) && agree(a, b))
        partner = b;
    });
    if (partner < 0) continue;
    taken[a] = taken[partner] = 1;
    const rows = a < partner ? ([a, partner] as const) : ([partner, a] as const);
    found.push({ rows, studies: [names[rows[0]] ?? "", names[rows[1]] ?? ""] });
  }
  return found.sort((one, other) => one.rows[0] - other.rows[0]);
}

/** A number for each different bar material, action and set-up together. */
function kindsOf(tests: TestTable): Uint32Array {
  const columns = WORDS.map((name) => wordCodes(tests, name));
  const places = new Map<number, number>();
  return Uint32Array.from({ length: tests.length }, (_, i) => {
    const key = columns.reduce((sum, codes) => sum * 65_536 + codes[i]!, 0);
    const place = places.get(key) ?? places.size;
    places.set(key, place);
    return place;
  });
}

function near(a: number, b: number, within: number): boolean {
  return Math.abs(a - b) <= within * Math.max(Math.abs(a), Math.abs(b));
}

/**
 * Fewer agreements may be chance among some thousand tests of two laboratories with one programme.
 */
const NOT_BY_CHANCE = 3;

/**
 * One finding for each two studies: how many tests, and which. A warning from three on, else
 * information.
 */
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
    return diagnostic(chance ? "information" : "warning", "same-test-in-two-studies", message, {
      file,
      column: "test_id",
      value: named.join(", "),
      expected: "each specimen once",
    });
  });
}
