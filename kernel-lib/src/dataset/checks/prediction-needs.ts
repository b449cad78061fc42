import { diagnostic, type Diagnostic } from "./diagnostics";
import type { TestRow } from "../schema/test-row";
import type { TestTable } from "../table/test-table";

/** What a family of provisions needs to be evaluated on a row. */
interface Need {
  readonly provision: string;
  readonly concerns: (row: TestRow) => boolean;
  /** Columns that must be filled. */
  readonly columns: (row: TestRow) => ReadonlyArray<keyof TestRow>;
}

const bonded = (row: TestRow): boolean => row.installation === "post_installed";

const NEEDS: ReadonlyArray<Need> = [
  { provision: "bond of adhesive anchors (ACI 318-19 17.6.5, EN 1992-4 7.2.1.6)", concerns: (row) => bonded(row) && row.action === "tension", columns: () => ["bond_strength_char_MPa"] },
  { provision: "bond of adhesive anchors in cracked concrete: the critical distance", concerns: (row) => bonded(row) && row.cracked === "yes", columns: () => ["bond_strength_uncracked_char_MPa"] },
  { provision: "mean bond models (uniform bond 1998, cone with bond)", concerns: (row) => bonded(row) && row.action === "tension", columns: () => ["bond_strength_mean_MPa"] },
  { provision: "breakout and bond, cracked or uncracked (17.6.2.5, 17.6.5.2)", concerns: (row) => bonded(row) || row.action === "shear", columns: () => ["cracked"] },
  { provision: "bar rupture in tension (17.6.1)", concerns: (row) => row.action === "tension", columns: () => ["bar_area_mm2", "bar_strength_MPa"] },
  { provision: "steel in shear (17.7.1)", concerns: (row) => row.action === "shear" && row.bar_material === "steel", columns: () => ["bar_area_mm2", "bar_strength_MPa"] },
  { provision: "transverse shear of the FRP bar", concerns: (row) => row.action === "shear" && row.bar_material !== "steel", columns: () => ["bar_area_mm2", "bar_shear_strength_MPa"] },
  { provision: "edge breakout in shear (17.7.2, EN 1992-4 7.2.2.5)", concerns: (row) => row.action === "shear" && row.failure_mode === "concrete_edge_breakout", columns: () => ["edge_1_mm"] },
  { provision: "edge breakout in shear of a thin member (17.7.2.1)", concerns: (row) => row.action === "shear" && row.edge_1_mm !== null, columns: () => ["member_thickness_mm"] },
  { provision: "developable stress and splitting (ACI 440.1R-15 10.1, CSA S806 9.3)", concerns: (row) => row.installation === "cast_in" && row.action === "tension", columns: () => ["cover_mm"] },
  { provision: "groups (17.5.1.3)", concerns: (row) => (row.group_nx ?? 1) * (row.group_ny ?? 1) > 1, columns: (row) => [...((row.group_nx ?? 1) > 1 ? (["spacing_x_mm"] as const) : []), ...((row.group_ny ?? 1) > 1 ? (["spacing_y_mm"] as const) : [])] },
];

/** One missing value that keeps a provision from being applied, over all rows concerned. */
export interface MissingForPrediction {
  readonly provision: string;
  readonly columns: ReadonlyArray<string>;
  readonly rows: number;
  readonly of: number;
  readonly firstTest: string;
}

/**
 * Which values are missing for which provision, over the kept rows. A provision that lacks one is "not applicable" for the row;
 * nothing is guessed. Blank edges are no gap: they say that the edge is far.
 */
export function missingForPrediction(tests: TestTable): MissingForPrediction[] {
  const rows = tests.kept().rows();
  const found: MissingForPrediction[] = [];
  for (const { provision, concerns, columns } of NEEDS) {
    const concerned = rows.filter(concerns);
    const groups = new Map<string, TestRow[]>();
    for (const row of concerned) {
      const missing = columns(row).filter((name) => row[name] === null);
      if (missing.length === 0) continue;
      const key = missing.join(" ");
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [row]);
      else group.push(row);
    }
    for (const [key, lacking] of groups) found.push({ provision, columns: key.split(" "), rows: lacking.length, of: concerned.length, firstTest: lacking[0]?.test_id ?? "" });
  }
  return found;
}

/** The same as findings for a report, with a note on how blank edges are read. */
export function predictionFindings(tests: TestTable, file: string): Diagnostic[] {
  const found = missingForPrediction(tests).map(({ provision, columns, rows, of, firstTest }) =>
    diagnostic("information", "needed-for-prediction", `${provision} needs ${columns.join(" and ")}: blank in ${String(rows)} of ${String(of)} rows concerned (first ${firstTest})`, { file, column: columns.join(" "), expected: `${columns.join(" and ")} filled` }));
  const unconfined = tests.kept().where((row) => (row.setup === "unconfined_tension" || row.action === "shear") && row.edge_1_mm === null && row.edge_2_mm === null && row.edge_3_mm === null && row.edge_4_mm === null);
  if (unconfined.length > 0) {
    found.push(diagnostic("information", "edges-read-as-far", `${String(unconfined.length)} rows of unconfined tension or shear have no edge distance: all edges are read as far (breakout by 17.6.2 then has the full projected area); fill edge_1_mm where an edge is near`, { file, column: "edge_1_mm", expected: "edge_1_mm, or blank for far" }));
  }
  return found;
}
