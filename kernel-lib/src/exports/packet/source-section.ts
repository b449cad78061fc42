import type { Comparison } from "../../comparison";
import type { Study } from "../../dataset";
import { Table } from "../../tables";
import { RESULTS_FILE } from "./results-file";
import { ROW_FILES } from "./row-table";
import type { Block } from "../document/document";

/** The studies behind the tests. */
export function sourceBlocks(studies: readonly Study[], comparison: Comparison): Block[] {
  const ids = comparison.tests.texts("study_id");
  return [
    {
      kind: "paragraph",
      text: `Every row read that became a test is in ${ROW_FILES.csv} and ${ROW_FILES.xlsx}: its inputs in mm, MPa and kN, and one line for each ratio that is used (mode, clause, load compared, predicted capacity, test/predicted, failure or lower bound), or the reason why it is not used. Every number of this packet is in ${RESULTS_FILE}, unrounded.`,
    },
    {
      kind: "table",
      table: new Table({
        id: "data-sources",
        title: "Sources of the tests",
        rowKey: ["study"],
        columns: [
          { key: "study", title: "study", kind: "text" },
          { key: "provenance", title: "provenance", kind: "text" },
          { key: "rows", title: "rows", kind: "integer" },
          { key: "citation", title: "citation", kind: "text" },
          { key: "doi", title: "DOI", kind: "text" },
          { key: "remarks", title: "remarks", kind: "text" },
        ],
        rows: studies.map(({ study_id, provenance, citation, doi, remarks }) => ({
          study: study_id,
          provenance: provenance === "demo" ? "demonstration (invented)" : provenance,
          rows: Array.from(ids).filter((id) => id === study_id).length,
          citation,
          doi,
          remarks,
        })),
      }),
    },
  ];
}
