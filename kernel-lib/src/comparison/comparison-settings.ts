import type { Comparison, ComparisonSettings } from "./comparison";

/** The settings by which a comparison was made, to make it again with a changed code. */
export function comparisonSettings({
  prediction,
  way,
  bounds,
  scope,
  confinedBondFactor,
}: Comparison): ComparisonSettings {
  return {
    ...prediction.settings,
    level: prediction.level,
    way,
    bounds,
    scope,
    ...(confinedBondFactor === null ? {} : { confinedBondFactor }),
  };
}
