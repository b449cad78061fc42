import type { TestTable } from "../dataset";
import { governing, predict, type CodeDefinition } from "../provisions";
import { interactionPair } from "./interaction-pair";
import { pairsOfTest } from "./pairs-of-test";
import { ScopeRule, type NotJudgedStatus } from "./scope";
import { setupFactor } from "./setup-factor";
import type { ComparisonSettings, Comparison, Evidence, NotJudged } from "./comparison";
import { governingPairs } from "./governing-pairs";
import { whyNoPair } from "./why-no-pair";

/**
 * Joins tests with a code's predictions: ratio = peak load / capacity for every test and mode it
 * tells something of.
 *
 * Each pair of test and provision has one status (`Status`). Only judged pairs enter the ratios by
 * default; the others are listed with their reasons in `notJudged`, and `scope: "all"` pools those
 * that have a capacity. A test arrangement that cannot show a mode gives no ratio in it, whatever
 * the scope. For the governing ratio the pair is that of the least capacity among the modes left
 * free, and a test whose observed mode the code has no applicable provision for is not judged. A
 * test with tension and shear is compared with the code's interaction alone, in either way: its
 * ratio is the resultant over that at which the interaction is met along the load path, and its
 * mode is `interaction`.
 * @example compare(tests, code("aci318-19"), { level: "nominal", capacityOf: "observed mode" })
 * @throws RangeError when `confinedBondFactor` is neither a positive finite number nor a name of
 *   `SETUP_FACTORS`.
 */
export function compare(
  tests: TestTable,
  code: CodeDefinition,
  settings: ComparisonSettings = {},
): Comparison {
  const prediction = predict(code, tests, settings);
  const {
    capacityOf = "observed mode",
    lowerBounds = "used",
    scope = "judged",
    confinedBondFactor = 1,
  } = settings;
  const factorOf = setupFactor(confinedBondFactor);
  const rule = new ScopeRule(prediction, settings.confinedBondFactor !== undefined);
  const [evidence, notJudged, unused]: [Evidence[], NotJudged[], Comparison["unused"][number][]] = [
    [],
    [],
    [],
  ];
  const [excluded, loads, setups, actions] = [
    tests.texts("excluded"),
    tests.numbers("peak_load_kN"),
    tests.texts("setup"),
    tests.texts("action"),
  ];
  const cracks = tests.texts("cracked");
  const least = capacityOf === "governing mode" ? governing(prediction) : null;
  const noPair = (row: number, status: NotJudgedStatus, reason: string): NotJudged => ({
    row,
    column: -1,
    mode: null,
    bound: false,
    status,
    reason,
    value: "",
  });
  for (let row = 0; row < tests.length; row++) {
    const why = excluded[row];
    const both = actions[row] === "tension_and_shear";
    const pairs = why
      ? []
      : both
        ? [interactionPair(prediction, tests, rule, row)]
        : pairsOfTest(prediction, tests, rule, lowerBounds, row);
    const found =
      least && !why && !both
        ? governingPairs(prediction, rule, least, pairs, row, tests.text(row, "failure_mode"))
        : pairs;
    const before = evidence.length;
    const refused: NotJudged[] = why ? [noPair(row, "excluded", why)] : [];
    for (const {
      column,
      mode,
      capacity,
      bound,
      status: { status, reason, value },
      free,
      components,
    } of found) {
      if (status !== "judged") refused.push({ row, column, mode, bound, status, reason, value });
      if (Number.isNaN(capacity) || !free || (status !== "judged" && scope === "judged")) continue;
      const confined =
        setups[row] === "confined_tension" &&
        (prediction.columns[column]?.provision.modes.includes("bond") ?? false);
      const factor = confined ? factorOf(cracks[row] ?? null) : 1;
      if (Number.isNaN(factor)) {
        const why = "the set-up factor depends on whether the concrete was cracked, which is blank";
        if (status === "judged")
          refused.push({
            row,
            column,
            mode,
            bound,
            status: "input missing",
            reason: why,
            value: "",
          });
        continue;
      }
      const load = (loads[row] ?? NaN) * factor;
      evidence.push({
        row,
        column,
        mode,
        load,
        capacity,
        ratio: load / capacity,
        bound,
        ...(components ? { components } : {}),
      });
    }
    if (found.length === 0 && refused.length === 0)
      refused.push(noPair(row, ...whyNoPair(prediction, tests, lowerBounds, row)));
    notJudged.push(...refused);
    const told = refused.find(({ bound }) => !bound) ?? refused[0];
    if (evidence.length === before && told)
      unused.push({ row, status: told.status, reason: told.reason });
  }
  return {
    tests,
    code,
    prediction,
    capacityOf,
    lowerBounds,
    scope,
    confinedBondFactor: settings.confinedBondFactor ?? null,
    evidence,
    notJudged,
    unused,
  };
}
