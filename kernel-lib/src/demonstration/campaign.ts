import type { Setup } from "../dataset";

/** Where the bars stand in the concrete. */
export type Layout = "field" | "one_edge" | "corner" | "pair" | "four" | "pair_at_edge";

/** One planned series of the invented campaign; lengths in bar diameters. */
export interface PlannedSeries {
  /** Index of the bar kind, 0 to 3, and of the size, 0 to 4. */
  readonly kind: number;
  readonly size: number;
  readonly setup: Setup;
  /** null = cast in. */
  readonly adhesive: "P" | "Q" | null;
  readonly cracked: boolean;
  readonly embedment: number;
  readonly layout: Layout;
  /** Distance to the nearest edge, or clear cover of cast-in bars. */
  readonly edge: number | null;
  readonly spacing: number | null;
  /** True where the bar's end is held by a grip that breaks it early (FRP only). */
  readonly poorGrip: boolean;
  /**
   * True where the wall's concrete is at its weakest (22 to 28 MPa), so that shallow bars pull out
   * cones.
   */
  readonly weakConcrete: boolean;
}

type Choice = Partial<Omit<PlannedSeries, "kind" | "size" | "setup">>;

const planned = (kind: number, size: number, setup: Setup, choice: Choice): PlannedSeries => ({
  kind,
  size,
  setup,
  adhesive: "P",
  cracked: false,
  embedment: 5,
  layout: "field",
  edge: null,
  spacing: null,
  poorGrip: false,
  weakConcrete: false,
  ...choice,
});

const KINDS = [0, 1, 2, 3] as const;
const SIZES = [0, 1, 2, 3, 4] as const;

/**
 * The plan: every kind of bar in every size, with the arrangements a parapet on an old wall asks
 * for. Confined and unconfined tension, one edge, corner, pairs and fours, shear towards an edge
 * and away from edges, cracked and uncracked concrete, two adhesives and cast-in bars, embedments of 4
 * to 15 diameters.
 */
export function plannedCampaign(): PlannedSeries[] {
  const plan: PlannedSeries[] = [];
  for (const kind of KINDS) {
    const isFrp = kind > 0;
    for (const size of SIZES) {
      plan.push(planned(kind, size, "confined_tension", { embedment: 5 }));
      plan.push(planned(kind, size, "unconfined_tension", { embedment: 8 }));
      plan.push(
        planned(kind, size, "direct_shear", {
          embedment: 8,
          layout: "one_edge",
          edge: 3.5 + size * 0.5,
        }),
      );
      plan.push(planned(kind, size, "direct_shear", { embedment: size === 0 ? 10 : 8 }));
    }
    for (const size of [0, 2, 4])
      plan.push(planned(kind, size, "confined_tension", { embedment: 6, adhesive: "Q" }));
    for (const size of [2, 4])
      plan.push(planned(kind, size, "confined_tension", { embedment: 5, cracked: true }));
    for (const size of [0, 2])
      plan.push(
        planned(kind, size, "confined_tension", { embedment: 15, poorGrip: isFrp && size === 2 }),
      );
    for (const size of SIZES)
      plan.push(planned(kind, size, "unconfined_tension", { embedment: 4, weakConcrete: true }));
    for (const size of [2, 3, 4])
      plan.push(planned(kind, size, "unconfined_tension", { embedment: 5, weakConcrete: true }));
    for (const size of [1, 3])
      plan.push(planned(kind, size, "unconfined_tension", { embedment: 10, adhesive: "Q" }));
    for (const size of [1, 4])
      plan.push(planned(kind, size, "unconfined_tension", { embedment: 6, cracked: true }));
    for (const size of [1, 3])
      plan.push(
        planned(kind, size, "unconfined_tension", {
          embedment: 8,
          layout: "one_edge",
          edge: 5,
          adhesive: size === 1 ? "P" : "Q",
        }),
      );
    plan.push(planned(kind, 2, "unconfined_tension", { embedment: 9, layout: "corner", edge: 6 }));
    for (const size of [1, 3])
      plan.push(
        planned(kind, size, "unconfined_tension", { embedment: 7, layout: "pair", spacing: 6 }),
      );
    for (const size of [2, 3])
      plan.push(
        planned(kind, size, "unconfined_tension", { embedment: 5, layout: "four", spacing: 5 }),
      );
    plan.push(
      planned(kind, 1, "unconfined_tension", {
        embedment: 12,
        layout: "four",
        spacing: 8,
        adhesive: "Q",
      }),
    );
    plan.push(planned(kind, 0, "unconfined_tension", { embedment: 14, poorGrip: isFrp }));
    for (const size of [1, 2, 4]) {
      plan.push(planned(kind, size, "pullout_block", { embedment: 5, adhesive: null, edge: 5 }));
      plan.push(planned(kind, size, "pullout_block", { embedment: 10, adhesive: null, edge: 1.5 }));
    }
    plan.push(
      planned(kind, 2, "pullout_block", {
        embedment: 15,
        adhesive: null,
        edge: 5,
        poorGrip: isFrp,
      }),
    );
    for (const size of [1, 3])
      plan.push(planned(kind, size, "direct_shear", { embedment: 8, layout: "corner", edge: 4 }));
    for (const size of [2, 4])
      plan.push(
        planned(kind, size, "direct_shear", {
          embedment: 8,
          layout: "pair_at_edge",
          edge: 4,
          spacing: 6,
        }),
      );
    for (const size of [1, 3])
      plan.push(
        planned(kind, size, "direct_shear", {
          embedment: 8,
          layout: "one_edge",
          edge: 4.5,
          cracked: true,
        }),
      );
    for (const size of [1, 3])
      plan.push(
        planned(kind, size, "direct_shear", {
          embedment: 5,
          layout: "four",
          spacing: 4,
          cracked: isFrp,
        }),
      );
    plan.push(planned(kind, 4, "direct_shear", { embedment: 4, adhesive: "Q" }));
    plan.push(planned(kind, 3, "direct_shear", { embedment: 4, adhesive: "Q", cracked: true }));
  }
  return plan;
}
