import { shortened } from "../diagnostics";
import type { HeaderFinding } from "./find-header";
import type { Column } from "../schema/column";
import { knownNames } from "./schema-names";

/** What a header without a single known name reads instead. */
export function noKnownColumn(
  { header, sample, headerAt }: HeaderFinding,
  schema: ReadonlyArray<Column>,
  file: string,
): string {
  return `${file} has no column of the data contract (row ${String(headerAt + 1)} reads ${header
    .slice(0, 6)
    .map((cell) => `"${shortened(cell.trim())}"`)
    .join(", ")}${header.length > 6 ? ", …" : ""}), expected names such as ${schema
    .slice(0, 4)
    .map(({ name }) => name)
    .join(", ")}${otherShape(sample, headerAt, schema)}; none of its rows was read`;
}

/** Why no name was found, where the shape of the text tells. */
function otherShape(
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
