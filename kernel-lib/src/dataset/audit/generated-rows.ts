import { diagnostic, type Diagnostic } from "../diagnostics";
import { TEST_COLUMNS } from "../schema/test-columns";
import type { TestTable } from "../table/test-table";
import { RowsAlike } from "./rows-alike";
import { wordCodes } from "./word-codes";

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
const BESIDE = new Set([
  "peak_load_kN",
  "reported_bond_strength_MPa",
  "peak_bar_stress_MPa",
  "slip_at_peak_mm",
  "load_sd_kN",
  "crack_width_mm",
  "grip_break_stress_MPa",
]);
/**
 * Tests of one kind scatter by 5 % and more; a load with three printed digits is off a power by 0.5
 * % at most.
 */
const EXACT = 0.004;
/** Pairs of rows that must follow the power before it is believed, and blocks they must lie in. */
const LEAST_PAIRS = 10;
const LEAST_BLOCKS = 3;
/**
 * What goes along with a column, such as the area with the diameter, is not what keeps two rows
 * apart.
 */
const ALONG: Partial<Record<(typeof COLUMNS)[number], readonly string[]>> = {
  bar_diameter_mm: ["bar_area_mm2", "hole_diameter_mm"],
};

/**
 * Rows that look generated rather than tested: blocks of rows equal in every number but one column
 * and the load, in which the load goes with one and the same power of that column, without the
 * scatter that tests have. Looked for within each study.
 * @returns what was found, the column with the most rows first; exponents to three digits
 */
export function powersOfColumn(tests: TestTable): PowerOfColumn[] {
  const numeric = TEST_COLUMNS.filter(
    ({ kind, name }) => (kind === "number" || kind === "integer") && !BESIDE.has(name),
  ).map(({ name }) => name);
  const studies = wordCodes(tests, "study_id");
  const rows = new RowsAlike(
    new Map<string, ArrayLike<number>>([
      ...numeric.map((name): [string, ArrayLike<number>] => [name, tests.numbers(name)]),
      ["study_id", studies],
      ["bar_material", wordCodes(tests, "bar_material")],
      ["setup", wordCodes(tests, "setup")],
    ]),
  );
  const found = COLUMNS.flatMap((column) => {
    const byStudy = new Map<number, number[][]>();
    for (const block of rows.but([column, ...(ALONG[column] ?? [])])) {
      const blocks = byStudy.get(studies[block[0]!]!);
      if (blocks) blocks.push(block);
      else byStudy.set(studies[block[0]!]!, [block]);
    }
    return [...byStudy].flatMap(([study, blocks]) => {
      const power = powerIn(tests, column, blocks);
      return power ? [{ study, power }] : [];
    });
  });
  return found
    .sort((a, b) => b.power.rows.length - a.power.rows.length || a.study - b.study)
    .map(({ power }) => power);
}

function powerIn(
  tests: TestTable,
  column: (typeof COLUMNS)[number],
  blocks: readonly number[][],
): PowerOfColumn | null {
  const [x, load] = [tests.numbers(column), tests.numbers("peak_load_kN")];
  const pairs: { b: number; i: number; first: number; dx: number; dy: number }[] = [];
  blocks.forEach((block, b) => {
    const first = block[0]!;
    for (const i of block.slice(1)) {
      const [dx, dy] = [Math.log(x[i]! / x[first]!), Math.log(load[i]! / load[first]!)];
      if (Math.abs(dx) > 0.05 && Number.isFinite(dy)) pairs.push({ b, i, first, dx, dy });
    }
  });
  if (pairs.length < LEAST_PAIRS || new Set(pairs.map(({ b }) => b)).size < LEAST_BLOCKS)
    return null;
  const exponents = pairs.map(({ dx, dy }) => dy / dx).sort((a, b) => a - b);
  const exponent = exponents[Math.floor(exponents.length / 2)]!;
  const follow = pairs.filter(({ dx, dy }) => Math.abs(dy - exponent * dx) < EXACT);
  const held = new Set(follow.map(({ b }) => b));
  if (follow.length < 0.9 * pairs.length || held.size < LEAST_BLOCKS) return null;
  const rows = [...new Set(follow.flatMap(({ i, first }) => [i, first]))].sort((a, b) => a - b);
  return {
    study: tests.texts("study_id")[rows[0]!] ?? "",
    column,
    exponent: Number(exponent.toPrecision(3)),
    rows,
    blocks: held.size,
  };
}

/** The same as warnings. */
export function generatedRowFindings(tests: TestTable, file: string): Diagnostic[] {
  const ids = tests.texts("test_id");
  return powersOfColumn(tests).map(({ study, column, exponent, rows, blocks }) => {
    const first = rows
      .slice(0, 3)
      .map((i) => ids[i] ?? "")
      .join(", ");
    const message = `${String(rows.length)} rows of ${study} (${first}, ...) form ${String(blocks)} blocks that are equal but for ${column}, and their loads go with its power ${String(exponent)} within 0.4 %: tests scatter by more, so these look generated, expected tests`;
    return diagnostic("warning", "loads-follow-a-power", message, {
      file,
      column: "peak_load_kN",
      value: null,
      expected: "loads that were measured",
    });
  });
}
