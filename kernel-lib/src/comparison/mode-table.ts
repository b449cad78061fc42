import { governing } from "../provisions";
import type { Comparison } from "./comparison";
import { ScopeRule } from "./scope";

/** How often each observed mode was predicted as which. */
export interface ModeTable {
  readonly observed: readonly string[];
  readonly predicted: readonly string[];
  /** counts[observed][predicted] */
  readonly counts: readonly (readonly number[])[];
}

/** How often the predicted mode is the observed one, among the tests that a code judges. */
export interface ModeAgreement {
  /** Tests of the table: those that are not excluded. */
  readonly tests: number;
  /** Tests whose predicted mode is one that a provision has, within the scope. */
  readonly judged: number;
  readonly agree: number;
}

/**
 * The counts behind "the predicted mode is the observed one in 879 of 975 judged tests".
 * @example modeAgreement(modeTable(comparison)).agree
 */
export function modeAgreement({ observed, predicted, counts }: ModeTable): ModeAgreement {
  const cells = counts.flatMap((row, i) =>
    row.map((n, k) => ({ n, seen: observed[i], told: predicted[k] ?? "none" })),
  );
  const sum = (some: typeof cells): number => some.reduce((total, { n }) => total + n, 0);
  const judged = cells.filter(({ told }) => told !== "not judged" && told !== "none");
  return {
    tests: sum(cells),
    judged: sum(judged),
    agree: sum(judged.filter(({ seen, told }) => seen === told)),
  };
}

/**
 * Observed by predicted failure mode, over the tests that are not excluded and have a pair in the
 * comparison. The predicted mode is that of the least capacity: "not judged" where its provision is outside the comparison's scope
 * for the test, "none" where no provision applies.
 */
export function modeTable(comparison: Comparison): ModeTable {
  const least = governing(comparison.prediction);
  const rule = new ScopeRule(comparison.prediction, comparison.confinedBondFactor !== null);
  const [modes, excluded] = [
    comparison.tests.texts("failure_mode"),
    comparison.tests.texts("excluded"),
  ];
  const actions = comparison.tests.texts("action");
  const judged = new Set(
    comparison.evidence.flatMap(({ row, mode }) => (mode === "interaction" ? [row] : [])),
  );
  const concerned = new Set(
    [...comparison.evidence, ...comparison.notJudged].map(({ row }) => row),
  );
  const pairs = new Map<string, number>();
  const [observed, predicted] = [new Set<string>(), new Set<string>()];
  for (let row = 0; row < comparison.tests.length; row++) {
    if (excluded[row] || !concerned.has(row)) continue;
    const seen = modes[row] ?? "unknown";
    const column = least.column[row] ?? -1;
    const inScope =
      comparison.scope === "all" || column < 0 || rule.at(row, column, false).status === "judged";
    const told =
      actions[row] === "tension_and_shear"
        ? judged.has(row)
          ? "interaction"
          : "not judged"
        : inScope
          ? (comparison.prediction.columns[column]?.provision.modes[0] ?? "none")
          : "not judged";
    observed.add(seen);
    predicted.add(told);
    const key = `${seen}|${told}`;
    pairs.set(key, (pairs.get(key) ?? 0) + 1);
  }
  const [rows, columns] = [[...observed].sort(), inOrder(predicted)];
  return {
    observed: rows,
    predicted: columns,
    counts: rows.map((seen) => columns.map((told) => pairs.get(`${seen}|${told}`) ?? 0)),
  };
}

/** The modes by name, and last the columns of tests without one. */
function inOrder(predicted: ReadonlySet<string>): string[] {
  const last = ["none", "not judged"];
  const modes = [...predicted].filter((mode) => !last.includes(mode)).sort();
  return [...modes, ...last.filter((word) => predicted.has(word))];
}
