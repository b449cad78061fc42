import { createRandom } from "../../../kernel-lib/src/statistics/random";

/** One invented bond test in SI units: mm, MPa, kN. */
export interface TrueTest {
  readonly id: string;
  readonly series: string;
  readonly material: "gfrp" | "bfrp" | "steel";
  readonly diameter_mm: number;
  readonly embedment_mm: number;
  readonly strength_MPa: number;
  readonly bond_MPa: number;
  readonly load_kN: number;
  readonly mode: "bond" | "stopped";
}

/** A campaign as a laboratory might write it: the table as typed, and the truth behind it. */
export interface MadeUpCampaign {
  readonly csv: string;
  readonly truth: readonly TrueTest[];
}

/** Exact factors by definition: 25.4 mm/in; 4.4482216152605 N/lbf; MPa/psi from both. */
const MM_PER_IN = 25.4;
const N_PER_LBF = 4.4482216152605;
const MPA_PER_PSI = N_PER_LBF / MM_PER_IN ** 2;

interface Writing {
  readonly name: string;
  /** Value in the column's unit from the value in SI. */
  readonly of: (si: number) => number;
}
const plain = (name: string): Writing => ({ name, of: (si) => si });
const LENGTHS = (what: string): readonly Writing[] => [
  plain(`${what}_mm`),
  { name: `${what}_in`, of: (mm) => mm / MM_PER_IN },
  { name: `${what}_cm`, of: (mm) => mm / 10 },
];
const STRESSES = (what: string): readonly Writing[] => [
  plain(`${what}_MPa`),
  { name: `${what}_psi`, of: (MPa) => MPa / MPA_PER_PSI },
];
const LOADS: readonly Writing[] = [
  plain("peak_load_kN"),
  { name: "peak_load_lbf", of: (kN) => (1000 * kN) / N_PER_LBF },
  { name: "peak_load_N", of: (kN) => 1000 * kN },
];

/**
 * The campaign of a seed: single bars in uncracked concrete, far from edges, that failed in bond or
 * were stopped; its units, order of columns, separator and decimal sign are drawn.
 */
export function madeUpCampaign(seed: number): MadeUpCampaign {
  const random = createRandom(seed);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random.uniform() * from.length)]!;
  const materials = [["gfrp"], ["gfrp", "steel"], ["bfrp", "gfrp", "steel"]] as const;
  const bounds = seed % 2 === 0 ? 0.2 : 0;
  const truth = pick(materials).flatMap((material) => {
    const center = 0.9 + 0.6 * random.uniform();
    return Array.from({ length: 2 + Math.floor(22 * random.uniform()) }, (_, k): TrueTest => {
      const diameter_mm = pick([8, 10, 12, 16, 20]);
      const embedment_mm = diameter_mm * pick([5, 8, 10]);
      const bond_MPa = 8 + Math.round(40 * random.uniform()) / 10;
      const area = Math.PI * diameter_mm * embedment_mm;
      const ratio = center * Math.exp(0.12 * random.normal());
      return {
        id: `${material}-${k + 1}`,
        series: `${material}-${(k % 4) + 1}`,
        material,
        diameter_mm,
        embedment_mm,
        strength_MPa: 20 + Math.round(200 * random.uniform()) / 10,
        bond_MPa,
        load_kN: Math.round(ratio * area * bond_MPa) / 1000,
        mode: random.uniform() < bounds ? "stopped" : "bond",
      };
    });
  });
  const [diameter, embedment] = [pick(LENGTHS("bar_diameter")), pick(LENGTHS("embedment"))];
  const strength = pick(STRESSES("concrete_strength"));
  const bond = pick(STRESSES("bond_strength_char"));
  const load = pick(LOADS);
  const comma = pick([false, true]);
  const separator = comma ? ";" : pick([",", ";", "\t"]);
  const number = (value: number): string => {
    const text = String(value);
    return comma ? text.replace(".", ",") : text;
  };
  const columns: readonly (readonly [string, (test: TrueTest) => string])[] = [
    ["test_id", (t) => t.id],
    ["study_id", () => "made-up"],
    ["series_id", (t) => t.series],
    ["bar_material", (t) => t.material],
    [diameter.name, (t) => number(diameter.of(t.diameter_mm))],
    ["installation", () => "post_installed"],
    ["cracked", () => "no"],
    ["other_edges", () => "far"],
    [strength.name, (t) => number(strength.of(t.strength_MPa))],
    ["concrete_strength_basis", () => "cylinder"],
    [embedment.name, (t) => number(embedment.of(t.embedment_mm))],
    [bond.name, (t) => number(bond.of(t.bond_MPa))],
    ["setup", () => "unconfined_tension"],
    ["action", () => "tension"],
    [load.name, (t) => number(load.of(t.load_kN))],
    ["failure_mode", (t) => t.mode],
    // Columns without any value, as templates leave them.
    ...(pick([true, false]) ? [["adhesive", () => ""] as const] : []),
  ];
  const order = columns
    .map((column) => [random.uniform(), column] as const)
    .sort((a, b) => a[0] - b[0])
    .map(([, column]) => column);
  const rows = [order.map(([name]) => name), ...truth.map((t) => order.map(([, of]) => of(t)))];
  return { csv: rows.map((row) => `${row.join(separator)}\n`).join(""), truth };
}
