import type { TestColumns } from "../inputs/prepare";
import type { CodeDefinition } from "../model/definition";
import { clauseOf } from "../model/reasons";
import { assumptionSwitches, type Assumption } from "./assumptions";
import { factorShares, type FactorShare } from "./factor-shares";
import {
  familyParts,
  leastAt,
  type FamilyParts,
  type FamilySettings,
  type PartCapacity,
} from "./family-parts";
import { changesBetween } from "./places-of-change";

export interface DesignSettings extends FamilySettings {
  /** Embedments of the curves, mm, rising. */
  readonly embedments: readonly number[];
  /** Embedment at which the ratio is split into factors, mm. */
  readonly at: number;
  /** Load that both codes are to carry at the design level, N. */
  readonly load_N?: number;
}

export interface DesignValue {
  /** N; NaN where nothing applies. */
  readonly capacity: number;
  /** The mode that governs with its clause; null where nothing applies. */
  readonly mode: string | null;
}

/** One code at one embedment. */
export interface DesignPoint {
  readonly embedment: number;
  readonly nominal: DesignValue;
  readonly design: DesignValue;
  /** Limits of the governing design provision that this embedment or row is outside of. */
  readonly outside: readonly string[];
}

export interface DesignFamily {
  readonly code: CodeDefinition;
  readonly points: readonly DesignPoint[];
  readonly at: DesignPoint;
  /**
   * Least embedment at which bond and concrete carry the bar's own strength, by level; null where
   * none up to 100 diameters does.
   */
  readonly developsBar: Readonly<Record<"nominal" | "design", number | null>>;
  /**
   * Least embedment whose design capacity is the load asked for; null where none is, undefined
   * where none was asked for.
   */
  readonly carriesLoad?: number | null;
  readonly unjudged: readonly string[];
  /** Where another mode comes to govern the design capacity. */
  readonly modeChanges: readonly {
    readonly embedment: number;
    readonly capacity: number;
    readonly mode: string;
  }[];
  /** Titles of provisions that state no reduction. */
  readonly withoutReduction: readonly string[];
}

export interface AssumptionFactor extends Assumption, FactorShare {}

/** Two codes side by side along the embedment, and why they differ. */
export interface DesignComparison {
  readonly at: number;
  readonly diameter: number;
  readonly load_N?: number;
  readonly families: readonly [DesignFamily, DesignFamily];
  /** Where both capacities are equal, by level: mm and N. */
  readonly crossings: Readonly<
    Record<
      "nominal" | "design",
      readonly { readonly embedment: number; readonly capacity: number }[]
    >
  >;
  /** Design capacity of the second code over that of the first at `at`. */
  readonly ratio: number;
  /** Factors whose product is that ratio. */
  readonly factors: readonly AssumptionFactor[];
}

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

/** The bar's own strength, however it is reduced; NaN where the code does not calculate it. */
function barStrength(
  { code, parts, unjudged }: FamilyParts,
  k: number,
  level: "nominal" | "design",
): number {
  return leastAt({ code, parts: parts.filter(({ part }) => part === "bar"), unjudged }, k, level)
    .capacity;
}

/** 0 where two capacities are equal but for the last digits of a conversion of units. */
function meeting(ratio: number): number {
  return Math.abs(ratio - 1) < 1e-9 ? 0 : Math.sign(ratio - 1);
}

function describe(
  family: FamilyParts,
  all: readonly number[],
  look: (lengths: readonly number[]) => FamilyParts,
  farthest: number,
  load_N: number | undefined,
): DesignFamily {
  const points = all.map((embedment, k): DesignPoint => {
    const [nominal, design] = [leastAt(family, k, "nominal"), leastAt(family, k, "design")];
    return {
      embedment,
      nominal: value(nominal),
      design: value(design),
      outside: design.from?.outside[k] ?? [],
    };
  });
  const start = all[1] ?? NaN;
  const lengths = Array.from({ length: 101 }, (_, k) => start + ((farthest - start) * k) / 100);
  const least = (reached: (parts: FamilyParts, k: number) => boolean): number | null => {
    const flags = (at: readonly number[]): number[] => {
      const parts = look(at);
      return at.map((_, k) => (reached(parts, k) ? 1 : -1));
    };
    return flags([start, farthest])[0] === 1 ? start : (changesBetween(lengths, flags)[0] ?? null);
  };
  const bar = (level: "nominal" | "design"): number | null =>
    least(
      (parts, k) =>
        leastAt(parts, k, level, "bar").capacity >= (1 - 1e-9) * barStrength(parts, k, level),
    );
  return {
    code: family.code,
    points: points.slice(1),
    at: points[0]!,
    developsBar: { nominal: bar("nominal"), design: bar("design") },
    ...(load_N === undefined
      ? {}
      : { carriesLoad: least((parts, k) => leastAt(parts, k, "design").capacity >= load_N) }),
    unjudged: family.unjudged,
    modeChanges: modeChanges(points.slice(1), look),
    withoutReduction: family.parts
      .filter(({ statesReduction }) => !statesReduction)
      .map(({ provision }) => provision.title),
  };
}

function value({
  capacity,
  from,
}: {
  readonly capacity: number;
  readonly from: PartCapacity | null;
}): DesignValue {
  return {
    capacity,
    mode:
      from === null
        ? null
        : `${from.provision.modes[0].replaceAll("_", " ")} (${clauseOf(from.provision.id)})`,
  };
}

/**
 * Neighbouring points that differ in mode, each with the place of the first change between them.
 */
function modeChanges(
  points: readonly DesignPoint[],
  look: (lengths: readonly number[]) => FamilyParts,
): DesignFamily["modeChanges"] {
  const governing = (parts: FamilyParts, k: number): DesignValue =>
    value(leastAt(parts, k, "design"));
  return points.slice(1).flatMap((next, p) => {
    const before = points[p]!;
    if (
      before.design.mode === next.design.mode ||
      before.design.mode === null ||
      next.design.mode === null
    )
      return [];
    const places = changesBetween([before.embedment, next.embedment], (lengths) => {
      const parts = look(lengths);
      return lengths.map((_, k) => (governing(parts, k).mode === before.design.mode ? 1 : -1));
    });
    return places.map((embedment) => ({
      embedment,
      capacity: governing(look([embedment]), 0).capacity,
      mode: next.design.mode!,
    }));
  });
}
