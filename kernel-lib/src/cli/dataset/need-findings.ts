import { diagnostic, type Diagnostic, type TestTable } from "../../dataset";
import { clauseOf, predictionNeeds, type CodeDefinition, type PredictionNeed } from "../../provisions";

/** What the provisions of some codes ask for and the tests leave blank, as findings; provisions that lack the same share one. */
export function needFindings(tests: TestTable, codes: ReadonlyArray<CodeDefinition>, file: string): Diagnostic[] {
  const groups = new Map<string, PredictionNeed[]>();
  for (const need of codes.flatMap((code) => predictionNeeds(code, tests))) {
    const key = JSON.stringify([need.effect, need.columns, need.rows.length, need.rows[0], need.concerned]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [need]);
    else group.push(need);
  }
  return [...groups.values()].map((needs) => finding(needs, tests, file));
}

function finding(needs: ReadonlyArray<PredictionNeed>, tests: TestTable, file: string): Diagnostic {
  const [{ effect, columns, rows, concerned } = { effect: "withheld", columns: [], rows: [], concerned: 0 }] = needs;
  const provisions = needs.map(({ code, provision }) => `${provision.title} by ${code.id} ${clauseOf(provision.id)}`);
  const who = provisions.length <= 4 ? provisions.join("; ") : `${provisions.slice(0, 4).join("; ")} and ${String(provisions.length - 4)} more`;
  const where = `in ${String(rows.length)} of ${String(concerned)} rows concerned (first ${tests.text(rows[0] ?? 0, "test_id") ?? ""})`;
  const names = columns.join(" and ");
  const [rule, says, expected] = effect === "withheld"
    ? ["needed-for-prediction", `${needs.length > 1 ? "need" : "needs"} ${names}: blank ${where}, which get no capacity`, `${names} filled`]
    : ["edges-read-as-far", `${needs.length > 1 ? "need" : "needs"} ${names} or a statement that edges are far (other_edges = far): neither stands ${where}. There every edge is read as far, which gives the largest capacity and so the least ratio: write the distances, or far where you looked`, `${names}, or other_edges = far`];
  return diagnostic("information", rule ?? "", `${who} ${says ?? ""}`, { file, column: names, expected: expected ?? "" });
}
