import type { TestRowInput } from "../../dataset";

const SHEAR_MODES = ["concrete_edge_breakout", "pryout", "bar_shear"];
const SHARED_CONCRETE = ["concrete_breakout", "pryout"];

/** Embedments, edge distances and spacings of groups of four to choose from, in bar diameters. */
export interface CandidateSettings {
  readonly embedments?: readonly number[];
  readonly edges?: readonly number[];
  /** Looked at for the modes that bars share concrete in. */
  readonly spacings?: readonly number[];
}

/**
 * Specimens to choose from: concrete, adhesive and bar of the template; edges only where the mode
 * needs one.
 */
export function candidatesFor(
  mode: string,
  template: TestRowInput,
  settings: CandidateSettings,
): TestRowInput[] {
  const shear = SHEAR_MODES.includes(mode);
  // A bar bonded in over less than 8 diameters would add its embedment to what the edge is to show.
  const {
    embedments = mode === "concrete_edge_breakout" ? [8, 10, 12] : [4, 5, 6, 7, 8, 10, 12, 15],
    edges = [4, 5, 6, 8],
    spacings = [4, 6],
  } = settings;
  const onGrid = (diameters: number): number =>
    5 * Math.ceil((diameters * template.bar_diameter_mm) / 5);
  const places: readonly { edge: number | null; spacing: number | null }[] =
    mode === "concrete_edge_breakout"
      ? edges.map((edge) => ({ edge, spacing: null }))
      : [null, ...(SHARED_CONCRETE.includes(mode) ? spacings : [])].map((spacing) => ({
          edge: null,
          spacing,
        }));
  return embedments.flatMap((embedment) =>
    places.map(({ edge, spacing }): TestRowInput => {
      const [h, c, s] = [
        onGrid(embedment),
        edge === null ? null : onGrid(edge),
        spacing === null ? null : onGrid(spacing),
      ];
      const side = s === null ? null : 2;
      return {
        ...template,
        test_id: `${mode} ${embedment} ${edge ?? "far"} ${spacing ?? "single"}`,
        action: shear ? "shear" : "tension",
        setup: shear ? "direct_shear" : "unconfined_tension",
        embedment_mm: h,
        edge_1_mm: c,
        edge_2_mm: null,
        edge_3_mm: null,
        edge_4_mm: null,
        group_nx: side,
        group_ny: side,
        spacing_x_mm: s,
        spacing_y_mm: s,
        member_thickness_mm: Math.max(
          200,
          50 *
            Math.ceil(
              Math.max(
                h + 2 * (template.hole_diameter_mm ?? template.bar_diameter_mm),
                1.5 * (c ?? 0),
              ) / 50,
            ),
        ),
        excluded: null,
      };
    }),
  );
}
