import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import {
  code,
  handCalculationText,
  predict,
  predictionNeeds,
  restsOnFinder,
  trace,
  type PredictionSettings,
} from "../../kernel-lib/src/provisions";
import { column, table } from "./specimens";

const shear = { action: "shear", setup: "direct_shear", bar_shear_strength_MPa: 150 } as const;
const FRP_SHEAR = "aci318-19/frp-transverse-shear";

function restsOn(
  id: string,
  row: Partial<TestRowInput>,
  settings: PredictionSettings = {},
): string[] {
  const of = code(id.slice(0, id.indexOf("/")));
  const tests = table({ other_edges: "far", ...row });
  const prediction = predict(of, tests, settings);
  const found = restsOnFinder(prediction, column(prediction, id))(0);
  // The hand calculation says the same.
  expect(trace(of, column(prediction, id).provision, tests, 0, settings).restsOn).toEqual(found);
  return found;
}

describe("what a capacity rests on that the row does not state", () => {
  it("is nothing where every input is stated", () => {
    expect(restsOn("aci318-19/17.6.2", {})).toEqual([]);
    expect(restsOn(FRP_SHEAR, { ...shear, bar_shear_strength_specified_MPa: 131 })).toEqual([]);
  });

  it("names the strength that was used in place of the other", () => {
    const measured = "bar_shear_strength_specified_MPa is blank: the measured strength was used";
    expect(restsOn(FRP_SHEAR, shear)).toEqual([measured]);
    expect(restsOn(FRP_SHEAR, shear, { level: "design" })).toEqual([measured]);
    expect(restsOn(FRP_SHEAR, shear, { level: "expected" })).toEqual([]);
    const guaranteed = {
      ...shear,
      bar_shear_strength_MPa: null,
      bar_shear_strength_specified_MPa: 131,
    };
    expect(restsOn(FRP_SHEAR, guaranteed, { level: "expected" })).toEqual([
      "bar_shear_strength_MPa is blank: the specified strength was used",
    ]);
  });

  it("names edges and a bar strength that nobody stated, the table stress and a strength taken for a cylinder's", () => {
    expect(restsOn("aci318-19/17.6.2", { other_edges: null })).toEqual([
      "neither an edge distance nor other_edges = far is stated: every edge is treated as remote",
    ]);
    expect(restsOn("aci318-19/17.6.2", { concrete_strength_basis: "cylinder_assumed" })).toEqual([
      "concrete strength treated as a cylinder strength (cylinder_assumed)",
    ]);
    expect(restsOn("aci318-19/17.6.5", {}, { options: { bond_table: 1 } })).toEqual([
      "table bond stress (option bond_table)",
    ]);
    expect(
      restsOn("aci440.1r-15/10.1", {
        cover_mm: 30,
        bar_strength_MPa: null,
        installation: "cast_in",
      }),
    ).toEqual(["bar strength not stated: the stress developed is not limited by it"]);
    const blank = { edge_1_mm: 100, bond_strength_uncracked_char_MPa: null };
    expect(
      restsOn("aci318-19/17.6.5", blank, { readings: { blankUncrackedBond: "as_cracked" } }),
    ).toEqual(["bond stress in uncracked concrete taken as that in cracked concrete (as_cracked)"]);
    expect(restsOn("aci318-19/17.6.5", blank)).toEqual([]);
  });

  it("stands on the printed page and among the needs that check lists", () => {
    const aci = code("aci318-19");
    const tests = table({ ...shear, failure_mode: "bar_shear" });
    const { provision } = column(predict(aci, tests), FRP_SHEAR);
    expect(handCalculationText(trace(aci, provision, tests, 0)).replace(/\s+/g, " ")).toContain(
      "Depends on an input that is not stated: bar_shear_strength_specified_MPa is blank",
    );
    const needs = predictionNeeds(aci, tests).filter(({ effect }) => effect === "replaced");
    expect(needs.map(({ provision: { id }, columns, rows }) => [id, columns, rows])).toEqual([
      [FRP_SHEAR, ["bar_shear_strength_specified_MPa"], [0]],
    ]);
  });
});
