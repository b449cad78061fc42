import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import { inch } from "../../provisions/specimens";

/** One specimen for each way in which a capacity is given or withheld. */
export const FIVE_SPECIMENS: readonly Partial<TestRowInput>[] = [
  { test_id: "edge", edge_1_mm: inch(4) },
  { test_id: "confined", setup: "confined_tension" },
  {
    test_id: "shear",
    action: "shear",
    setup: "direct_shear",
    failure_mode: "concrete_edge_breakout",
    edge_1_mm: inch(5),
    edge_2_mm: inch(6),
    member_thickness_mm: inch(6),
  },
  {
    test_id: "no-bond-stress",
    bond_strength_char_MPa: null,
    bond_strength_uncracked_char_MPa: null,
  },
  { test_id: "head", installation: "cast_in", bar_surface: "plain" },
];
