import { clauseOf } from "../model/reasons";
import { leastAt, type FamilyParts, type PartCapacity } from "./family-parts";
import { changesBetween } from "./places-of-change";
import type { DesignFamily, DesignPoint, DesignValue } from "./design-comparison";

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
export function meeting(ratio: number): number {
  return Math.abs(ratio - 1) < 1e-9 ? 0 : Math.sign(ratio - 1);
}

/** The capacities of one code along the embedment, and where its modes change. */
export function describe(
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
