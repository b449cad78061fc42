import type { Comparison, ComparisonSettings } from "./comparison";

/** The settings by which a comparison was made, to make it again with a changed code. */
export function comparisonSettings({
  prediction,
  capacityOf,
  lowerBounds,
  scope,
  confinedBondFactor,
}: Comparison): ComparisonSettings {
  return {
    ...prediction.settings,
    level: prediction.level,
    capacityOf,
    lowerBounds,
    scope,
    ...(confinedBondFactor === null ? {} : { confinedBondFactor }),
  };
}
