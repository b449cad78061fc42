import type { Comparison } from "../../comparison";
import type { Study } from "../../dataset";
import { Table } from "../../tables";
import type { Block } from "../document/document";

/** The studies behind the tests. */
export function sourceBlocks(studies: readonly Study[], comparison: Comparison): Block[] {
  const ids = comparison.tests.texts("study_id");
  return [
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
