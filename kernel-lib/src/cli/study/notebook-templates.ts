import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { libraryFolder } from "../../notebook";

/** What the caution of the demonstration says of its own data only. */
const OF_THE_DEMONSTRATION =
  " The campaign of the breakwater parapet is invented and proves nothing.";

/** The folder of the notebooks: in the packed library, or beside it in the repository. */
function notebookFolder(): string {
  const library = libraryFolder();
  const found = [join(library, "notebooks"), join(library, "..", "notebooks")].find(existsSync);
  if (found === undefined) throw new Error(`${library} holds no notebooks; install it again.`);
  return found;
}

interface TemplateCell {
  readonly cell_type: string;
  readonly source: string | readonly string[];
  outputs?: readonly unknown[];
  execution_count?: number | null;
}

/**
 * The notebooks as templates, by file name: without recorded outputs, and without the record of
 * what those rested on.
 */
export function notebookTemplates(): Readonly<Record<string, string>> {
  const folder = notebookFolder();
  return Object.fromEntries(
    readdirSync(folder)
      .filter((name) => name.endsWith(".ipynb") && !name.endsWith(".partial.ipynb"))
      .sort()
      .map((name) => [name, templateOf(readFileSync(join(folder, name), "utf8"))]),
  );
}

function templateOf(text: string): string {
  const notebook = JSON.parse(text) as {
    cells: TemplateCell[];
    metadata: { code_comparison?: unknown };
  };
  delete notebook.metadata.code_comparison;
  const cells = notebook.cells.map((cell) =>
    cell.cell_type === "code"
      ? { ...cell, outputs: [], execution_count: null }
      : { ...cell, source: lines([cell.source].flat().join("").replace(OF_THE_DEMONSTRATION, "")) },
  );
  return `${JSON.stringify({ ...notebook, cells }, null, 1)}\n`;
}

/** Lines with their ends, as notebooks store text. */
function lines(text: string): string[] {
  return text.split(/(?<=\n)/);
}
