import type { ReasonableChoices } from "../proposals";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** Factors under every combination of reasonable choices, one line a group. */
export function choicesTable(found: readonly ReasonableChoices[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["group"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "proposed", title: "proposed", kind: "number", digits: 2 },
      { key: "analyses", title: "analyses", kind: "integer" },
      {
        key: "adequate",
        title: "adequate",
        kind: "integer",
        note: "analyses whose factor the proposed one does not exceed",
      },
      { key: "lowest", title: "lowest factor", kind: "number", limit: null },
      { key: "highest", title: "highest factor", kind: "number", limit: null },
      { key: "none", title: "without a factor", kind: "integer" },
    ],
    rows: found.map(({ label, proposed, analyses, unanswered }) => {
      const estimates = analyses.map(({ estimate }) => estimate);
      return {
        group: label,
        proposed,
        analyses: analyses.length,
        adequate: analyses.filter(({ adequate }) => adequate).length,
        lowest: estimates.length === 0 ? null : Math.min(...estimates),
        highest: estimates.length === 0 ? null : Math.max(...estimates),
        none: unanswered.length,
      };
    }),
  });
}
