import { groupRatios, type Comparison, type GroupSettings, type RatioGroup } from "../../comparison";
import { ratioModelOf, type RatioModel } from "./ratio-model";

/** One combination of mode, material and size, tested or not. */
export interface EvidenceCell {
  readonly mode: string;
  readonly material: string;
  readonly size: string;
  /** The group of its tests; null where there is none. */
  readonly group: RatioGroup | null;
  /** The law that a simulation takes for the truth, and what it rests on; null where nothing is known. */
  readonly model: RatioModel | null;
  readonly basis: "own tests" | "tests of the material" | "tests of the mode" | "nothing";
}

/** Failures of one cell from which its own mean, and its own scatter, is taken rather than that of its material. */
const [OWN_MEAN, OWN_SCATTER] = [5, 10] as const;

/**
 * Every combination of the modes, materials and sizes of a comparison: its tests, and the law its ratios are taken to
 * follow. The mean is the cell's own from 5 failures on and its scatter from 10 on, which fewer tests cannot tell; else
 * they are those of the material in the mode, else of all materials given.
 *
 * @param materials those planned for, e.g. ["gfrp", "bfrp"]
 * @example evidenceCells(comparison, ["gfrp"], seriesOf).filter(({ group }) => group === null)
 */
export function evidenceCells(comparison: Comparison, materials: readonly string[], seriesOf: (row: number) => string, settings: GroupSettings = {}): EvidenceCell[] {
  const { tests, evidence } = comparison;
  const [material, size] = [tests.texts("bar_material"), tests.texts("bar_size")];
  const of = evidence.filter(({ row }) => materials.includes(material[row] ?? ""));
  const groups = groupRatios({ ...comparison, evidence: of }, ["mode", "bar_material", "bar_size"], settings);
  const modes = [...new Set(of.map(({ mode }) => mode as string))].sort();
  const sizes = [...new Set(Array.from({ length: tests.length }, (_, row) => row).filter((row) => materials.includes(material[row] ?? "")).flatMap((row) => size[row] ?? []))].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  return modes.flatMap((mode) => {
    const ofMode = ratioModelOf(of.filter((one) => one.mode === mode), seriesOf, settings.distribution);
    return materials.flatMap((one) => {
      const ofMaterial = ratioModelOf(of.filter(({ row, mode: other }) => other === mode && material[row] === one), seriesOf, settings.distribution);
      return sizes.map((label): EvidenceCell => {
        const group = groups.find(({ by }) => by["mode"] === mode && by["bar_material"] === one && by["bar_size"] === label) ?? null;
        const wider = ofMaterial ?? ofMode;
        const own = group && group.n >= OWN_MEAN ? ratioModelOf(group.evidence, seriesOf, settings.distribution) : null;
        const model = own && group && group.n < OWN_SCATTER ? { ...own, scale: wider?.scale ?? own.scale, betweenShare: wider?.betweenShare ?? own.betweenShare } : (own ?? wider);
        return { mode, material: one, size: label, group, model, basis: own ? "own tests" : ofMaterial ? "tests of the material" : ofMode ? "tests of the mode" : "nothing" };
      });
    });
  });
}
