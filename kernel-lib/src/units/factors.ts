import { MM2_PER_IN2, MM_PER_INCH, MPA_PER_PSI, N_PER_LBF, STANDARD_GRAVITY } from "./constants";

/** What a unit measures. Two units convert into each other only within one dimension. */
export type Dimension =
  "length" | "area" | "force" | "stress" | "ratio" | "time" | "angle" | "temperature";

interface UnitDefinition {
  readonly dimension: Dimension;
  /** Size of the unit in the base unit of its dimension: mm, mm2, N, MPa, 1, s, deg, degC. */
  readonly size: number;
  /** Where its zero lies, in the base unit; 0 for all but temperatures. */
  readonly zero: number;
}

const unit = (dimension: Dimension, size: number, zero = 0): UnitDefinition => ({
  dimension,
  size,
  zero,
});

/** Every unit the project reads or writes, with its size in mm, mm2, N, MPa, 1, s, deg or degC. */
const UNITS: ReadonlyMap<string, UnitDefinition> = new Map([
  ["mm", unit("length", 1)],
  ["cm", unit("length", 10)],
  ["m", unit("length", 1000)],
  ["um", unit("length", 0.001)],
  ["in", unit("length", MM_PER_INCH)],
  ["ft", unit("length", 304.8)],
  ["mm2", unit("area", 1)],
  ["cm2", unit("area", 100)],
  ["m2", unit("area", 1e6)],
  ["in2", unit("area", MM2_PER_IN2)],
  ["N", unit("force", 1)],
  ["kN", unit("force", 1000)],
  ["MN", unit("force", 1e6)],
  ["lbf", unit("force", N_PER_LBF)],
  ["kip", unit("force", 1000 * N_PER_LBF)],
  ["kgf", unit("force", STANDARD_GRAVITY)],
  ["tf", unit("force", 1000 * STANDARD_GRAVITY)],
  ["Pa", unit("stress", 1e-6)],
  ["kPa", unit("stress", 1e-3)],
  ["MPa", unit("stress", 1)],
  ["GPa", unit("stress", 1000)],
  ["psi", unit("stress", MPA_PER_PSI)],
  ["ksi", unit("stress", 1000 * MPA_PER_PSI)],
  ["Msi", unit("stress", 1e6 * MPA_PER_PSI)],
  ["kgf/cm2", unit("stress", STANDARD_GRAVITY / 100)],
  ["1", unit("ratio", 1)],
  ["percent", unit("ratio", 0.01)],
  ["s", unit("time", 1)],
  ["ms", unit("time", 0.001)],
  ["min", unit("time", 60)],
  ["h", unit("time", 3600)],
  ["deg", unit("angle", 1)],
  ["rad", unit("angle", 180 / Math.PI)],
  ["degC", unit("temperature", 1)],
  ["degF", unit("temperature", 5 / 9, -160 / 9)],
]);

/**
 * Other spellings of a unit, lower case. Only spellings with one reading are here: "mpa" is
 * megapascal (nobody writes millipascal for concrete), but "t" is left out because it may be tonne,
 * ton or time.
 */
