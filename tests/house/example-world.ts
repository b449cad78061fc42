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
import { fontFaces, fontFile } from "../../kernel-lib/src/exports/images/fonts";
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

/** A name that examples of a room take as given; computed when an example first asks for it. */
type Given = Readonly<Record<string, () => unknown>>;

const { code, predict, Specimens } = provisionsRoom;
const { compare, groupRatios } = comparisonRoom;

const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
};


const study = once(() => face.openStudy());
const data = once(async () => (await study()).data);
/** Few modes, so that the examples are quick. */
const tests = once(async () =>
  (await data()).tests.where(
    ({ failure_mode, setup }) =>
      ["bond", "concrete_breakout"].includes(failure_mode ?? "") && setup === "unconfined_tension",
  ),
);
const aci318 = code("aci318-19");
/** Evidence of one mode, so that the examples are quick. */
const comparison = once(async () => {
  const whole = compare(await tests(), aci318);
  return { ...whole, evidence: whole.evidence.filter(({ mode }) => mode === "bond") };
});
const groups = once(async () => groupRatios(await comparison(), ["mode", "bar_material"]));
const group = async (material: string): Promise<comparisonRoom.RatioGroup> =>
  (await groups()).find(({ by }) => by["mode"] === "bond" && by["bar_material"] === material)!;
const found = once(async () => proposalsRoom.factorCase(await tests(), aci318, { seed: 2026 }));
const proposal = once(async () => (await found()).proposals[0]!);
const provision = aci318.provisions.find(({ id }) => id === "aci318-19/17.6.5")!;
const prediction = once(async () => predict(aci318, await tests()));
/** Bond failures of one material; all samples and columns are of one length. */
const failed = (material: string, count = 48) =>
  once(async () => {
    const bond = (await tests()).where(
      ({ failure_mode, bar_material }) => failure_mode === "bond" && bar_material === material,
    );
    return bond.where((_, i) => i < count);
  });
const [glassTests, steelTests] = [failed("gfrp"), failed("steel")];
const [someGlass, someSteel] = [failed("gfrp", 24), failed("steel", 24)];

const numbers = (column: string) => async (): Promise<number[]> =>
  [...(await someGlass()).numbers(column), ...(await someSteel()).numbers(column)];
const words = (column: string) => async (): Promise<(string | null)[]> => [
  ...(await someGlass()).texts(column),
  ...(await someSteel()).texts(column),
];
const loads = (of: typeof glassTests) => async (): Promise<number[]> =>
  [...(await of()).numbers("peak_load_kN")];
const seriesOf = (of: typeof glassTests) => async (): Promise<(string | null)[]> =>
  [...(await of()).texts("series_id")];

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

const SLIPS = [0.1, 0.2, 0.3, 0.5, 0.7, 0.9, 1.1, 1.3];

const SAMPLES: Given = {
  laws: () => [{ weight: 1, centre: 0, shift: 0, sd: 0.1, degreesOfFreedom: 9, count: 10, correlation: 0.3 }],
  steel: loads(steelTests),
  glass: loads(glassTests),
  series: seriesOf(glassTests),
  theirs: seriesOf(steelTests),
  values: loads(glassTests),
  logs: async () => (await loads(glassTests)()).map(Math.log),
  others: async () => (await loads(steelTests)()).map(Math.log),
  sizes: async () => [...(await glassTests()).numbers("bar_diameter_mm")],
  slip: () => SLIPS,
  bond: () => SLIPS.map((slip, i) => 12 * slip ** 0.4 * (i % 2 === 0 ? 1.01 : 0.99)),
  ratio: numbers("peak_load_kN"),
  load: numbers("peak_load_kN"),
  censored: async () => Array.from(await numbers("peak_load_kN")(), (_, i) => i % 5 === 0),
  bar_diameter_mm: numbers("bar_diameter_mm"),
  embedment_mm: numbers("embedment_mm"),
  concrete_strength_MPa: numbers("concrete_strength_MPa"),
  bar_material: words("bar_material"),
  study_id: words("study_id"),
};

const RATIOS = [1.02, 0.91, 1.13, 0.97, 1.21, 1.08, 0.94, 1.17, 1.05, 0.99, 1.1, 0.88];

const strips = async (): Promise<figuresRoom.Figure> =>
  figuresRoom.ratioStrip({
    id: "strips",
    title: "Ratios",
    caption: "Invented.",
    groups: figuresRoom.stripGroupsOf(await groups()),
  });

/** An empty page that takes text. */
async function pdf(): Promise<PDFKit.PDFDocument> {
  const { default: PdfDocument } = await import("pdfkit");
  const document = new PdfDocument({ tagged: true, pdfVersion: "1.7" });
  for (const face of fontFaces) document.registerFont(face, fontFile(face));
  return document;
}

/** What a packet is made from. */
async function results(): Promise<packetRoom.PacketResults> {
  const { comparison: compared, groups: judged, factors, proposals, change, question } = await found();
  const table = tablesRoom.ratioGroupTable(judged, { id: "ratios", title: "Ratios" });
  return {
    title: "Factors for FRP bars",
    caution: "Research use only.",
    studies: (await data()).studies,
    comparison: compared,
    groups: judged,
    factors,
    proposals,
    change,
    question,
    figures: [],
    tables: [table],
    beforeAfter: {
      table: tablesRoom.beforeAfterTable(change, { id: "change", title: "Before and after" }),
      figure: await strips(),
    },
    excluded: table,
    colophon: table,
  };
}

const presentTests = RATIOS.map((ratio, row) => ({
  ratio,
  lowerBound: false,
  series: `series ${String(row % 4)}`,
  study: "s",
  row,
}));
const model = (): unknown =>
  proposalsRoom.ratioModelOf(presentTests, { distribution: "lognormal", fractile: 0.05 });

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
    valueOf: () => (row: number) => (row % 2 === 0 ? "one" : "two"),
  },
  curves: {
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
