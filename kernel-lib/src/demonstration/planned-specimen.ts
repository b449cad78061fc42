import type { PlannedSeries } from "./campaign";
import type { Specimen } from "./mean-capacity";
import { BAR_SIZES, barStrengths, TRUTH } from "./truth";

/**
 * The specimen of a planned series, with its concrete; lengths rounded to 5 mm as one would set
 * them out.
 */
export function specimenOf(series: PlannedSeries, concrete: number): Specimen {
  const kind = TRUTH.barKinds[series.kind];
  const size = BAR_SIZES[series.size];
  if (kind === undefined || size === undefined)
    throw new RangeError(
      `no bar kind ${String(series.kind)} or size ${String(series.size)}: expected 0 to 3 and 0 to 4`,
    );
  const strengths = barStrengths(kind, size);
  const d = size.diameter_mm;
  const onGrid = (diameters: number): number => 5 * Math.round((diameters * d) / 5);
  // 4 diameters are the least embedment: round up there, never below.
  const embedment =
    5 * Math.ceil((series.embedment * d - 2.5) / 5) < 4 * d
      ? 5 * Math.ceil((4 * d) / 5)
      : onGrid(series.embedment);
  const edge = series.edge === null ? Infinity : onGrid(series.edge);
  const castIn = series.adhesive === null;
  const nearEdge =
    !castIn && series.layout !== "field" && series.layout !== "pair" && series.layout !== "four";
  const c1 = nearEdge ? edge : Infinity;
  return {
    kind,
    diameter: d,
    area: size.area_mm2,
    tensileStrength: strengths.mean,
    shearStrength: strengths.shear,
    adhesive: series.adhesive === null ? null : TRUTH.adhesives[series.adhesive],
    concrete,
    cracked: series.cracked,
    embedment,
    thickness: Math.max(
      200,
      50 * Math.ceil(Math.max(embedment + 2 * (d + 4), nearEdge ? 1.5 * edge : 0) / 50),
    ),
    edges: [c1, series.layout === "corner" ? edge : Infinity, Infinity, Infinity],
    nx: series.layout === "four" ? 2 : 1,
    ny:
      series.layout === "four" || series.layout === "pair" || series.layout === "pair_at_edge"
        ? 2
        : 1,
    sx: series.layout === "four" ? onGrid(series.spacing ?? 0) : 0,
    sy: series.spacing === null ? 0 : onGrid(series.spacing),
    cover: castIn ? edge : Infinity,
  };
}
