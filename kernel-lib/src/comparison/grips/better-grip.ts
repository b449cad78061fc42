import type { TestTable } from "../../dataset";
import type { Comparison, Evidence } from "../comparison";
import { valueWords } from "../labels";
import { furtherCourse, type FurtherCourse } from "./broken-test";
import { lognormalLaw, type LognormalLaw } from "./lognormal-law";
import type { BetterGrip, BrokenTest, ByReason, ModeShown } from "./better-grip-result";
import { brokenRows } from "./broken-rows";
import { readingOf } from "./better-grip-reading";

const BAR_MODES = ["bar_rupture", "yield"];
const NUL = "\u0000";

/**
 * What a better grip would have shown: for each bar that broke in its grip the mode and load that
 * it is predicted to have reached.
 *
 * The law of the test-to-predicted ratio of each mode, within each class of `by`, is fitted without
 * the tests that broke in the grip (`lognormalLaw`; tests of other modes are lower bounds). A
 * broken test follows that law above the ratio it reached, the modes competing, up to the bar's
 * measured mean strength (`furtherCourse`).
 *
 * Limits: point estimates of the laws are used as if known, and bar strength without scatter; the
 * ratios of a class are taken to be alike in every layout and size. Confined tests need
 * `confinedBondFactor` in the comparison.
 * @example betterGrip(compare(tests, code("aci318-19"), { confinedBondFactor: 0.75 })).reading
 */
export function betterGrip(
  comparison: Comparison,
  by: readonly string[] = ["bar_material"],
): BetterGrip {
  const { tests } = comparison;
  const broken = brokenRows(tests);
  const classes = by.map((name) => tests.texts(name));
  const classOf = (row: number): string =>
    classes.map((texts) => valueWords(texts[row] ?? null)).join(", ");
  const laws = lawsOf(comparison, broken, classOf);
  const evidence = evidenceOf(comparison, broken);
  const [notPredicted, modesLeftOut] = [new Map<string, number>(), new Map<string, number>()];
  const found = [...broken].flatMap(([row, share]): BrokenTest[] => {
    const own = evidence.get(row) ?? [];
    const rivals = own.flatMap(({ mode, ratio }) => {
      const law = laws.get(`${mode}${NUL}${classOf(row)}`) ?? "no test of this mode";
      if (typeof law !== "string") return [{ mode, law, reached: ratio }];
      count(modesLeftOut, `${valueWords(mode)}, ${classOf(row)}: ${law}`);
      return [];
    });
    const why = Number.isNaN(share)
      ? "bar strength or area blank"
      : own.length === 0
        ? whyNone(comparison, row)
        : rivals.length === 0
          ? "no mode has a fitted distribution"
          : null;
    if (why !== null) count(notPredicted, why);
    const modes = rivals.map(({ mode }) => mode);
    return why === null
      ? [brokenTest(tests, row, share, modes, furtherCourse(rivals, 1 / share))]
      : [];
  });
  const modes = modesShown(found);
  const shown = modes.map(({ mode }) => mode);
  return {
    tests: found,
    modes,
    notPredicted: byReason(notPredicted),
    modesLeftOut: byReason(modesLeftOut),
    laws: [...laws].flatMap(([key, law]) => {
      const [mode = "", group = ""] = key.split(NUL);
      return typeof law === "string" || !shown.includes(mode) ? [] : [{ mode, group, law }];
    }),
    reading: readingOf(broken.size, found, modes),
  };
}

function count(into: Map<string, number>, reason: string): void {
  into.set(reason, (into.get(reason) ?? 0) + 1);
}

function byReason(counts: ReadonlyMap<string, number>): ByReason {
  return [...counts].map(([reason, n]) => ({ reason, n }));
}

/** What the code says of the broken tests: the ratio that each mode of concrete or bond reached. */
function evidenceOf(
  comparison: Comparison,
  broken: ReadonlyMap<number, number>,
): Map<number, Evidence[]> {
  const found = new Map<number, Evidence[]>();
  for (const one of comparison.evidence) {
    if (!broken.has(one.row) || BAR_MODES.includes(one.mode)) continue;
    found.set(one.row, [...(found.get(one.row) ?? []), one]);
  }
  return found;
}

/** One law a mode and class, or why there is none; keys: mode, NUL, class. */
function lawsOf(
  { evidence, tests }: Comparison,
  broken: ReadonlyMap<number, number>,
  classOf: (row: number) => string,
): Map<string, LognormalLaw | string> {
  const wanted = new Set([...broken.keys()].map(classOf));
  const series = tests.texts("series_id");
  const groups = new Map<string, { value: number; lowerBound: boolean; series: string }[]>();
  for (const { row, mode, ratio, bound } of evidence) {
    if (broken.has(row) || BAR_MODES.includes(mode) || !wanted.has(classOf(row))) continue;
    const key = `${mode}${NUL}${classOf(row)}`;
    const group = groups.get(key) ?? [];
    groups.set(key, group);
    group.push({ value: ratio, lowerBound: bound, series: series[row] ?? "" });
  }
  return new Map([...groups].map(([key, own]) => [key, lognormalLaw(own)]));
}

function brokenTest(
  tests: TestTable,
  row: number,
  share: number,
  modes: readonly string[],
  course: FurtherCourse,
): BrokenTest {
  const peak = tests.number(row, "peak_load_kN");
  return {
    row,
    testId: tests.text(row, "test_id") ?? "",
    grip: tests.text(row, "grip"),
    peak_kN: peak,
    share,
    modes: Object.fromEntries(modes.map((mode, j) => [mode, course.probabilities[j] ?? 0])),
    rupture: course.rupture,
    median_kN: peak * course.median,
    lower_kN: peak * course.lower,
    upper_kN: peak * course.upper,
  };
}

function modesShown(found: readonly BrokenTest[]): ModeShown[] {
  if (found.length === 0) return [];
  const names = [...new Set(found.flatMap(({ modes }) => Object.keys(modes)))];
  const sum = (values: readonly number[]): number => values.reduce((total, one) => total + one, 0);
  const shown = names.map((mode): ModeShown => {
    const own = found.flatMap(({ modes }) => (mode in modes ? [modes[mode] ?? 0] : []));
    return { mode, expected: sum(own), tests: own.length };
  });
  return [
    ...shown,
    {
      mode: "bar_rupture",
      expected: sum(found.map(({ rupture }) => rupture)),
      tests: found.length,
    },
  ];
}

function whyNone({ unused, code }: Comparison, row: number): string {
  return (
    unused.find((one) => one.row === row)?.reason ??
    `${code.id} gives no concrete or bond capacity for it`
  );
}
