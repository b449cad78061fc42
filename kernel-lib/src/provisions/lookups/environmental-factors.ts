import type { Confidence } from "../model/levels";

/** The share of an FRP bar's strength that a guide leaves for its surroundings. */
export interface EnvironmentalFactor {
  readonly code: string;
  readonly fibre: "glass" | "carbon" | "aramid";
  readonly exposure: "interior" | "exterior";
  readonly C_E: number;
  readonly confidence: Confidence;
}

type Row = readonly [
  code: string,
  fibre: EnvironmentalFactor["fibre"],
  interior: number,
  exterior: number,
  confidence: Confidence,
];

const TABLE: readonly Row[] = [
  ["aci440.1r-15", "glass", 0.8, 0.7, "H"],
  ["aci440.1r-15", "carbon", 1, 0.9, "H"],
  ["aci440.1r-15", "aramid", 0.9, 0.8, "H"],
  ["aci440.11-22", "glass", 0.85, 0.85, "M"],
  ["aashto-gfrp2-2018", "glass", 0.8, 0.7, "M"],
];

/**
 * Environmental factors C_E by guide, fibre and exposure: interior is not exposed to earth and
 * weather, exterior is. None is stated for basalt. Values marked M are from memory, to be checked
 * against a licensed copy.
 */
export const ENVIRONMENTAL_FACTORS: readonly EnvironmentalFactor[] = TABLE.flatMap(
  ([code, fibre, interior, exterior, confidence]) => [
    { code, fibre, exposure: "interior", C_E: interior, confidence } as const,
    { code, fibre, exposure: "exterior", C_E: exterior, confidence } as const,
  ],
);

const FIBRES: Readonly<Record<string, EnvironmentalFactor["fibre"]>> = {
  gfrp: "glass",
  cfrp: "carbon",
  afrp: "aramid",
};

/**
 * C_E of a code for a bar material of the data contract; undefined where the code states none for
 * it (steel, basalt, other codes).
 * @example environmentalFactorOfBar("aci440.1r-15", "gfrp", "exterior") // 0.7
 */
export function environmentalFactorOfBar(
  code: string,
  material: string,
  exposure: EnvironmentalFactor["exposure"],
): number | undefined {
  return ENVIRONMENTAL_FACTORS.find(
    (one) => one.code === code && one.fibre === FIBRES[material] && one.exposure === exposure,
  )?.C_E;
}

/**
 * The environmental factor of a guide, for its option `C_E`. A comparison with tests takes 1.
 * @throws Error listing what there is
 * @example environmentalFactor("aci440.1r-15", "glass", "exterior").C_E // 0.7
 */
export function environmentalFactor(
  code: string,
  fibre: string,
  exposure: string,
): EnvironmentalFactor {
  const found = ENVIRONMENTAL_FACTORS.find(
    (one) => one.code === code && one.fibre === fibre && one.exposure === exposure,
  );
  if (found) return found;
  throw new Error(
    `No environmental factor of ${code} for ${fibre}, ${exposure}; expected one of ${ENVIRONMENTAL_FACTORS.map((one) => `${one.code} ${one.fibre} ${one.exposure}`).join(", ")}.`,
  );
}
