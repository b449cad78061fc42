import { expectedInColumn, TEST_COLUMNS } from "../dataset";
import { CODES } from "../provisions";
import { codeCard as cardOf } from "../tables";
import { KeptTable } from "./results/kept";
import { codeNamed } from "./results/code-named";
import type { CodeId } from "./results/generated-names";

/**
 * Codes and models that can be compared: id, title, what of the edition is coded, and the modes
 * that its provisions predict.
 * @example listCodes()
 */
export function listCodes(): KeptTable {
  return new KeptTable(
    {
      id: "codes",
      title: "Codes and models",
      rowKey: ["code"],
      columns: [
        { key: "code", title: "code", kind: "text" },
        { key: "title", title: "title", kind: "text" },
        { key: "covers", title: "covers", kind: "text" },
        { key: "modes", title: "modes predicted", kind: "text" },
      ],
      rows: CODES.map(({ id, title, covers, provisions }) => ({
        code: id,
        title,
        covers,
        modes: [
          ...new Set(
            provisions.flatMap(({ modes }) => modes.map((mode) => mode.replaceAll("_", " "))),
          ),
        ].join(", "),
      })),
      notes: ["`codeCard(code)` gives provisions, limits and interpretations of one code."],
    },
    false,
  );
}

/**
 * Columns of the test table: name with unit, what it holds, accepted values, and whether a row
 * without it can be read.
 * @example listColumns()
 */
export function listColumns(): KeptTable {
  return new KeptTable(
    {
      id: "columns",
      title: "Columns of the test table",
      rowKey: ["column"],
      columns: [
        { key: "column", title: "column", kind: "text" },
        { key: "required", title: "required", kind: "text" },
        { key: "values", title: "values", kind: "text" },
        { key: "meaning", title: "meaning", kind: "text" },
      ],
      rows: TEST_COLUMNS.map((column) => ({
        column: column.name,
        required: column.required ? "yes" : "no",
        values: expectedInColumn(column),
        meaning: column.meaning,
      })),
    },
    false,
  );
}

/**
 * The card of a code in Markdown: provisions with clause and limits, options, interpretations
 * adopted, what is not coded, and what to check against a licensed copy.
 * @throws UnknownNameError naming the nearest code
 * @example show(codeCard("aci318-19"))
 */
export function codeCard(code: CodeId): string {
  return cardOf(codeNamed(code));
}
