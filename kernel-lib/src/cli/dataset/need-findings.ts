import { diagnostic, type Diagnostic, type TestTable } from "../../dataset";
import {
  clauseOf,
  predict,
  predictionNeeds,
  reasonsAt,
  type CodeDefinition,
  type PredictionNeed,
} from "../../provisions";

/** Columns with a word for what is unknown. */
const UNKNOWN: ReadonlySet<string> = new Set(["concrete_strength_basis", "bar_surface"]);

/**
 * Inputs that provisions need and tests leave blank, as findings; provisions that lack the same
 * inputs share one.
 */
export function needFindings(
  tests: TestTable,
  codes: ReadonlyArray<CodeDefinition>,
  file: string,
): Diagnostic[] {
  const groups = new Map<string, PredictionNeed[]>();
  const found = codes.map((code) => ({ code, needs: predictionNeeds(code, tests) }));
  for (const need of found.flatMap(({ needs }) => needs)) {
    const key = JSON.stringify([
      need.effect,
      need.columns,
      need.rows.length,
      need.rows[0],
      need.concerned,
    ]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [need]);
    else group.push(need);
  }
  const silent = found.flatMap(({ code, needs }) =>
    needs.length > 0 ? [] : silentCode(code, tests, file),
  );
  return [
    ...withoutAnyCapacity(found, tests, file),
    ...[...groups.values()].map((needs) => finding(needs, tests, file)),
    ...silent,
  ];
}

/** Whether a code gives a capacity for some test, at any level. */
function givesSome(code: CodeDefinition, tests: TestTable): boolean {
  return (["nominal", "expected"] as const).some((level) =>
    predict(code, tests, { level }).columns.some(({ capacity }) =>
      capacity.some((value) => !Number.isNaN(value)),
    ),
  );
}

/** Codes of which none gives any test a capacity, for want of inputs: nothing can be compared. */
function withoutAnyCapacity(
  found: readonly { readonly code: CodeDefinition; readonly needs: readonly PredictionNeed[] }[],
  tests: TestTable,
  file: string,
): Diagnostic[] {
  const withheld = found.flatMap(({ needs }) =>
    needs.filter(({ effect }) => effect === "withheld"),
  );
  if (withheld.length === 0 || found.some(({ code }) => givesSome(code, tests))) return [];
  const columns = [...new Set(withheld.flatMap((need) => need.columns))].join(", ");
  const codes = found.map(({ code }) => code.id).join(", ");
  return [
    diagnostic(
      "warning",
      "no-capacity",
      `no test gets a capacity by ${codes}, so none of the ${String(tests.length)} can be compared with ${found.length === 1 ? "it" : "them"}: ${columns} not stated`,
      { file, column: columns, expected: `${columns} filled` },
    ),
  ];
}

/** A code that lacks no input and gives no capacity for any test: the kind of tests it covers. */
function silentCode(code: CodeDefinition, tests: TestTable, file: string): Diagnostic[] {
  if (tests.length === 0 || givesSome(code, tests)) return [];
  const predictions = (["nominal", "expected"] as const).map((level) =>
    predict(code, tests, { level }),
  );
  const says = new Set(
    predictions.flatMap((prediction) =>
      prediction.columns.flatMap((column) =>
        reasonsAt(prediction, column, 0)
          .filter(({ kind }) => kind === "not_applicable")
          .map((reason) => reason.says),
      ),
    ),
  );
  const expected = "another code, or tests of the kind it covers";
  return [
    diagnostic(
      "information",
      "code-for-other-tests",
      `${code.id} gives no capacity for any of the ${String(tests.length)} tests: ${says.size === 0 ? "none of its provisions is of their kind" : `its provisions are "${[...says].slice(0, 3).join('", "')}"`}`,
      { file, expected },
    ),
  ];
}

function finding(needs: ReadonlyArray<PredictionNeed>, tests: TestTable, file: string): Diagnostic {
  const [
    { effect, columns, rows, concerned } = {
      effect: "withheld",
      columns: [],
      rows: [],
      concerned: 0,
    },
  ] = needs;
  const provisions = needs.map(
    ({ code, provision }) => `${provision.title} by ${code.id} ${clauseOf(provision.id)}`,
  );
  const who =
    provisions.length <= 4
      ? provisions.join("; ")
      : `${provisions.slice(0, 4).join("; ")} and ${String(provisions.length - 4)} more`;
  const where = `in ${String(rows.length)} of ${String(concerned)} rows concerned (first ${tests.text(rows[0] ?? 0, "test_id") ?? ""})`;
  const names = columns.join(" and ");
  const [rule, says, expected] =
    effect === "read_as_uncapped"
      ? [
          "strength-read-as-no-cap",
          `${needs.length > 1 ? "cap" : "caps"} the stress developed by the bar's strength, and ${names} is blank ${where}. There bond alone governs, which gives the largest capacity and the lowest ratio; a bar that failed in bond was at least as strong as the stress it reached`,
          `${names} filled`,
        ]
      : effect === "replaced"
        ? [
            "input-replaced",
            `${needs.length > 1 ? "read" : "reads"} ${names}: blank ${where}, where another column was used instead; compare does not judge such a capacity`,
            `${names} filled`,
          ]
        : effect === "withheld"
          ? [
              "needed-for-prediction",
              `${needs.length > 1 ? "need" : "needs"} ${names}: ${columns.some((name) => UNKNOWN.has(name)) ? "blank or unknown" : "blank"} ${where}, which get no capacity`,
              `${names} filled`,
            ]
          : [
              "edges-read-as-far",
              `${needs.length > 1 ? "need" : "needs"} ${names} or a statement that edges are remote (other_edges = far): neither is stated ${where}. There every edge is treated as remote, which gives the largest capacity and the lowest ratio. Enter the distances, or far where the edges were checked`,
              `${names}, or other_edges = far`,
            ];
  return diagnostic("information", rule ?? "", `${who} ${says ?? ""}`, {
    file,
    column: names,
    expected: expected ?? "",
  });
}
