import { CURVE_LINK } from "../reading/curve-values";
import { expectedInColumn } from "../schema/column";
import { describePackage } from "../reading/data-package";
import { STUDY_COLUMNS } from "../schema/study";
import { TEST_COLUMNS } from "../schema/test-columns";
import { csvText } from "../table/csv-text";

/**
 * The files of an empty, documented data set, by name: header, one study to complete, card to fill
 * in, descriptor.
 */
export function emptyDataset(name: string): Readonly<Record<string, string>> {
  return {
    "tests.csv": csvText([...TEST_COLUMNS.map((column) => column.name), CURVE_LINK.name], []),
    "studies.csv": csvText(
      STUDY_COLUMNS.map((column) => column.name),
      [[name, "own", null, null, null, null, "supplied", null]],
    ),
    "README.md": emptyCard(name),
    "datapackage.json": `${JSON.stringify(describePackage({ name, title: `Own tests: ${name}`, description: "Own tests; see README.md.", extraFields: [CURVE_LINK] }), null, 2)}\n`,
  };
}

/**
 * One value for each column that the file must have, and for those without which the anchorage code
 * gives no capacity, as an example of how they are written; a test predicts from it.
 */
const SMALLEST: ReadonlyArray<readonly [string, string]> = [
  ["test_id", "A-1"],
  ["study_id", "as in studies.csv"],
  ["series_id", "A (the same for specimens that are alike)"],
  ["bar_material", "gfrp"],
  ["bar_diameter_mm", "16"],
  ["installation", "post_installed"],
  ["cracked", "no"],
  ["concrete_strength_MPa", "31.5"],
  ["concrete_strength_basis", "cylinder"],
  ["embedment_mm", "128"],
  ["bond_strength_char_MPa", "9 (characteristic bond stress of the adhesive, from its approval)"],
  ["setup", "unconfined_tension"],
  ["action", "tension"],
  ["peak_load_kN", "58.2"],
  ["failure_mode", "bond"],
];

function emptyCard(name: string): string {
  const row = (cells: ReadonlyArray<string>): string => `| ${cells.join(" | ")} |`;
  return [
    `# ${name}`,
    "",
    "**What.** (bars, adhesive, concrete, arrangement; how many tests in how many series)",
    "",
    "**Where from.** (laboratory, dates, who measured, report)",
    "",
    "**Units.** As in the column names: mm, kN, MPa, GPa. Another unit may stand in the name (`peak_load_lbf`) or in a units row below the header.",
    "",
    "**Exclusions.** (write the reason into `excluded`; never delete a test)",
    "",
    "**Doubts.** (what a careful reader should know)",
    "",
    "**Edges.** Give `edge_1_mm` to `edge_4_mm` where the concrete ends near the bar. Where you looked and there is no edge near, leave them blank and write `far` into `other_edges`. A blank in both means that nobody said: the edges are then read as far, which gives the largest capacity, and `check` and `compare` name how many rows rest on that.",
    "",
    "**Concrete strength.** Say in `concrete_strength_basis` what it was measured on. `unknown` predicts nothing; `cylinder_assumed` takes it for a cylinder's, knowingly, and every comparison says so.",
    "",
    "**Load.** `peak_load_kN` is the highest load of the test. Where a record gives another measure only, add `peak_bar_stress_MPa` (with `bar_area_mm2`) or `reported_bond_strength_MPa` (with `effective_diameter_mm` where it was calculated with another diameter than `bar_diameter_mm`) and leave the load blank: it is derived and marked so. A test that was ended before anything failed has its load and `failure_mode` `stopped`: a lower bound.",
    "",
    "**Tension and shear at once.** `action` is `tension_and_shear`, `setup` is `combined_loading`. From the tension N and the shear V at the highest load give the resultant, `peak_load_kN` = sqrt(N^2 + V^2), " +
      "and its angle, `load_angle_deg` = atan(V / N). Such a test is compared with the interaction of a code only, along a load path from zero at that angle. Where one load was held while the other grew, " +
      "the path is another: exclude the test with that reason.",
    "",
    "**Installation.** Direction of the hole, drilling, cleaning, moisture and temperatures have columns of their own. They change no capacity: the bond strength given must be that of the product " +
      "under these conditions. Results can be grouped by them (`compare --by`, `--cells`).",
    "",
    "## The smallest usable row (invented)",
    "",
    ...SMALLEST.map(([name, value]) => `- \`${name}\`: ${value}`),
    "",
    "Without `cracked` and `bond_strength_char_MPa` bars in drilled holes are read, but get no capacity in concrete breakout and bond. With these, `check` says which further columns which provision wants.",
    "",
    "## Columns of tests.csv",
    "",
    "Blank = not known, or as stated. A column without any value may be deleted; further columns may be added if `datapackage.json` announces them.",
    "",
    row(["column", "expected", "required", "meaning"]),
    row(["---", "---", "---", "---"]),
    ...TEST_COLUMNS.map((column) =>
      row([
        `\`${column.name}\``,
        expectedInColumn(column),
        column.required ? "yes" : "",
        column.meaning,
      ]),
    ),
    row([`\`${CURVE_LINK.name}\``, "a text", "", CURVE_LINK.description]),
    "",
  ].join("\n");
}
