import { codeCells } from "../format";
import type { Notebook, NumberedCell } from "../format";

/** Whether the recorded run counters show one run from top to bottom. */
export function recordingNotes(cells: readonly NumberedCell[]): string[] {
  const counts = cells.flatMap(({ cell }) =>
    cell.execution_count === null ? [] : [cell.execution_count],
  );
  const rising = counts.every((count, index) => index === 0 || count > (counts[index - 1] ?? 0));
  const complete = counts.length === 0 || counts[counts.length - 1] === counts.length;
  return rising && complete
    ? []
    : [
        "the recorded run counters show that cells were run out of order or more than once before saving",
      ];
}

/** What a reader sees, or does not see, of the notebook and no comparison reaches. */
export function unseenNotes(notebook: Notebook): string[] {
  const code = codeCells(notebook).flatMap(({ cell: { metadata }, number }) => {
    const front = metadata["jupyter"];
    const hides = (key: string): boolean =>
      typeof front === "object" &&
      front !== null &&
      (front as Record<string, unknown>)[key] === true;
    return [
      ...(hides("source_hidden") ? [`cell ${number} hides its code in Jupyter`] : []),
      ...(hides("outputs_hidden") || metadata["collapsed"] === true
        ? [`cell ${number} hides its outputs in Jupyter`]
        : []),
    ];
  });
  const attached = notebook.cells.filter(
    (cell) => cell.cell_type !== "code" && Object.keys(cell.attachments ?? {}).length > 0,
  ).length;
  return attached === 0
    ? code
    : [...code, `pictures attached to prose (in ${attached} of the cells) are not compared`];
}