const SPELLINGS: ReadonlyMap<string, string> = new Map([
  ...[...UNITS.keys()]
    .filter((name) => name !== "MN" && name !== "m" && name !== "Msi")
    .map((name) => [name.toLowerCase(), name] as const),
  ["m", "m"],
  ["msi", "Msi"],
  ["n/mm2", "MPa"],
  ["n/mm^2", "MPa"],
  ["n/mm²", "MPa"],
  ["kn/mm2", "GPa"],
  ["kn/mm²", "GPa"],
  ["mm^2", "mm2"],
  ["mm²", "mm2"],
  ["sqmm", "mm2"],
  ["cm^2", "cm2"],
  ["cm²", "cm2"],
  ["in^2", "in2"],
  ["in²", "in2"],
  ["sqin", "in2"],
  ["sq in", "in2"],
  ["in.", "in"],
  ["in.2", "in2"],
  ["in.²", "in2"],
  ["inch", "in"],
  ["inches", "in"],
  ['"', "in"],
  ["ft.", "ft"],
  ["lb", "lbf"],
  ["lbs", "lbf"],
  ["lb.", "lbf"],
  ["kips", "kip"],
  ["k", "kip"],
  ["lb/in2", "psi"],
  ["lbf/in2", "psi"],
  ["kip/in2", "ksi"],
  ["kg/cm2", "kgf/cm2"],
  ["kg/cm²", "kgf/cm2"],
  ["µm", "um"],
  ["μm", "um"],
  ["micron", "um"],
  ["microns", "um"],
  ["-", "1"],
  ["", "1"],
  ["none", "1"],
  ["%", "percent"],
  ["pct", "percent"],
  ["sec", "s"],
  ["seconds", "s"],
  ["°", "deg"],
  ["degree", "deg"],
  ["degrees", "deg"],
  ["°c", "degC"],
  ["°f", "degF"],
]);

/**
 * The project's own spelling of a unit, or null when it is not known.
 * Case matters only for MN (meganewton): "mn" is not read, as it could be a misspelt unit of
 * another size.
 * @example canonicalUnit("N/mm2") // "MPa"
 */
export function canonicalUnit(spelling: string): string | null {
  const trimmed = spelling.trim();
  if (UNITS.has(trimmed)) return trimmed;
  return SPELLINGS.get(trimmed.toLowerCase()) ?? null;
}

/** The dimension a unit measures, or null for an unknown unit. */
export function unitDimension(spelling: string): Dimension | null {
  const name = canonicalUnit(spelling);
  return name === null ? null : (UNITS.get(name)?.dimension ?? null);
}

function definition(spelling: string): UnitDefinition {
  const name = canonicalUnit(spelling);
  const found = name === null ? undefined : UNITS.get(name);
  if (found === undefined)
    throw new RangeError(
      `unknown unit "${spelling}": expected one of ${[...UNITS.keys()].join(", ")}`,
    );
  return found;
}

/**
 * Factor that turns a number in one unit into a number in another: value[to] = factor *
 * value[from].
 * @throws RangeError for an unknown unit, for two units of different dimensions, and for
 *   temperatures on two scales, which no factor converts.
 * @example unitFactor("psi", "MPa") // 0.006894757293168361
 */
export function unitFactor(from: string, to: string): number {
  const { factor, offset } = unitConversion(from, to);
  if (offset !== 0)
    throw new RangeError(
      `no factor turns ${from} into ${to}: their zeros differ, expected unitConversion`,
    );
  return factor;
}

/**
 * Factor and offset between two units: value[to] = factor * value[from] + offset. The offset is 0
 * but between scales of temperature.
 * @throws RangeError for an unknown unit or for two units of different dimensions.
 * @example unitConversion("degF", "degC") // { factor: 0.5556, offset: -17.78 }
 */
export function unitConversion(
  from: string,
  to: string,
): { readonly factor: number; readonly offset: number } {
  const source = definition(from);
  const target = definition(to);
  if (source.dimension !== target.dimension) {
    throw new RangeError(
      `cannot turn ${source.dimension} into ${target.dimension}: "${from}" to "${to}", expected two units of one dimension`,
    );
  }
  // Equal sizes give exactly 1, and a larger unit over a smaller one stays exact (1000, 25.4).
  return {
    factor: source.size === target.size ? 1 : source.size / target.size,
    offset: (source.zero - target.zero) / target.size,
  };
}

/**
 * A value converted between two units.
 * @example convertUnit(4000, "psi", "MPa") // 27.579029172673443
 */
export function convertUnit(value: number, from: string, to: string): number {
  const { factor, offset } = unitConversion(from, to);
  return offset === 0 ? value * factor : value * factor + offset;
}
