import type { TestTable } from "../../dataset";
import { brokeInGrip, peakStress } from "./bar-stress";
import type { LawTest } from "./lognormal-law";

/** A tension test with the share of the bar's strength that its grip was known to carry. */
export interface GripTest extends LawTest {
  readonly row: number;
  readonly testId: string;
  /** Columns by which grips are grouped, in words of the data. */
  readonly by: Readonly<Record<string, string | null>>;
  /** Bar stress over measured bar strength: at the break or slip in the grip, else at the peak. */
  readonly value: number;
}

/** Tests that say something of a grip, and how many do not, by reason. */
export interface GripTests {
  readonly tests: readonly GripTest[];
  readonly unused: readonly { readonly reason: string; readonly n: number }[];
}

/**
 * The tension tests whose grip is named, each with its share of bar strength: bar stress / measured
 * bar strength. At a break in the grip the stress is `grip_break_stress_MPa`, where blank peak
 * load / (bars x area). A test that ended in another way is a lower bound at its peak load.
 *
 * Excluded tests, tests in shear, and tests without grip, bar strength, area or failure mode are
 * counted by reason. A row that is a mean of several specimens counts once.
 * @param by columns of words by which grips are grouped
 * @throws RangeError for a column that the table does not hold or that holds numbers
 * @example gripTests(tests, ["grip", "bar_material"]).unused
 */
export function gripTests(
  tests: TestTable,
  by: readonly string[] = ["grip", "bar_material"],
): GripTests {
  const [stated, strengths] = [
    tests.numbers("grip_break_stress_MPa"),
    tests.numbers("bar_strength_MPa"),
  ];
  const [modes, series, ids] = [
    tests.texts("failure_mode"),
    tests.texts("series_id"),
    tests.texts("test_id"),
  ];
  const keys = by.map((name) => [name, tests.texts(name)] as const);
  const [atPeak, barred] = [peakStress(tests), reasonNotUsed(tests)];
  const unused = new Map<string, number>();
  const found: GripTest[] = [];
  for (let row = 0; row < tests.length; row += 1) {
    const broke = brokeInGrip(modes[row] ?? null, stated[row]!);
    const stress = broke && !Number.isNaN(stated[row]!) ? stated[row]! : atPeak(row);
    const why = barred(row, broke, stress);
    if (why !== null) {
      unused.set(why, (unused.get(why) ?? 0) + 1);
      continue;
    }
    found.push({
      row,
      testId: ids[row] ?? "",
      series: series[row] ?? "",
      lowerBound: !broke,
      value: stress / strengths[row]!,
      by: Object.fromEntries(keys.map(([name, texts]) => [name, texts[row] ?? null])),
    });
  }
  return { tests: found, unused: [...unused].map(([reason, n]) => ({ reason, n })) };
}

function reasonNotUsed(
  tests: TestTable,
): (row: number, broke: boolean, stress: number) => string | null {
  const [reasons, actions] = [tests.texts("excluded"), tests.texts("action")];
  const [grips, modes] = [tests.texts("grip"), tests.texts("failure_mode")];
  const strengths = tests.numbers("bar_strength_MPa");
  return (row, broke, stress) => {
    if ((reasons[row] ?? null) !== null) return "excluded";
    if (actions[row] !== "tension") return "in shear: no bar in a grip";
    if ((grips[row] ?? null) === null) return "grip not named";
    if (modes[row] === "unknown" && !broke) return "failure mode unknown";
    if (Number.isNaN(strengths[row]!)) return "bar_strength_MPa blank";
    return Number.isNaN(stress) ? "bar_area_mm2 blank" : null;
  };
}
