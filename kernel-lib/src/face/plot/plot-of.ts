import { inventedAmong, type Invented } from "../../dataset";
import { KeptFigure } from "../results/kept";
import { count } from "../results/names";
import { markFigure, type Plot } from "./mark-figure";

/**
 * A figure of rows of your own: columns to marks. Rows with `lower_bound` "yes" are open triangles
 * and left out of a least-squares line; rows with the `provenance` "demo" get the stamp of invented
 * data.
 * @throws UnknownNameError for a column that no row has
 * @example
 * plotOf(study.compare("aci318-19").mode("bond"), { x: "bar_diameter_mm", y: "ratio", reference: 1 })
 */
export function plotOf<R extends object>(rows: Iterable<R>, marks: Plot<R>): KeptFigure {
  const all = [...rows];
  const known = [...new Set(all.flatMap((row) => Object.keys(row)))];
  // Of no rows every column is as good as any other: the figure says that there is nothing to show.
  const asked = [marks.x, marks.y, marks.color, marks.symbol, marks.panel].map(String);
  return new KeptFigure(
    markFigure(all, marks, {
      name: "plot",
      told: `${count(all.length, "row")}.`,
      invented: inventedIn(all),
      known: all.length === 0 ? asked : known,
    }),
    true,
  );
}

/** Whether rows are invented, by their column `provenance`; rows without it are taken as given. */
export function inventedIn(rows: readonly object[]): Invented {
  const stated = rows.flatMap((row) =>
    "provenance" in row && typeof row.provenance === "string"
      ? [{ provenance: row.provenance === "demo" ? ("demo" as const) : ("own" as const) }]
      : [],
  );
  return inventedAmong(stated);
}
