import type { TestColumns } from "../inputs/prepare";
import type { CodeDefinition } from "../model/definition";
import { assumptionSwitches } from "./assumptions";
import { factorShares } from "./factor-shares";
import { familyParts, leastAt, type FamilyParts } from "./family-parts";
import { changesBetween } from "./places-of-change";
import type { DesignSettings, DesignComparison, DesignFamily } from "./design-comparison";
import { describe, meeting } from "./design-family";

const FARTHEST = 100;

/**
 * Nominal and design capacities in tension of one row by a code for anchors and by a code for the
 * development of FRP bars, along the embedment: the modes that govern, where the curves cross, the
 * embedment each code needs, and the ratio of the two design capacities at one embedment as a
 * product of factors, one for each assumption that differs (see `factorShares`). Loads in N,
 * lengths in mm. The mixtures of both codes behind the factors are no code's capacity.
 * @param codes first the code for anchors, second the guide
 * @param tests rows with the bar, concrete and edge; the embedment is replaced
 * @throws RangeError where the embedments do not rise, or a code gives no design capacity at `at`
 * @example
 * compareDesigns([code("aci318-19"), code("aci440.1r-15")], designedBar({}), 0, { embedments: [80, 160, 320], at: 160 }).ratio
 */
export function compareDesigns(
  codes: readonly [CodeDefinition, CodeDefinition],
  tests: TestColumns,
  i: number,
  settings: DesignSettings,
): DesignComparison {
  const { embedments, at, load_N } = settings;
  if (
    embedments.length < 2 ||
    !(at > 0) ||
    embedments.some((one, k) => !(one > (embedments[k - 1] ?? 0)))
  )
    throw new RangeError(
      `compareDesigns: embedments ${embedments.slice(0, 3).join(", ")}… and ${at} mm, expected at least two positive embedments that rise, and a positive one`,
    );
  const diameter = tests.numbers("bar_diameter_mm")[i] ?? NaN;
  const look = (c: 0 | 1, lengths: readonly number[]): FamilyParts =>
    familyParts(codes[c], tests, i, lengths, settings);
  const all = [at, ...embedments];
  const both = [look(0, all), look(1, all)] as const;
  const switches = assumptionSwitches(both, tests, i, all, settings);
  const n = switches.assumptions.length;
  const [one, other] = both.map((family) => leastAt(family, 0, "design").capacity) as [
    number,
    number,
  ];
  for (const [c, value] of [one, other].entries())
    if (!(value > 0))
      throw new RangeError(
        `compareDesigns: ${codes[c]!.id} gives no design capacity at ${at} mm${both[c]!.unjudged.map((says) => `; ${says}`).join("")}`,
      );
  const shares = factorShares(n, (changed) => switches.capacity(0, changed));
  const farthest = Math.max(FARTHEST * diameter, embedments.at(-1) ?? 0);
  const families = both.map((family, c) =>
    describe(family, all, (lengths) => look(c as 0 | 1, lengths), farthest, load_N),
  ) as [DesignFamily, DesignFamily];
  const crossings = (level: "nominal" | "design"): { embedment: number; capacity: number }[] =>
    changesBetween(embedments, (lengths) => {
      const [a, b] = [look(0, lengths), look(1, lengths)];
      return lengths.map((_, k) =>
        meeting(leastAt(a, k, level).capacity / leastAt(b, k, level).capacity),
      );
    }).map((embedment) => ({
      embedment,
      capacity: leastAt(look(0, [embedment]), 0, level).capacity,
    }));
  return {
    at,
    diameter,
    ...(load_N === undefined ? {} : { load_N }),
    families,
    crossings: { nominal: crossings("nominal"), design: crossings("design") },
    ratio: other / one,
    factors: switches.assumptions.map((assumption, k) => ({ ...assumption, ...shares[k]! })),
  };
}
