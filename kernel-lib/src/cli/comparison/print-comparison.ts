import { verdictLines } from "../../comparison";
import { brokenLine } from "../../formula";
import { ratioGroupTable, type Table } from "../../tables";
import { askedJson, askedWords, type AskedRows } from "../use/asked-words";
import { terminalWidth } from "../use/terminal-width";
import type { ComparedGroups } from "./compared-groups";
import { groupJson } from "./group-json";
import { accountJson, accountLines } from "./row-account";
import { say, tell } from "../use/printing";

export const COMPARED_FORMATS = ["text", "markdown", "csv", "json"] as const;

/** What was asked, as titles and JSON print it. */
export interface PrintedQuestion extends AskedRows {
  readonly level: string;
  readonly capacityOf: string;
  readonly scope: string;
  readonly lowerBounds: string;
}

/** The groups, the account of rows of each code and further tables as JSON. */
export function printJson(
  compared: readonly ComparedGroups[],
  further: Readonly<Record<string, Table>>,
  { level, capacityOf, scope, lowerBounds, ...asked }: PrintedQuestion,
): void {
  say(
    JSON.stringify(
      {
        codes: compared.map(({ comparison: { code } }) => code.id),
        level,
        capacity_of: capacityOf,
        scope,
        lower_bounds: lowerBounds,
        ...askedJson(asked),
        groups: compared.flatMap(({ groups }) => groups.map(groupJson)),
        rows: compared.map(({ comparison: { code }, account }) => ({
          code: code.id,
          ...accountJson(account),
        })),
        ...Object.fromEntries(Object.entries(further).map(([key, { rows }]) => [key, rows])),
      },
      null,
      2,
    ),
  );
}

/** The groups as a table with their verdicts, further tables, then the account of rows. */
export function print(
  compared: readonly ComparedGroups[],
  further: Readonly<Record<string, Table>>,
  question: PrintedQuestion,
  format: "text" | "markdown" | "csv",
): void {
  const codes = compared.map(({ comparison: { code } }) => code.id).join(", ");
  const groups = compared.flatMap((one) => one.groups);
  const table = ratioGroupTable(groups, { id: "ratios", title: titleOf(codes, question) });
  const shown = (one: Table): string =>
    format === "csv"
      ? one.toCsv().trimEnd()
      : format === "markdown"
        ? one.toMarkdown()
        : one.toText(terminalWidth());
  if (format !== "csv" && groups.length === 0)
    say(`No test gives a ratio by ${codes} at the ${question.level} level.`);
  else say(shown(table));
  if (format !== "csv" && groups.length > 0)
    say(
      [
        "",
        "Verdicts:",
        ...groups
          .flatMap(verdictLines)
          .map((line) =>
            format === "markdown" ? `- ${line}` : brokenLine(`  ${line}`, terminalWidth(), 4),
          ),
      ].join("\n"),
    );
  for (const one of Object.values(further)) say(`\n${shown(one)}`);
  // A reader must see what is not in the table, and why; a CSV holds tables alone.
  const print = format === "csv" ? tell : say;
  for (const { comparison, account } of compared)
    print(
      [
        "",
        ...(compared.length > 1 ? [`By ${comparison.code.id}:`] : []),
        ...accountLines(account).map((line) => brokenLine(line, terminalWidth(), 4)),
      ].join("\n"),
    );
  const hint = "To list the inputs that each provision needs: code-comparison check <folder>";
  print(brokenLine(hint, terminalWidth(), 2));
}

function titleOf(
  codes: string,
  { level, capacityOf, scope, lowerBounds, ...asked }: PrintedQuestion,
): string {
  const parts = [
    `Test-to-predicted ratios, ${codes}, ${level} level, capacity of the ${capacityOf.replace("_", " ")}`,
    ...(scope === "all" ? ["all pairs pooled, judged or not"] : []),
    ...(lowerBounds === "used" ? [] : [`lower bounds: ${lowerBounds.replace("_", " ")}`]),
  ];
  return `${parts.join("; ")}${askedWords(asked)}`;
}
