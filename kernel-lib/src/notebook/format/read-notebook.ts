import { createHash } from "node:crypto";
import { readFile, stat } from "node:fs/promises";
import { wholeText } from "./cell-text";
import { LIMITS } from "./limits";
import { NotebookProblem } from "./notebook-problem";
import type { CellOutput, MultilineText, Notebook, NotebookCell } from "./notebook-types";

/**
 * Reads a notebook of nbformat 4 (any minor version; older ones get their cell ids here).
 *
 * @throws NotebookProblem when the file is missing, too large, not JSON or not a notebook of
 *   nbformat 4.
 */
export async function readNotebook(file: string): Promise<Notebook> {
  const size = await stat(file).then(
    (status) => (status.isFile() ? status.size : -1),
    () => -1,
  );
  if (size < 0) throw new NotebookProblem(`there is no notebook file ${file}`);
  if (size > LIMITS.notebookBytes) {
    throw new NotebookProblem(
      `${file} is ${Math.ceil(size / 1048576)} MB large; at most ${LIMITS.notebookBytes / 1048576} MB is read`,
    );
  }
  return parseNotebook(await readFile(file, "utf8"), file);
}

/** Reads a notebook from its text; `name` stands in messages. */
export function parseNotebook(text: string, name: string): Notebook {
  let raw: unknown;
  try {
    raw = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    throw new NotebookProblem(
      `${name} is not a notebook: it is no valid JSON (${(error as Error).message})`,
    );
  }
  if (!isRecord(raw) || raw["nbformat"] !== 4 || !Array.isArray(raw["cells"])) {
    const version = isRecord(raw) ? String(raw["nbformat"]) : typeof raw;
    throw new NotebookProblem(
      `${name} is not a notebook of nbformat 4 (found: ${version}); open and save it in Jupyter to convert it`,
    );
  }
  if (raw["cells"].length > LIMITS.cells) {
    throw new NotebookProblem(
      `${name} has ${raw["cells"].length} cells; at most ${LIMITS.cells} are read`,
    );
  }
  const ids = new Set<string>();
  const cells = raw["cells"].map((cell: unknown, index) => readCell(cell, index, ids, name));
  return {
    nbformat: 4,
    nbformat_minor: 5,
    metadata: isRecord(raw["metadata"]) ? raw["metadata"] : {},
    cells,
  };
}

function readCell(raw: unknown, index: number, ids: Set<string>, name: string): NotebookCell {
  const problem = (what: string): never => {
    throw new NotebookProblem(`${name}: cell ${index + 1} from the top ${what}`);
  };
  if (!isRecord(raw)) return problem("is not an object");
  const { cell_type: type, source } = raw;
  if (!isText(source)) return problem("has no source text");
  const id = uniqueId(raw["id"], wholeText(source), index, ids);
  const metadata = isRecord(raw["metadata"]) ? raw["metadata"] : {};
  if (type === "code") {
    const outputs = Array.isArray(raw["outputs"]) ? (raw["outputs"] as unknown[]) : [];
    if (!outputs.every(isOutput)) return problem("has an output that nbformat 4 does not know");
    const count = raw["execution_count"];
    return {
      cell_type: type,
      id,
      metadata,
      source,
      outputs,
      execution_count: typeof count === "number" ? count : null,
    };
  }
  if (type === "markdown" || type === "raw") {
    const attachments = raw["attachments"];
    return {
      cell_type: type,
      id,
      metadata,
      source,
      ...(isRecord(attachments) ? { attachments } : {}),
    };
  }
  return problem(`has the unknown type ${JSON.stringify(type)}`);
}

/** The cell's own id when it is valid and not taken; else one made from its place and text. */
function uniqueId(given: unknown, source: string, index: number, ids: Set<string>): string {
  let id = typeof given === "string" && /^[a-zA-Z0-9-_]{1,64}$/.test(given) ? given : "";
  for (let attempt = 0; id === "" || ids.has(id); attempt++) {
    id = createHash("sha256").update(`${index}\n${attempt}\n${source}`).digest("hex").slice(0, 8);
  }
  ids.add(id);
  return id;
}

function isOutput(value: unknown): value is CellOutput {
  if (!isRecord(value)) return false;
  switch (value["output_type"]) {
    case "stream":
      return typeof value["name"] === "string" && isText(value["text"]);
    case "display_data":
    case "execute_result":
      return isRecord(value["data"]);
    case "error":
      return (
        typeof value["ename"] === "string" &&
        typeof value["evalue"] === "string" &&
        Array.isArray(value["traceback"])
      );
    default:
      return false;
  }
}

function isText(value: unknown): value is MultilineText {
  return (
    typeof value === "string" ||
    (Array.isArray(value) && value.every((line) => typeof line === "string"))
  );
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
