import { Table, type TableText } from "../../tables";
import type { DocumentModel } from "../document/document";
import { RESULTS_FILE } from "./results-file";
import { ROW_FILES } from "./row-table";
import { PACKET_FILES } from "./packet-files";

/** The files of a packet, with what each holds; figures and tables by their titles. */
export function packetFileTable({ sections }: DocumentModel, text: TableText): Table {
  const singles = sections
    .flatMap(({ blocks }) => blocks)
    .flatMap((block) =>
      block.kind === "figure"
        ? [{ file: `figures/${block.figure.id}.svg, .png, .pdf`, holds: block.figure.title }]
        : block.kind === "table"
          ? [{ file: `tables/${block.table.id}.csv, .xlsx, .tex`, holds: block.table.title }]
          : [],
    );
  return new Table({
    ...text,
    rowKey: ["file"],
    columns: [
      { key: "file", title: "file", kind: "text" },
      { key: "holds", title: "holds", kind: "text" },
    ],
    rows: [
      { file: PACKET_FILES.html, holds: "the whole document for a browser" },
      { file: PACKET_FILES.docx, holds: "the whole document for a word processor" },
      { file: PACKET_FILES.pdf, holds: "the whole document for print" },
      { file: PACKET_FILES.zip, holds: "all files together" },
      { file: "ballot.html, ballot.docx", holds: "one ballot sheet for each change, if any" },
      { file: "hand-check.xlsx", holds: "capacities and ratios with live formulas" },
      { file: RESULTS_FILE, holds: "every number of the packet, unrounded" },
      {
        file: `${ROW_FILES.csv}, .xlsx`,
        holds: "every row with inputs, prediction, ratio and status",
      },
      { file: "manifest.json", holds: "every file with its hash, inputs and versions" },
      { file: "NOTICES.txt", holds: "license of the embedded font" },
      ...new Map(singles.map((one) => [one.file, one])).values(),
    ],
  });
}
