import type { Command } from "commander";
import { CODES, code } from "../../provisions";
import { provisionTable } from "../../tables";

/** `code-comparison provisions`: what the library holds, from the provisions themselves. */
export function registerProvisionsCommand(program: Command): void {
  program
    .command("provisions")
    .description("list every provision: clause, mode, levels, limits, confidence, and what of each edition is not coded")
    .option("--codes <ids>", "codes, with commas; all when left out")
    .option("--format <format>", "text, markdown, html, csv or json", "markdown")
    .addHelpText("after", "\nExample:\n  code-comparison provisions --codes aci318-19 --format markdown")
    .action(({ codes, format }: { codes?: string; format: string }) => {
      const table = provisionTable(codes === undefined ? CODES : codes.split(",").map((id) => code(id.trim())));
      const written: Readonly<Record<string, () => string>> = {
        text: () => table.toText(), markdown: () => table.toMarkdown(), html: () => table.toHtml(), csv: () => table.toCsv(), json: () => JSON.stringify(table.rows, null, 2),
      };
      const write = written[format];
      if (write) console.log(write());
      else {
        console.error(`--format "${format}" is not known, expected ${Object.keys(written).join(", ")}`);
        process.exitCode = 2;
      }
    });
}
