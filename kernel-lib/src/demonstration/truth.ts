import type { BarMaterial, BarSurface } from "../dataset";

/**
 * A kind of bar of the invented campaign: material, surface, and how its true means deviate from
 * the common models.
 */
export interface BarKind {
  /** Letter of the invented bar family. */
  readonly family: string;
  readonly material: BarMaterial;
  readonly surface: BarSurface;
  readonly modulus_GPa: number;
  /** Factor on the mean concrete breakout model. */
  readonly breakout: number;
  /** Factor on the mean adhesive bond stress, for a 16 mm bar. */
  readonly bond: number;
  /** Exponent e of the size effect (16 mm / d)^e on bond. */
  readonly bondSizeExponent: number;
  /** Factor on the mean bond stress of cast-in bars. */
  readonly castInBond: number;
  /** Factor on the mean concrete edge breakout model in shear. */
  readonly edgeBreakout: number;
  /** Factor on twice the lesser of bond and breakout. */
  readonly pryout: number;
}

/**
 * An invented adhesive: true mean bond stress of a 16 mm steel bar, and the characteristic value it
 * was qualified for; MPa.
 */
export interface Adhesive {
  readonly meanUncracked: number;
  readonly meanCracked: number;
  readonly charUncracked: number;
  readonly charCracked: number;
}

/** The modes that compete in a specimen. */
export type TrueMode =
  | "concrete_breakout"
  | "bond"
  | "splitting"
  | "bar_rupture"
  | "rupture_at_grip"
  | "concrete_edge_breakout"
  | "pryout"
  | "bar_shear";

/**
 * All that the invented campaign is generated from. Nothing here was measured; the numbers are
 * chosen to be plausible, and are known exactly so that an analysis can be checked against them.
 */
export const TRUTH = {
  barKinds: [
    {
      family: "A",
      material: "steel",
      surface: "ribbed",
      modulus_GPa: 200,
      breakout: 1.02,
      bond: 1.0,
      bondSizeExponent: 0,
      castInBond: 1.0,
      edgeBreakout: 1.0,
      pryout: 1.0,
    },
    {
      family: "B",
      material: "gfrp",
      surface: "ribbed",
      modulus_GPa: 48,
      breakout: 0.96,
      bond: 0.85,
      bondSizeExponent: 0.15,
      castInBond: 0.78,
      edgeBreakout: 0.85,
      pryout: 0.9,
    },
    {
      family: "C",
      material: "gfrp",
      surface: "sand_coated",
      modulus_GPa: 52,
      breakout: 0.96,
      bond: 0.92,
      bondSizeExponent: 0.15,
      castInBond: 0.84,
      edgeBreakout: 0.86,
      pryout: 0.9,
    },
    {
      family: "D",
      material: "bfrp",
      surface: "sand_coated",
      modulus_GPa: 54,
      breakout: 0.94,
      bond: 0.8,
      bondSizeExponent: 0.15,
      castInBond: 0.75,
      edgeBreakout: 0.82,
      pryout: 0.88,
    },
  ] satisfies ReadonlyArray<BarKind> as ReadonlyArray<BarKind>,
  adhesives: {
    P: { meanUncracked: 15, meanCracked: 8.5, charUncracked: 10.5, charCracked: 5.5 },
    Q: { meanUncracked: 11, meanCracked: 6, charUncracked: 7.5, charCracked: 4 },
  } satisfies Record<string, Adhesive> as Readonly<Record<"P" | "Q", Adhesive>>,
  /** Mean breakout coefficient, N, mm, MPa (cylinder): CCD mean for post-installed fasteners. */
  breakoutCoefficient: 14.6,
  /** Mean edge breakout coefficient in shear, N, mm, MPa (cylinder): CCD mean. */
  edgeBreakoutCoefficient: 1.08,
  /** Factor on breakout, tension and shear, in cracked concrete. */
  crackedFactor: 0.7,
  /** A confined set-up raises the bond stress to 1 / 0.75 of the unconfined one. */
  confinedSetUp: 0.75,
  /** Cast-in bars: mean bond stress = 2.0 sqrt(fc) (1 - 0.02 (l/d - 5)). */
  castInBondCoefficient: 2.0,
  castInLengthSlope: 0.02,
  /** Cast-in bars: splitting at (0.5 + 0.2 c/d) of the bond capacity, c the clear cover. */
  splittingAtNoCover: 0.5,
  splittingCoverSlope: 0.2,
  /** Steel in shear fails at 0.62 of its tensile strength; FRP at its transverse shear strength. */
  steelShearRatio: 0.62,
  /** Mean rupture load in a poor grip, as a share of the bar's rupture load. */
  gripShare: 0.72,
  /**
   * Grips. Wedges on the bar itself break FRP bars at `gripShare` of their rupture load
   * (coefficient of variation `withinSeriesCov.rupture_at_grip`, the same in every series). No
   * other grip breaks a bar below its strength, and none a steel bar. FRP bars are held by wedges
   * where a poor grip is planned, and where no mode is planned to reach `wedgesUpTo` of the rupture
   * load.
   */
  grips: {
    breaking: "wedges_on_bar",
    wedgesUpTo: 0.35,
    others: ["wedges_on_grouted_sleeve", "threaded_sleeve", "cast_block"],
    steel: ["wedges_on_bar", "threaded_sleeve"],
  },
  /**
   * Scatter between specimens of one series: coefficient of variation of a log-normal factor with
   * mean 1.
   */
  withinSeriesCov: {
    concrete_breakout: 0.12,
    bond: 0.09,
    splitting: 0.1,
    bar_rupture: 0.04,
    rupture_at_grip: 0.08,
    concrete_edge_breakout: 0.12,
    pryout: 0.12,
    bar_shear: 0.05,
  } satisfies Record<TrueMode, number> as Readonly<Record<TrueMode, number>>,
  /**
   * Scatter between series: coefficient of variation of a log-normal factor with mean 1, one a mode
   * and series. Bar modes have none.
   */
  betweenSeriesCov: 0.06,
  /**
   * Scatter between laboratories: the first has the factor f, drawn log-normal with this COV, the
   * second 1/f. Bar modes have none.
   */
  studyCov: 0.04,
  /** The jacks stop here; the test then ends as "stopped". */
  jackCapacity_kN: 220,
} as const;

