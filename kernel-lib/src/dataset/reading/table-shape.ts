import type { Column } from "../schema/column";
import { knownNames } from "./schema-names";

/** Why no name was found, where the shape of the text tells. */
export function otherShape(
  sample: ReadonlyArray<ReadonlyArray<string>>,
  headerAt: number,
  schema: ReadonlyArray<Column>,
): string {
  const [cell = "", ...more] = sample[headerAt] ?? [];
  const separator =
    more.length > 0
      ? undefined
      : (
          [
            ["|", "vertical bars"],
            [":", "colons"],
            [" ", "spaces"],
          ] as const
        ).find(([sign]) => knownNames(cell.split(sign), schema) >= 2);
  return separator === undefined
    ? ""
    : ` (they are separated by ${separator[1]}: write commas, semicolons or tabs)`;
}

/** How many names of the schema stand in the first column, as in a table on its side. */
export function namesInFirstColumn(
  sample: ReadonlyArray<ReadonlyArray<string>>,
  schema: ReadonlyArray<Column>,
): number {
  return knownNames(
    sample.map(([first = ""]) => first),
    schema,
  );
}
