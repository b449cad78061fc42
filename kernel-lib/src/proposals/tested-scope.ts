import { listed } from "../statistics/reading";
import type { TestTable } from "../dataset";
import { SI, type CodeDefinition, type Quantity } from "../provisions";

/** A variable of the code within the range that tests lie in. */
export interface ScopeRange {
  /** As formulas write it, such as `h_ef / d_a`. */
  readonly symbol: string;
  readonly meaning: string;
  /** In the units of the edition. */
  readonly lower: number;
  readonly upper: number;
  readonly unit: string;
  /** In mm and MPa. */
  readonly lowerSi: number;
  readonly upperSi: number;
  readonly unitSi: string;
  /** Tests that state it, where not all do: a blank edge is remote, a single bar has no spacing. */
  readonly n: number;
}

/** What tests cover: ranges of variables, and in words what is no number. */
export interface TestedScope {
  readonly ranges: readonly ScopeRange[];
  readonly says: readonly string[];
  readonly n: number;
}

interface Asked {
  readonly symbol: string;
  readonly meaning: string;
  readonly quantity: Quantity;
  readonly value: (row: number) => number;
}

/**
 * What the tests behind a change cover, as its limits of validity: diameter, embedment, edges,
 * spacing, thickness and strength of the concrete in the edition's units with the metric ones
 * beside; whether the concrete was cracked, whether bars stood in groups, and which adhesives held
 * them. A variable that no test states is left out.
 * @param rows the tests that the change concerns
 * @example testedScope(tests, rows, code("aci318-19")).ranges[0] // d_a, 0.374 to 1 in.
 */
export function testedScope(
  tests: TestTable,
  rows: readonly number[],
  { system }: Pick<CodeDefinition, "system">,
): TestedScope {
  const of = (name: string, row: number): number =>
    tests.has(name) ? (tests.numbers(name)[row] ?? NaN) : NaN;
  const least = (row: number, ...names: readonly string[]): number => {
    const known = names.map((name) => of(name, row)).filter((value) => value >= 0);
    return known.length === 0 ? NaN : Math.min(...known);
  };
  const edge = (row: number): number => least(row, "edge_1_mm", "edge_2_mm");
  const spacing = (row: number): number => {
    const [x, y] = [of("group_nx", row), of("group_ny", row)];
    return Math.min(
      x > 1 ? of("spacing_x_mm", row) : Infinity,
      y > 1 ? of("spacing_y_mm", row) : Infinity,
    );
  };
  const h_ef = (row: number): number => of("embedment_mm", row);
  const asked: readonly Asked[] = [
    one("d_a", "bar diameter", "length", (row) => of("bar_diameter_mm", row)),
    one("h_ef", "embedment", "length", h_ef),
    one(
      "h_ef / d_a",
      "embedment in diameters",
      "number",
      (row) => h_ef(row) / of("bar_diameter_mm", row),
    ),
    one("c_a_min", "minimum edge distance", "length", edge),
    one("c_a_min / h_ef", "edge distance / embedment", "number", (row) => edge(row) / h_ef(row)),
    one("s", "spacing in groups", "length", spacing),
    one("h_a", "member thickness", "length", (row) => of("member_thickness_mm", row)),
    one("f_c", "concrete strength", "stress", (row) => of("concrete_strength_MPa", row)),
  ];
  return {
    n: rows.length,
    ranges: asked.flatMap(({ symbol, meaning, quantity, value }): ScopeRange[] => {
      const values = rows.map(value).filter(Number.isFinite);
      if (values.length === 0) return [];
      const [lower, upper] = [Math.min(...values), Math.max(...values)];
      const size = system.inSi[quantity];
      return [
        {
          symbol,
          meaning,
          lower: lower / size,
          upper: upper / size,
          unit: system.unit[quantity],
          lowerSi: lower,
          upperSi: upper,
          unitSi: SI.unit[quantity],
          n: values.length,
        },
      ];
    }),
    says: [
      ...wordsOf(tests, rows),
      ...(rows.some((row) => Number.isNaN(edge(row))) ? ["edges also remote"] : []),
    ],
  };
}

function one(
  symbol: string,
  meaning: string,
  quantity: Quantity,
  value: (row: number) => number,
): Asked {
  return { symbol, meaning, quantity, value };
}

/** What is no range of numbers: bars, cracks, groups, adhesives, installation. */
function wordsOf(tests: TestTable, rows: readonly number[]): string[] {
  const named = (column: string): string[] =>
    tests.has(column)
      ? [...new Set(rows.flatMap((row) => tests.text(row, column) ?? []))].sort()
      : [];
  const cracked = named("cracked");
  const most = Math.max(
    ...rows.map((row) => {
      const { group_nx, group_ny } = tests.row(row);
      return (group_nx ?? 1) * (group_ny ?? 1);
    }),
  );
  const adhesives = named("adhesive");
  const installed = named("installation");
  return [
    ...(cracked.length === 0
      ? []
      : [
          cracked.length > 1
            ? "cracked and uncracked concrete"
            : `${cracked[0] === "yes" ? "cracked" : "uncracked"} concrete only`,
        ]),
    most > 1 ? `single bars and groups of up to ${most}` : "single bars only",
    ...(installed.length === 1
      ? [
          installed[0] === "post_installed"
            ? "bars bonded into drilled holes only"
            : "cast-in bars only",
        ]
      : []),
    ...(adhesives.length === 0
      ? []
      : [
          adhesives.length === 1
            ? `one adhesive (${adhesives[0] ?? ""})`
            : `${adhesives.length} adhesives (${listed(adhesives)})`,
        ]),
  ];
}

/**
 * A range in words, in the edition's units and the metric ones: "d_a from 0.374 to 1 in. (9.5 to
 * 25.4 mm)".
 * @param show how a symbol is written
 */
export function rangeWords(
  { lower, upper, unit, lowerSi, upperSi, unitSi }: ScopeRange,
  name: string,
): string {
  const between = (a: number, b: number, u: string): string =>
    a === b ? `${short(a)}${u && ` ${u}`}` : `${short(a)} to ${short(b)}${u && ` ${u}`}`;
  const metric = unit === unitSi ? "" : ` (${between(lowerSi, upperSi, unitSi)})`;
  return `${name} ${lower === upper ? "" : "from "}${between(lower, upper, unit)}${metric}`;
}

/** Three digits, and whole numbers from a thousand on: 0.374, 8.27, 3,210. */
export function short(value: number): string {
  return Math.abs(value) >= 1000
    ? String(Number(value.toPrecision(3))).replace(/\B(?=(\d{3})+$)/g, ",")
    : String(Number(value.toPrecision(3)));
}