/** Sizes: label, nominal diameter and area, and mean strengths by material, MPa. */
export interface BarSize {
  readonly label: string;
  readonly diameter_mm: number;
  readonly area_mm2: number;
  readonly gfrpStrength: number;
  readonly bfrpStrength: number;
}

export const BAR_SIZES: ReadonlyArray<BarSize> = [
  { label: "10", diameter_mm: 9.5, area_mm2: 71, gfrpStrength: 960, bfrpStrength: 1120 },
  { label: "13", diameter_mm: 12.7, area_mm2: 129, gfrpStrength: 900, bfrpStrength: 1060 },
  { label: "16", diameter_mm: 15.9, area_mm2: 199, gfrpStrength: 840, bfrpStrength: 1000 },
  { label: "19", diameter_mm: 19.1, area_mm2: 284, gfrpStrength: 800, bfrpStrength: 950 },
  { label: "25", diameter_mm: 25.4, area_mm2: 510, gfrpStrength: 720, bfrpStrength: 880 },
];

/** Strengths of a bar of the campaign, MPa; null where the property does not exist. */
export interface BarStrengths {
  readonly mean: number;
  readonly specified: number;
  readonly yield: number | null;
  readonly shear: number;
  /**
   * Guaranteed transverse shear strength; null for steel, whose shear strength no specification
   * states.
   */
  readonly shearSpecified: number | null;
}

/**
 * Guaranteed strength of an FRP bar, tension and transverse shear: mean - 3 SD at 5 % scatter, to
 * the full MPa.
 */
const guaranteed = (mean: number): number => Math.round(0.85 * mean);

/** Measured mean and specified (for FRP guaranteed) strengths of a kind and size of bar. */
export function barStrengths(kind: BarKind, size: BarSize): BarStrengths {
  if (kind.material === "steel") {
    return {
      mean: 640,
      specified: 550,
      yield: 540,
      shear: TRUTH.steelShearRatio * 640,
      shearSpecified: null,
    };
  }
  const mean = kind.material === "bfrp" ? size.bfrpStrength : size.gfrpStrength;
  const shear = kind.material === "bfrp" ? 205 : kind.surface === "ribbed" ? 175 : 185;
  return {
    mean,
    specified: guaranteed(mean),
    yield: null,
    shear,
    shearSpecified: guaranteed(shear),
  };
}
