import {
  OPINION_WORDS,
  VERDICT_WORDS,
  checkReviewRecord,
  checkSignature,
  readReviewRecord,
} from "../../notebook";
import type { ReviewRecord } from "../../notebook";
import { printableLine } from "../../formula";
import { say } from "../use/printing";

/**
 * Prints a signed record and what no longer matches it. Exit code 0 all reproduced and nothing changed
 * since, else 1.
 */
export async function checkRecord(
  file: string,
  notebooks: readonly string[],
  inputs: readonly string[],
  options: { readonly format: string | undefined; readonly key: string | undefined },
): Promise<number> {
  const record = await readReviewRecord(file);
  const signature = await checkSignature(file, options.key);
  const problems = [...(await checkReviewRecord(record, notebooks, inputs)), ...signature.problems];
  if (options.format === "json")
    say(
      JSON.stringify(
        {
          reviewer: record.reviewer,
          signed: record.signed,
          reproduced: record.reproduced,
          excused_accepted: record.excused_accepted,
          key: signature.signedBy ?? null,
          holds: problems.length === 0,
          problems,
        },
        null,
        2,
      ),
    );
  else
    for (const line of [
      ...recordLines(record),
      signature.signedBy === undefined
        ? "No signature with a key: the record carries a name only."
        : `Signature with the key ${signature.signedBy}.`,
      ...(problems.length === 0
        ? ["The record matches: notebooks, data and library are as signed."]
        : problems),
    ])
      say(printableLine(line));
  return problems.length === 0 && record.reproduced ? 0 : 1;
}

function recordLines(record: ReviewRecord): string[] {
  const notebooks = record.notebooks.flatMap(({ name, reproduced, cells, code_cells: count }) => [
    `  ${name}: ${cells.length === 0 && count > 0 ? "not reviewed" : reproduced ? "reproduced" : "NOT reproduced"}, ${cells.length} of ${count} cells`,
    ...cells
      .filter(({ opinion, remark }) => opinion === "question" || remark !== "")
      .map(
        ({ number, verdict, opinion, remark }) =>
          `    cell ${number}, ${[VERDICT_WORDS[verdict], ...(opinion ? [OPINION_WORDS[opinion]] : []), ...(remark ? [remark] : [])].join(": ")}`,
      ),
  ]);
  return [
    `Signed by ${record.reviewer}, ${record.signed}: ${record.reproduced ? "reproduced" : "not all cells reproduced"}`,
    ...notebooks,
  ];
}
