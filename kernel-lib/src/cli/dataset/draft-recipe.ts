import { draftRecipe } from "../../face/recipe-draft";
import { InvalidInput } from "../use/invalid-input";
import { terminalWidth } from "../use/terminal-width";
import { say } from "../use/printing";

/**
 * `import <table> --draft <file>`: writes a recipe drafted from the table; what was guessed is
 * listed.
 * @throws InvalidInput for several tables, or a recipe file that exists
 */
export async function draftFor(
  tables: readonly string[],
  file: string,
  format: "text" | "json",
): Promise<number> {
  const [table, ...more] = tables;
  if (table === undefined || more.length > 0)
    throw new InvalidInput("--draft reads one table. Expected: import <table> --draft <file>.");
  const draft = await draftRecipe(table);
  const path = await draft.save(file).catch((error: unknown) => {
    throw error instanceof RangeError ? new InvalidInput(error.message) : error;
  });
  if (format === "json") say(JSON.stringify({ file: path, ...draft.drafted }, null, 2));
  else
    say(
      [
        draft.table("columns").toText(terminalWidth()),
        draft.table("words").toText(terminalWidth()),
        ...draft.findings(),
        `\n${file} is written. Check each line, fill in what is missing, then: import ${file} ${table}`,
      ].join("\n"),
    );
  return 0;
}
