import type { RatioGroup } from "../../comparison";
import { cellTable, distributionTable, ratioGroupTable } from "../../tables";
import type { TableView } from "../results/result";

export type GroupTable = "verdicts" | "statistics" | "cells" | "distributions";

/** The views of groups as tables: verdicts, moments, and the cells within the groups. */
export function groupTables(
  groups: () => readonly RatioGroup[],
  byWords: string,
  basis: string,
  caption: string,
  judgedBy: (distribution: "normal" | "lognormal") => readonly RatioGroup[],
): Readonly<Record<GroupTable, TableView>> {
  // By another distribution a group may have another verdict: those shown stay the same ones.
  const shown = (all: readonly RatioGroup[]): readonly RatioGroup[] =>
    all.filter(({ label }) => groups().some((one) => one.label === label));
  const title = `Test-to-predicted ratios by ${byWords}, ${basis}`;
  return {
    verdicts: { title, caption, make: (text) => ratioGroupTable(groups(), text) },
    statistics: { title, caption, make: (text) => ratioGroupTable(groups(), text, "moments") },
    cells: {
      title: `Cells of the groups by ${byWords}, ${basis}`,
      caption,
      make: (text) => cellTable(groups(), text),
    },
    distributions: {
      title: `Normal and lognormal distribution by ${byWords}, ${basis}`,
      caption,
      make: (text) =>
        distributionTable(shown(judgedBy("normal")), shown(judgedBy("lognormal")), text),
    },
  };
}
