import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Option, type Command } from "commander";
import { CODES } from "../../provisions";
import { codeCards, provisionTable, type ProvisionChecks } from "../../tables";
import { terminalWidth } from "../use/terminal-width";
import { answering } from "../use/answering";
import { absent, helpNotes } from "../use/help";
import { codesNamed } from "../use/option-declarations";
import { oneOf } from "../use/invalid-input";
import { say } from "../use/printing";

/** `code-comparison provisions`: what the library holds, from the provisions themselves. */
export function registerProvisionsCommand(program: Command): void {
  program
    .command("provisions")
    .description("list provisions, their limits, checks and omissions")
    .addOption(
      absent(new Option("--codes <ids>", "codes and models, separated by commas"), "every code"),
    )
    .option(
      "--format <format>",
      "cards (all details of each code and its options, in Markdown), or one table as text, markdown, html, csv or json",
      "markdown",
    )
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          "provisions --codes aci318-19 --format text",
          "provisions --codes en1992-4-2018 --format cards",
        ],
        exit: "0 listed",
      }),
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
  say(write[oneOf("format", format, ["cards", "text", "markdown", "html", "csv", "json"])]());
  return 0;
}

/** The list that the tests write of what checks each provision; it lies beside the cards. */
function provisionChecks(): ProvisionChecks {
  const file = join(__dirname, "../../../docs/provision-checks.json");
  return existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as ProvisionChecks) : {};
}
