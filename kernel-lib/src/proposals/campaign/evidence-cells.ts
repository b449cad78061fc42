import {
  distributionOfCode,
  groupRatios,
  keyReader,
  labelWords,
  testsOfGroup,
} from "../../comparison";
import type { Comparison, Evidence, GroupSettings, GroupTest, RatioGroup } from "../../comparison";
import { ratioModelOf, type RatioModel } from "./ratio-model";

/** One combination of mode, material and size, tested or not. */
export interface EvidenceCell {
  readonly mode: string;
  readonly material: string;
  readonly size: string;
  /** The group of its tests, judged as every group is; null where there is none. */
  readonly group: RatioGroup | null;
  /**
   * The cell of the group that decides its verdict, such as "layout single"; empty where the group
   * is one cell.
   */
  readonly deciding: string;
  /** Tests of the deciding cell, to which a campaign is added. */
  readonly tests: readonly GroupTest[];
  /**
   * The law that a campaign is simulated from, and what it rests on; null where it cannot be
   * estimated.
   */
  readonly model: RatioModel | null;
  readonly basis: "own tests" | "tests of the material" | "tests of the mode" | "nothing";
  /** Why the verdict stays open however many tests are added: "" where nothing prevents it. */
  readonly obstacle: string;
}

/** Failures of one cell from which its own law is taken rather than that of its material. */
const OWN_LAW = 5;

/**
 * Every combination of the modes, materials and sizes of a comparison: its tests, its verdict, and
 * the law of its ratios. The law is the cell's own from 5 failures in 3 series on; else that of the
 * material in the mode, else of all materials given, sizes pooled.
 *
 * Limits: a group whose mean differs between cells (layouts, adhesives) is planned for the cell
 * that decides, by that cell's tests alone; its verdict pools the scatter of all of them.
 * @param materials those planned for, e.g. ["gfrp", "bfrp"]
 * @example evidenceCells(comparison, ["gfrp"]).filter(({ group }) => group === null)
 */
export function evidenceCells(
  comparison: Comparison,
  materials: readonly string[],
  settings: GroupSettings = {},
): EvidenceCell[] {
  const { tests, evidence } = comparison;
  const { distribution = distributionOfCode(comparison.code), fractile = 0.05 } = settings;
  const question = { distribution, fractile };
  const [material, size] = [tests.texts("bar_material"), tests.texts("bar_size")];
  const of = evidence.filter(({ row }) => materials.includes(material[row] ?? ""));
  const lawOf = (some: readonly Evidence[]): RatioModel | null =>
    ratioModelOf(named(testsOfGroup(some, tests).tests), question);
  const groups = groupRatios(
    { ...comparison, evidence: of },
    ["mode", "bar_material", "bar_size"],
    settings,
  );
  const modes = [...new Set(of.map(({ mode }) => mode as string))].sort();
  const labels = material.flatMap((one, row) =>
    materials.includes(one ?? "") ? (size[row] ?? []) : [],
  );
  const sizes = [...new Set(labels)].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  return modes.flatMap((mode) => {
    const ofMode = lawOf(of.filter((one) => one.mode === mode));
    return materials.flatMap((one) => {
      const ofMaterial = lawOf(
        of.filter(({ row, mode: other }) => other === mode && material[row] === one),
      );
      const ofBoth = groups.filter(({ by }) => by["mode"] === mode && by["bar_material"] === one);
      return sizes.map((label): EvidenceCell => {
        const group = ofBoth.find(({ by }) => by["bar_size"] === label) ?? null;
        const deciding = group?.inGeneral.cell ?? "";
        const found = testsOfGroup(group ? decidingEvidence(comparison, group) : [], tests);
        const failures = found.tests.filter(({ lowerBound }) => !lowerBound).length;
        const own = failures >= OWN_LAW ? ratioModelOf(named(found.tests), question) : null;
        return {
          mode,
          material: one,
          size: label,
          group,
          deciding,
          tests: found.tests,
          model: own ?? ofMaterial ?? ofMode,
          obstacle: obstacleOf(found.tests, found.meansWithoutSd),
          basis: own
            ? "own tests"
            : ofMaterial
              ? "tests of the material"
              : ofMode
                ? "tests of the mode"
                : "nothing",
        };
      });
    });
  });
}

/** Tests that name no series say nothing of how series differ: a law is estimated without them. */
function named(tests: readonly GroupTest[]): readonly GroupTest[] {
  return tests.filter(({ series }) => series !== "");
}

/** The evidence of the cell that decides; all of it where the group is one cell. */
function decidingEvidence(
  comparison: Comparison,
  { evidence, inGeneral }: RatioGroup,
): readonly Evidence[] {
  const { cell, cellColumns } = inGeneral;
  if (cell === "") return evidence;
  const readers = cellColumns.map((name) => ({ name, read: keyReader(comparison, [name]) }));
  const cellOf = (one: Evidence): string =>
    readers.map(({ name, read }) => labelWords(name, read(one)[0] ?? null)).join(", ");
  return evidence.filter((one) => cellOf(one) === cell);
}

function obstacleOf(tests: readonly GroupTest[], meansWithoutSd: number): string {
  const nameless = tests.filter(({ series }) => series === "").length;
  if (nameless > 0) return `${nameless} of ${tests.length} tests have no series; enter series_id`;
  if (meansWithoutSd === 0) return "";
  const rows = meansWithoutSd === 1 ? "1 row is a mean" : `${meansWithoutSd} rows are means`;
  return `${rows} of several specimens without an SD; enter load_sd_kN`;
}
