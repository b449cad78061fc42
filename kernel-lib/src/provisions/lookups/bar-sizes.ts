import { MM2_PER_IN2, MM_PER_INCH } from "../../units";
import type { Confidence } from "../model/levels";

/** Families of bar designations. */
export type BarSystem = "us" | "us_metric" | "csa_steel" | "en" | "csa_frp";

/** A bar size: nominal diameter in mm and nominal area in mm². */
export interface BarSize {
  readonly system: BarSystem;
  readonly designation: string;
  readonly diameter_mm: number;
  readonly area_mm2: number;
  readonly confidence: Confidence;
}

type Row = readonly [designation: string, diameter: number, area: number];

const rows = (
  system: BarSystem,
  confidence: Confidence,
  table: readonly Row[],
  length = 1,
  area = 1,
): BarSize[] =>
  table.map(([designation, d, a]) => ({
    system,
    designation,
    diameter_mm: d * length,
    area_mm2: a * area,
    confidence,
  }));

const US: readonly Row[] = [
  ["No. 2", 0.25, 0.049],
  ["No. 3", 0.375, 0.11],
  ["No. 4", 0.5, 0.2],
  ["No. 5", 0.625, 0.31],
  ["No. 6", 0.75, 0.44],
  ["No. 7", 0.875, 0.6],
  ["No. 8", 1, 0.79],
  ["No. 9", 1.128, 1],
  ["No. 10", 1.27, 1.27],
  ["No. 11", 1.41, 1.56],
];
const US_METRIC: readonly Row[] = [
  ["M6", 6.3, 32],
  ["M10", 9.5, 71],
  ["M13", 12.7, 129],
  ["M16", 15.9, 199],
  ["M19", 19.1, 284],
  ["M22", 22.2, 387],
  ["M25", 25.4, 510],
  ["M29", 28.7, 645],
  ["M32", 32.3, 819],
  ["M36", 35.8, 1006],
];
const CSA_STEEL: readonly Row[] = [
  ["10M", 11.3, 100],
  ["15M", 16, 200],
  ["20M", 19.5, 300],
  ["25M", 25.2, 500],
  ["30M", 29.9, 700],
  ["35M", 35.7, 1000],
];
const EN: readonly Row[] = [
  ["6", 6, 28.3],
  ["8", 8, 50.3],
  ["10", 10, 78.5],
  ["12", 12, 113.1],
  ["14", 14, 153.9],
  ["16", 16, 201.1],
  ["20", 20, 314.2],
  ["25", 25, 490.9],
  ["28", 28, 615.8],
  ["32", 32, 804.2],
];
const CSA_FRP: readonly Row[] = [
  ["10M", 9.5, 71],
  ["13M", 12.7, 129],
  ["15M", 15.9, 199],
  ["20M", 19.1, 284],
  ["22M", 22.2, 387],
  ["25M", 25.4, 510],
  ["30M", 28.7, 645],
];

/**
 * Nominal bar sizes: US inch sizes with areas as printed in in.², their rounded metric twins (M),
 * Canadian steel (M), European steel, and Canadian FRP sizes (to be checked against a licensed
 * copy). FRP bars of the US sizes share the US nominal diameters and areas.
 */
export const BAR_SIZES: readonly BarSize[] = [
  ...rows("us", "H", US, MM_PER_INCH, MM2_PER_IN2),
  ...rows("us_metric", "H", US_METRIC),
  ...rows("csa_steel", "H", CSA_STEEL),
  ...rows("en", "H", EN),
  ...rows("csa_frp", "M", CSA_FRP),
];

/**
 * A bar size by family and designation.
 * @throws Error listing the designations of the family
 * @example barSize("us", "No. 5").diameter_mm // 15.875
 */
export function barSize(system: BarSystem, designation: string): BarSize {
  const family = BAR_SIZES.filter((size) => size.system === system);
  const found = family.find((size) => size.designation === designation);
  if (!found)
    throw new Error(
      `No bar "${designation}" in family ${system}; expected one of ${family.map((size) => size.designation).join(", ")}.`,
    );
  return found;
}
