import { ratioModelOf } from "../../kernel-lib/src/proposals";
import { once, tests } from "./example-study";

/** Names that examples take as given; computed when an example first asks for them. */
export type Given = Readonly<Record<string, () => unknown>>;

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

const numbers = (column: string) => async (): Promise<number[]> => [
  ...(await someGlass()).numbers(column),
  ...(await someSteel()).numbers(column),
];
const words = (column: string) => async (): Promise<(string | null)[]> => [
  ...(await someGlass()).texts(column),
  ...(await someSteel()).texts(column),
];
const loads = (of: typeof glassTests) => async (): Promise<number[]> => [
  ...(await of()).numbers("peak_load_kN"),
];
const seriesOf = (of: typeof glassTests) => async (): Promise<(string | null)[]> => [
  ...(await of()).texts("series_id"),
];

const SLIPS = [0.1, 0.2, 0.3, 0.5, 0.7, 0.9, 1.1, 1.3];

/** Samples and columns of numbers. */
export const SAMPLES: Given = {
  laws: () => [
    { weight: 1, centre: 0, shift: 0, sd: 0.1, degreesOfFreedom: 9, count: 10, correlation: 0.3 },
  ],
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

/** Ratios of one group, and what stands beside them. */
export const RATIOS = [1.02, 0.91, 1.13, 0.97, 1.21, 1.08, 0.94, 1.17, 1.05, 0.99, 1.1, 0.88];

export const presentTests = RATIOS.map((ratio, row) => ({
  ratio,
  lowerBound: false,
  series: `series ${String(row % 4)}`,
  study: "s",
  row,
}));
export const model = (): unknown =>
  ratioModelOf(presentTests, { distribution: "lognormal", fractile: 0.05 });
