import {
  keyReader,
  labelWords,
  testsOfGroup,
  type Comparison,
  type Evidence,
  type GroupTest,
} from "../../comparison";

/** A test of a cell in which steel and FRP bars were both tested. */
export interface PairedTest extends GroupTest {
  readonly cell: string;
  readonly frp: boolean;
  /** ln of the bar diameter in mm; NaN where it is blank. */
  readonly logDiameter: number;
}

/** One cell in which both were tested. */
export interface SteelPair {
  readonly cell: string;
  /** Failures and series of steel, then of FRP. */
  readonly failures: readonly [steel: number, frp: number];
  readonly series: readonly [steel: number, frp: number];
  /** Geometric mean ratio of FRP over that of steel, every series with one weight. */
  readonly ratio: number;
}

/** The tests that compare FRP with steel. */
export interface SteelPairs {
  readonly tests: readonly PairedTest[];
  readonly pairs: readonly SteelPair[];
  readonly columns: readonly string[];
  /** Failures of FRP bars in cells without steel: they do not enter. */
  readonly unpaired: number;
}

/**
 * Columns whose values must agree where steel and FRP are compared: arrangement, adhesive, concrete
 * and set-up.
 */
const COLUMNS = [
  "layout",
  "adhesive",
  "cracked",
  "setup",
  "installation",
  "concrete_type",
] as const;

/**
 * The tests of one provision's mode in cells in which steel and a class of FRP bars both failed in
 * the mode.
 * @param frp the evidence of the FRP class
 * @param steel the evidence of steel bars in the same mode
 */
export function steelPairs(
  comparison: Comparison,
  frp: readonly Evidence[],
  steel: readonly Evidence[],
): SteelPairs {
  const { tests: table } = comparison;
  const columns = COLUMNS.filter((name) => name === "layout" || table.has(name));
  const read = keyReader(comparison, columns);
  const cellOf = new Map(
    [...frp, ...steel].map((one) => [
      one.row,
      read(one)
        .map((value, k) => labelWords(columns[k]!, value))
        .join(", "),
    ]),
  );
  const diameters = table.numbers("bar_diameter_mm");
  const all = (
    [
      [steel, false],
      [frp, true],
    ] as const
  ).flatMap(([evidence, isFrp]) =>
    testsOfGroup(evidence, table).tests.map((test): PairedTest => ({
      ...test,
      cell: cellOf.get(test.row)!,
      frp: isFrp,
      logDiameter: Math.log(diameters[test.row] ?? NaN),
    })),
  );
  const failed = all.filter(({ lowerBound }) => !lowerBound);
  const shared = [...new Set(failed.map(({ cell }) => cell))]
    .sort()
    .filter((cell) =>
      [false, true].every((isFrp) => failed.some((one) => one.cell === cell && one.frp === isFrp)),
    );
  const varying = columns.filter(
    (_, k) => new Set(shared.map((cell) => cell.split(", ")[k])).size > 1,
  );
  const pairs = shared.map((cell): SteelPair => {
    const sides = [false, true].map((isFrp) =>
      failed.filter((one) => one.cell === cell && one.frp === isFrp),
    );
    const [ofSteel, ofFrp] = [seriesMean(sides[0]!), seriesMean(sides[1]!)];
    return {
      cell,
      failures: [sides[0]!.length, sides[1]!.length],
      series: [ofSteel.series, ofFrp.series],
      ratio: Math.exp(ofFrp.mean - ofSteel.mean),
    };
  });
  const kept = new Set(shared);
  return {
    tests: all.filter(({ cell }) => kept.has(cell)),
    pairs,
    columns: varying,
    unpaired: failed.filter(({ frp: isFrp, cell }) => isFrp && !kept.has(cell)).length,
  };
}

/** Mean of ln(ratio) over the means of the series. */
function seriesMean(tests: readonly PairedTest[]): {
  readonly series: number;
  readonly mean: number;
} {
  const series = new Map<string, number[]>();
  for (const { series: name, ratio } of tests)
    series.set(name, [...(series.get(name) ?? []), Math.log(ratio)]);
  const means = [...series.values()].map(
    (logs) => logs.reduce((sum, value) => sum + value, 0) / logs.length,
  );
  return {
    series: means.length,
    mean: means.reduce((sum, value) => sum + value, 0) / means.length,
  };
}
