import { readFile, writeFile } from "node:fs/promises";
import * as comparisonRoom from "../../kernel-lib/src/comparison";
import * as curvesRoom from "../../kernel-lib/src/curves";
import * as datasetRoom from "../../kernel-lib/src/dataset";
import * as demonstrationRoom from "../../kernel-lib/src/demonstration";
import * as documentRoom from "../../kernel-lib/src/exports/document";
import * as draftRoom from "../../kernel-lib/src/exports/draft";
import * as packetRoom from "../../kernel-lib/src/exports/packet";
import * as workbookRoom from "../../kernel-lib/src/exports/workbook";
import { pdfTags } from "../../kernel-lib/src/exports/document/pdf-tags";
import * as figuresRoom from "../../kernel-lib/src/figures";
import * as formulaRoom from "../../kernel-lib/src/formula";
import * as face from "../../kernel-lib/src/index";
import * as notebookRoom from "../../kernel-lib/src/notebook";
import * as proposalsRoom from "../../kernel-lib/src/proposals";
import * as provisionsRoom from "../../kernel-lib/src/provisions";
import * as regressionRoom from "../../kernel-lib/src/regression";
import * as statisticsRoom from "../../kernel-lib/src/statistics";
import * as tablesRoom from "../../kernel-lib/src/tables";
import * as unitsRoom from "../../kernel-lib/src/units";
import { pdf, results, strips } from "./example-packet";
import { model, presentTests, RATIOS, SAMPLES, type Given } from "./example-samples";
import {
  aci318,
  comparison,
  data,
  found,
  group,
  groups,
  prediction,
  proposal,
  provision,
  study,
  tests,
} from "./example-study";

type Names = Readonly<Record<string, unknown>>;

/** What the index of each room exports. */
const ROOMS: Readonly<Record<string, Names>> = {
  units: unitsRoom,
  formula: formulaRoom,
  statistics: statisticsRoom,
  regression: regressionRoom,
  dataset: datasetRoom,
  curves: curvesRoom,
  demonstration: demonstrationRoom,
  provisions: provisionsRoom,
  comparison: comparisonRoom,
  proposals: proposalsRoom,
  figures: figuresRoom,
  tables: tablesRoom,
  exports: { ...documentRoom, ...draftRoom, ...packetRoom, ...workbookRoom },
  notebook: notebookRoom,
  face,
};

/** Given in every room. */
const EVERYWHERE: Given = {
  readFile: () => readFile,
  writeFile: () => writeFile,
  study,
  data,
  dataset: data,
  tests,
  aci318: () => aci318,
  comparison,
  groups,
  group: () => group("gfrp"),
  provision: () => provision,
  prediction,
  found,
  change: async () => (await found()).change,
  derived: async () => (await found()).derived,
  proposal,
  folder: () => "exports/packet",
};

/** Given in one room, before what is given everywhere. */
const GIVEN: Readonly<Record<string, Given>> = {
  statistics: SAMPLES,
  regression: SAMPLES,
  comparison: {
    points: async () =>
      (await group("gfrp")).evidence.map(({ row, ratio, bound }) => ({
        group: "GFRP",
        family: "bond",
        x: 8 + (row % 4) * 4,
        y: ratio,
        series: `series ${String(row % 6)}`,
        bound,
        label: String(row),
      })),
    trend: async () => {
      const { evidence } = await group("gfrp");
      const points = evidence.map(({ row, ratio, bound }) => ({
        group: "GFRP",
        family: "bond",
        x: 8 + (row % 4) * 4,
        y: ratio,
        series: `series ${String(row % 6)}`,
        bound,
        label: String(row),
        beside: { adhesive: row % 2 === 0 ? "P" : "Q", cracked: row % 3 === 0 ? "yes" : "no" },
      }));
      return comparisonRoom.trendByGroup(points, {
        scale: "log",
        seriesEffect: false,
        at: [10, 16],
        response: "ratio",
        variable: "diameter",
      });
    },
    valueOf: () => (row: number) => (row % 2 === 0 ? "one" : "two"),
  },
  curves: {
    record: async () => {
      const file = "datasets/demo/curves/IH-005-1.csv";
      return curvesRoom.parseCurve(await readFile(file), file).curve;
    },
    reduced: async () => {
      const file = "datasets/demo/curves/IH-005-1.csv";
      const { curve } = curvesRoom.parseCurve(await readFile(file), file);
      return curvesRoom.reduceCurve(curve!);
    },
    bond: async () => {
      const slip_mm = Float64Array.from({ length: 40 }, (_, i) => (i + 1) / 20);
      return { slip_mm, bond_stress_MPa: slip_mm.map((s) => 12 * (1 - Math.exp(-s / 0.4))) };
    },
  },
  dataset: {
    table: tests,
    bond: async () => (await tests()).where(({ failure_mode }) => failure_mode === "bond"),
  },
  exports: {
    expression: () => formulaRoom.parseFormula("k_c * sqrt(f_c) * h_ef^1.5"),
    document: pdf,
    tags: async () => pdfTags(await pdf()),
    figure: strips,
    results,
  },
  proposals: {
    ratios: () => RATIOS,
    bounds: () => RATIOS.map(() => false),
    series: () => RATIOS.map((_, i) => `series ${String(i % 4)}`),
    x: () => RATIOS.map((_, i) => 8 + 4 * (i % 4)),
    experimental: () => RATIOS.map((ratio, i) => ratio * (40 + i)),
    theoretical: () => RATIOS.map((_, i) => 40 + i),
    resistances: () => ({ n: 12, b: 1, meanResistance: 1, errorCov: 0.15, modelCov: 0.1 }),
    steelGroup: () => group("steel"),
    rows: async () => (await group("gfrp")).evidence.map(({ row }) => row),
    model,
    present: () => presentTests,
    template: async () => (await tests()).row(0),
    candidate: async () => (await tests()).row(0),
  },
  tables: {
    table: async () =>
      tablesRoom.ratioGroupTable(await groups(), { id: "ratios", title: "Ratios" }),
  },
  provisions: {
    draws: () => Float64Array.of(28, 30, 33),
  },
  face: {
    proposal: async () =>
      (await study()).propose("aci318-19", { provision: "aci318-19/17.6.5", factor: 0.8 }),
    groups: async () => (await study()).compare("aci318-19").by("mode", "bar_material"),
    ratios: async () => (await study()).compare("aci318-19").mode("bond"),
    table: async () => (await study()).compare("aci318-19").by("mode").table(),
    figure: async () => (await study()).compare("aci318-19").by("mode").figure(),
    bar: async () => (await study()).where({ test_id: "IH-075-1" }),
  },
};

/**
 * What a name stands for in an example of a module, beside what the module itself exports.
 * @throws Error for a name that nobody gives
 */
export function given(name: string, module: string): unknown {
  const room = module.split("/")[0]!;
  const own = [GIVEN[room] ?? {}, EVERYWHERE].find((names) => Object.hasOwn(names, name));
  if (own !== undefined) return own[name]!();
  const exporting = [ROOMS[room] ?? {}, face as Names, ...Object.values(ROOMS)].find(
    (exported) => name in exported,
  );
  if (exporting === undefined) throw new Error(`${name} is not defined`);
  return exporting[name];
}
