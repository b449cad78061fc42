import { it } from "vitest";
import { compare, groupRatios } from "../kernel-lib/src/comparison";
import { code } from "../kernel-lib/src/provisions";
import { openStudy } from "../kernel-lib/src/face/open-study";
it("x", async () => {
  const { data } = await openStudy();
  for (const bounds of ["stated", "every"] as const) {
  const t0 = performance.now();
  const c = compare(data.tests, code("aci318-19"), { level: "nominal", bounds });
  const t1 = performance.now();
  const g = groupRatios(c, ["mode", "bar_material"]);
  console.log(bounds, "compare", (t1 - t0).toFixed(0), "groups", (performance.now() - t1).toFixed(0), "ms");
  for (const one of g) {
    console.log(one.label, "n", one.n, "lb", one.lowerBounds, "series", one.series, "mean", one.mean?.toFixed(3), "cov", one.cov?.toFixed(3), "min", one.min?.toFixed(3), "| AS TESTED", one.asTested.verdict, one.asTested.lower?.toFixed(3), one.asTested.fractile?.toFixed(3), one.asTested.upper?.toFixed(3), "| GENERAL", one.verdict, one.lower?.toFixed(3), one.fractile?.toFixed(3), one.upper?.toFixed(3), "icc", one.inGeneral.icc?.toFixed(2), "cells", one.inGeneral.cellColumns.join("+"), "fit", one.inGeneral.residualFit.normal?.toFixed(3), one.inGeneral.residualFit.lognormal?.toFixed(3));
    console.log("      ", one.reason);
    for (const cell of one.inGeneral.cells) if (one.inGeneral.cells.length > 1) console.log("          ", cell.cell, "n", cell.n, "s", cell.series, cell.lower.toFixed(3), cell.fractile.toFixed(3), cell.upper.toFixed(3));
    if (one.inGeneral.pooled) console.log("           pooled", Object.values(one.inGeneral.pooled).map((x) => x.toFixed(3)).join(" "));
  }
  }
}, 200000);
