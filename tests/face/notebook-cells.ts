import { readFileSync } from "node:fs";
import ts from "typescript";

interface NotebookFile {
  readonly cells: readonly { readonly cell_type: string; readonly source: string | string[] }[];
}

/** The code cells of a notebook, as text. */
export function codeCellsOf(file: string): string[] {
  const { cells } = JSON.parse(readFileSync(file, "utf8")) as NotebookFile;
  return cells
    .filter(({ cell_type }) => cell_type === "code")
    .map(({ source }) => (typeof source === "string" ? source : source.join("")));
}

/** A cell whose last value, where it has one, is shown as the kernel shows it. */
function withShownValue(code: string): string {
  const parsed = ts.createSourceFile("cell.ts", code, ts.ScriptTarget.ES2022, true);
  const last = parsed.statements.at(-1);
  if (last === undefined || !ts.isExpressionStatement(last)) return code;
  const value = last.expression.getText(parsed);
  if (/^(await )?show\(/.test(value)) return code;
  return `${code.slice(0, last.getStart(parsed))}await show__(${value});`;
}

/** Cell by cell: how far a notebook came. */
export interface CellsRun {
  /** Code cells that ran to their end. */
  readonly ran: number;
  readonly cells: number;
  /** The first failure: the cell's first line and the message. */
  readonly failure: string | null;
}

/**
 * Runs the code cells of a notebook one after the other in this process, with the library given:
 * what a kernel does, without its process. What cells show goes to `show`.
 */
export async function runCells(
  file: string,
  library: Readonly<Record<string, unknown>>,
  show: (...values: unknown[]) => Promise<void>,
): Promise<CellsRun> {
  const cells = codeCellsOf(file);
  const body = cells
    .map((code, k) => {
      const plain = withShownValue(code).replace(
        /^import \{([^}]*)\} from "kernel-lib";$/gm,
        (_, names: string) => `const {${names}} = library__;`,
      );
      return `${plain}\nawait settled__();\nreached__(${k + 1});`;
    })
    .join("\n");
  const { outputText } = ts.transpileModule(body, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
  });
  let ran = 0;
  let pending: Promise<void> = Promise.resolve();
  const showing = (...values: unknown[]): Promise<void> =>
    (pending = pending.then(() => show(...values)));
  // The cells are text of this repository.
  // eslint-disable-next-line @typescript-eslint/no-implied-eval
  const work = Function(
    ...["library__", "show__", "settled__", "reached__"],
    `return (async () => {${outputText}\n})();`,
  ) as (...given: unknown[]) => Promise<void>;
  try {
    await work(
      { ...library, show: showing },
      showing,
      () => pending,
      (cell: number) => (ran = cell),
    );
    return { ran, cells: cells.length, failure: null };
  } catch (error) {
    pending.catch(() => undefined);
    const title = cells[ran]?.split("\n")[0] ?? "";
    return { ran, cells: cells.length, failure: `${title}: ${String((error as Error).stack)}` };
  }
}
