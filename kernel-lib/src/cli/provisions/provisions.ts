import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Command } from "commander";
import { CODES } from "../../provisions";
import { codeCards, provisionTable, type ProvisionChecks } from "../../tables";
import { terminalWidth } from "../use/terminal-width";
import { answering } from "../use/answering";
import { codesNamed } from "../use/option-declarations";
import { oneOf } from "../use/wrong-use";

/** `code-comparison provisions`: what the library holds, from the provisions themselves. */
export function registerProvisionsCommand(program: Command): void {
  program
    .command("provisions")
    .description(
      "list every provision: clause, mode, levels, limits, confidence, the tests that check it, and what of each edition is not coded",
    )
    .option("--codes <ids>", "codes, with commas; all when left out")
    .option(
      "--format <format>",
      "cards (all there is to say of a code, Markdown), or one table as text, markdown, html, csv or json",
      "markdown",
    )
    .addHelpText(
      "after",
      "\nExamples:\n  code-comparison provisions --codes aci318-19 --format markdown\n  code-comparison provisions --codes en1992-4-2018 --format cards\n\nExit code: 0 listed, 2 wrong use.",
    )
    .action(answering(list));
}

function list({ codes, format }: { codes?: string; format: string }): number {
  const chosen = codes === undefined ? CODES : codesNamed(codes);
  const table = provisionTable(chosen, provisionChecks());
  const write = {
    cards: () => codeCards(chosen, provisionChecks()).trimEnd(),
    text: () => table.toText(terminalWidth()),
    markdown: () => table.toMarkdown(),
    html: () => table.toHtml(),
    csv: () => table.toCsv().trimEnd(),
    json: () => JSON.stringify(table.rows, null, 2),
  };
  console.log(
    write[oneOf("format", format, ["cards", "text", "markdown", "html", "csv", "json"])](),
  );
  return 0;
}

/** The list that the tests write of what checks each provision; it lies beside the cards. */
function provisionChecks(): ProvisionChecks {
  const file = join(__dirname, "../../../docs/provision-checks.json");
  return existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as ProvisionChecks) : {};
}
