import { createHash } from "node:crypto";
import { sourceOf } from "../format";
import type { NumberedCell } from "../format";

/**
 * A key for each cell's result: from its own code, the code of every cell above it, and what
 * the run rests on (data, library, lock file, Node). Prose, tags and outputs do not enter, so
 * editing them keeps the results; changing a cell changes the keys of all cells below it too.
 */
export function cellKeys(cells: readonly NumberedCell[], restsOn: object): string[] {
  let key = createHash("sha256").update(JSON.stringify(restsOn)).digest("hex");
  return cells.map(
    ({ cell }) =>
      (key = createHash("sha256")
        .update(`${key}\n${sourceOf(cell)}`)
        .digest("hex")),
  );
}
