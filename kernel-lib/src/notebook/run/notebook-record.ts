import type { CellOutput, Notebook } from "../format";
import type { RecordedEnvironment } from "./recorded-environment";

/**
 * What a notebook says that its outputs were recorded with. Run in Jupyter, the output of the
 * colophon says it, and goes before what an earlier run by our own runner left in the notebook's
 * metadata.
 */
export function readRecord(notebook: Notebook): RecordedEnvironment | undefined {
  const stamps = outputsOf(notebook).flatMap((output) => recordIn(stampable(output)) ?? []);
  return stamps[stamps.length - 1] ?? recordIn(notebook.metadata);
}

/** The notebook with the record in its metadata, and none of another run in its outputs. */
export function withRecord(notebook: Notebook, recorded: RecordedEnvironment): Notebook {
  for (const output of outputsOf(notebook)) {
    const metadata = stampable(output);
    if (recordIn(metadata)) delete metadata["code_comparison"];
  }
  const own = notebook.metadata["code_comparison"];
  const kept = typeof own === "object" && own !== null ? own : {};
  return {
    ...notebook,
    metadata: { ...notebook.metadata, code_comparison: { ...kept, recorded } },
  };
}

function outputsOf({ cells }: Notebook): CellOutput[] {
  return cells.flatMap((cell) => (cell.cell_type === "code" ? cell.outputs : []));
}

function stampable(output: CellOutput): Record<string, unknown> {
  return output.output_type === "display_data" || output.output_type === "execute_result"
    ? output.metadata
    : {};
}

function recordIn(metadata: Record<string, unknown>): RecordedEnvironment | undefined {
  const own = metadata["code_comparison"];
  const record =
    typeof own === "object" && own !== null ? (own as { recorded?: unknown }).recorded : undefined;
  return typeof record === "object" && record !== null
    ? (record as RecordedEnvironment)
    : undefined;
}
