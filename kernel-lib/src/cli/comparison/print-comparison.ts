import { verdictLines, type Comparison, type RatioGroup, type RowAccount } from "../../comparison";
import { brokenLine } from "../../formula";
import { ratioGroupTable } from "../../tables";
import { terminalWidth } from "../use/terminal-width";
import { groupJson } from "./group-json";
import { accountJson, accountLines } from "./row-account";

/** The groups and the account of rows as JSON. */
export function printJson(
  groups: readonly RatioGroup[],
  comparison: Comparison,
  account: RowAccount,
): void {
  const {
    code,
    prediction: { level },
    way,
    scope,
  } = comparison;
  console.log(
    JSON.stringify(
      {
        code: code.id,
        level,
        way,
        scope,
        groups: groups.map(groupJson),
        rows: accountJson(account),
      },
      null,
      2,
    ),
  );
}

/** The groups as a table with their verdicts, then the account of rows. */
export function print(
  groups: readonly RatioGroup[],
  account: RowAccount,
  { code, level, way, scope }: { readonly [name in "code" | "level" | "way" | "scope"]: string },
  format: "text" | "markdown" | "csv",
): void {
  const pooled = scope === "all" ? ", all pairs pooled whether judged or not" : "";
  const table = ratioGroupTable(groups, {
    id: "ratios",
    title: `Test-to-predicted ratios, ${code}, ${level} level, ${way.replace("_", " ")}${pooled}`,
  });
  if (format === "csv") console.log(table.toCsv().trimEnd());
  else if (groups.length === 0)
    console.log(`No test gives a ratio by ${code} at the ${level} level.`);
  else console.log(format === "markdown" ? table.toMarkdown() : table.toText(terminalWidth()));
  if (format !== "csv" && groups.length > 0)
    console.log(
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
  // A reader must see what is not in the table, and why; a CSV holds the table alone.
  (format === "csv" ? console.error : console.log)(
    [
      "",
      ...accountLines(account).map((line) => brokenLine(line, terminalWidth(), 4)),
      "For the inputs that each provision needs: code-comparison check <folder>",
    ].join("\n"),
  );
}
