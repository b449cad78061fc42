import type { Block } from "../document/document";
import type { PacketResults } from "./packet-results";
import { paragraph } from "./paragraph";

/** The groups with the present and the proposed provision. */
export function beforeAfterBlocks({ beforeAfter, change, standings = [] }: PacketResults): Block[] {
  const shown = new Set(
    beforeAfter.table.rows.map((row) =>
      beforeAfter.table.rowKey
        .map((key) => String(row[key]))
        .join(", ")
        .toLowerCase(),
    ),
  );
  const listed = (labels: readonly string[]): string => {
    const inside = labels.filter((label) => shown.size === 0 || shown.has(label.toLowerCase()));
    return inside.length === 0 ? "none" : inside.join("; ");
  };
  return [
    paragraph(
      "The same tests compared twice: with the provision as it stands and with the proposed factors.",
    ),
    { kind: "table", table: beforeAfter.table },
    { kind: "figure", figure: beforeAfter.figure },
    {
      kind: "list",
      items: [
        `Groups that now meet the criterion: ${listed(change.nowMeet)}.`,
        `Groups that still fall short: ${listed(change.stillShort)}.`,
        `Undecided: ${listed(change.undecided)}.`,
        ...standings.filter(({ applied }) => applied !== 1).map(({ reading }) => reading),
      ],
    },
  ];
}
