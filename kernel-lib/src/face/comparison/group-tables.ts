import type { RatioGroup } from "../../comparison";
import { cellTable, ratioGroupTable } from "../../tables";
import type { TableView } from "../results/result";

/** The views of groups as tables: verdicts, moments, and the cells within the groups. */
export function groupTables(
  groups: () => readonly RatioGroup[],
  byWords: string,
  basis: string,
  caption: string,
): Readonly<Record<"verdicts" | "statistics" | "cells", TableView>> {
  const title = `Test-to-predicted ratios by ${byWords}, ${basis}`;
  return {
    verdicts: { title, caption, make: (text) => ratioGroupTable(groups(), text) },
    statistics: { title, caption, make: (text) => ratioGroupTable(groups(), text, "moments") },
    cells: {
      title: `Cells of the groups by ${byWords}, ${basis}`,
      caption,
      make: (text) => cellTable(groups(), text),
    },
  };
}
