import { diagnostic, type Diagnostic } from "../diagnostics";
import { TEST_COLUMNS } from "../schema/test-columns";
import type { TestTable } from "../table/test-table";

/** Rows whose loads follow one power of one column exactly. */
export interface PowerOfColumn {
  readonly study: string;
  readonly column: string;
  readonly exponent: number;
  /** Rows of the blocks, in order. */
  readonly rows: readonly number[];
  /** Blocks of rows that are equal but for the column and the load. */
  readonly blocks: number;
}

const COLUMNS = ["concrete_strength_MPa", "embedment_mm", "bar_diameter_mm", "cover_mm"] as const;
/** What follows from the load or only names the row. */
const BESIDE = new Set(["peak_load_kN", "reported_bond_strength_MPa", "peak_bar_stress_MPa", "slip_at_peak_mm", "load_sd_kN", "crack_width_mm"]);
/** Tests of one kind scatter by 5 % and more; a load with three printed digits is off a power by 0.5 % at most. */
const EXACT = 0.004;
/** Pairs of rows that must follow the power before it is believed, and blocks they must lie in. */
const LEAST_PAIRS = 10;
const LEAST_BLOCKS = 3;
/** Larger tables are not looked through: every row is written out as a key. */
const MOST_ROWS = 50_000;

/**
 * Rows that look generated rather than tested: blocks of rows equal in every number but one column and the load, in which the load goes
 * with one and the same power of that column, without the scatter that tests have. Looked for within each study.
 * @returns what was found, the column with the most rows first; exponents to three digits
 */
export function powersOfColumn(tests: TestTable): PowerOfColumn[] {
  if (tests.length > MOST_ROWS) return [];
  const studies = tests.texts("study_id");
  const byStudy = grouped(studies.keys(), (i) => studies[i] ?? "");
  const numeric = TEST_COLUMNS.filter(({ kind, name }) => (kind === "number" || kind === "integer") && !BESIDE.has(name)).map(({ name }) => name);
  const cells = new Map(numeric.map((name) => [name, tests.numbers(name)]));
  const [materials, modes] = [tests.texts("bar_material"), tests.texts("setup")];
  return [...byStudy].flatMap(([study, rows]) => COLUMNS.flatMap((column) => {
    // What goes along with the column, such as the area with the diameter, is not what keeps two rows apart.
    const others = numeric.filter((name) => name !== column && !(column === "bar_diameter_mm" && ["bar_area_mm2", "hole_diameter_mm"].includes(name)));
    const key = (i: number): string => `${materials[i] ?? ""} ${modes[i] ?? ""} ${others.map((name) => cells.get(name)?.[i] ?? "").join(" ")}`;
    return powerIn(tests, study, column, [...grouped(rows, key).values()].filter((block) => block.length > 1)) ?? [];
  })).sort((a, b) => b.rows.length - a.rows.length);
}

function grouped(rows: Iterable<number>, key: (i: number) => string): Map<string, number[]> {
  const groups = new Map<string, number[]>();
  for (const i of rows) {
    const known = groups.get(key(i));
    if (known) known.push(i);
    else groups.set(key(i), [i]);
  }
  return groups;
}

function powerIn(tests: TestTable, study: string, column: (typeof COLUMNS)[number], blocks: readonly number[][]): PowerOfColumn | null {
  const [x, load] = [tests.numbers(column), tests.numbers("peak_load_kN")];
  const pairs = blocks.flatMap((block, b) => block.slice(1).flatMap((i) => {
    const first = block[0]!;
    const [dx, dy] = [Math.log(x[i]! / x[first]!), Math.log(load[i]! / load[first]!)];
    return Math.abs(dx) > 0.05 && Number.isFinite(dy) ? [{ b, i, first, dx, dy }] : [];
  }));
  if (pairs.length < LEAST_PAIRS || new Set(pairs.map(({ b }) => b)).size < LEAST_BLOCKS) return null;
  const exponents = pairs.map(({ dx, dy }) => dy / dx).sort((a, b) => a - b);
  const exponent = exponents[Math.floor(exponents.length / 2)]!;
  const follow = pairs.filter(({ dx, dy }) => Math.abs(dy - exponent * dx) < EXACT);
  const held = new Set(follow.map(({ b }) => b));
  if (follow.length < 0.9 * pairs.length || held.size < LEAST_BLOCKS) return null;
  const rows = [...new Set(follow.flatMap(({ i, first }) => [i, first]))].sort((a, b) => a - b);
  return { study, column, exponent: Number(exponent.toPrecision(3)), rows, blocks: held.size };
}

/** The same as warnings. */
export function generatedRowFindings(tests: TestTable, file: string): Diagnostic[] {
  const ids = tests.texts("test_id");
  return powersOfColumn(tests).map(({ study, column, exponent, rows, blocks }) => {
    const first = rows.slice(0, 3).map((i) => ids[i] ?? "").join(", ");
    const message = `${String(rows.length)} rows of ${study} (${first}, ...) form ${String(blocks)} blocks that are equal but for ${column}, and their loads go with its power ${String(exponent)} within 0.4 %: tests scatter by more, so these look generated, expected tests`;
    return diagnostic("warning", "loads-follow-a-power", message, { file, column: "peak_load_kN", value: null, expected: "loads that were measured" });
  });
}
