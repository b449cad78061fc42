import type { TestColumns } from "../inputs/prepare";
import { VariedRow } from "../inputs/varied-row";
import type { CodeDefinition, ProvisionDefinition } from "../model/definition";
import { predict } from "../model/predict";
import { reasonsAt } from "../model/reasons";
import { testReaches } from "../model/setup-modes";
import { settingsOf, type PlanningSettings } from "../planning/mode-loads";

/** What a capacity is about: bond, the concrete around (breakout, splitting), or the bar itself. */
export type Part = "bond" | "concrete" | "bar";

/** Reduction to the design value of a provision that states none; 1 where not given. */
export type UnstatedReduction = Readonly<Partial<Record<Part, number>>>;

export interface FamilySettings extends Omit<PlanningSettings, "level" | "gripLoad_N"> {
  readonly unstatedReduction?: UnstatedReduction;
}

/** One provision along the embedments. */
export interface PartCapacity {
  readonly provision: ProvisionDefinition;
  readonly part: Part;
  /** N; NaN where the provision does not apply. */
  readonly nominal: Float64Array;
  /** Design over nominal capacity. */
  readonly reduction: Float64Array;
  /** Whether the provision itself states that reduction. */
  readonly statesReduction: boolean;
  /**
   * Limits that the provision reports at each embedment: it gives a value there, outside its stated
   * range.
   */
  readonly outside: readonly (readonly string[])[];
}

/**
 * The tension capacities of a code for one row along its embedments, and what could not be judged.
 */
export interface FamilyParts {
  readonly code: CodeDefinition;
  readonly parts: readonly PartCapacity[];
  readonly unjudged: readonly string[];
}

/** The part that a provision is about, by the mode that names it. */
export function partOf({ modes: [mode] }: ProvisionDefinition): Part {
  if (mode === "bar_rupture" || mode === "yield") return "bar";
  return mode === "bond" || mode === "combined_cone_bond" ? "bond" : "concrete";
}

/**
 * Nominal capacities in tension with their reductions, each provision of a code that the row can
 * reach, along embedments. A provision without a design level is reduced by `unstatedReduction` of
 * its part, by default not at all.
 * @param changes other numbers of the row to change, e.g. a blank bar strength
 */
export function familyParts(
  code: CodeDefinition,
  tests: TestColumns,
  i: number,
  embedments: readonly number[],
  settings: FamilySettings,
  changes: Readonly<Record<string, number>> = {},
): FamilyParts {
  const row = new VariedRow(
    tests,
    i,
    { ...changes, embedment_mm: Float64Array.from(embedments) },
    embedments.length,
  );
  const [nominal, design] = (["nominal", "design"] as const).map((level) =>
    predict(code, row, settingsOf(code, { ...settings, level })),
  );
  const unjudged: string[] = [];
  const parts = nominal!.columns.flatMap((column): PartCapacity[] => {
    const { provision, capacity } = column;
    if (!testReaches("tension", row.texts("setup")[0] ?? null, provision)) return [];
    const missing = reasonsAt(nominal!, column, 0);
    if (capacity.every(Number.isNaN)) {
      if (missing.length > 0 && missing.every(({ kind }) => kind === "missing"))
        unjudged.push(`${provision.title}: ${missing.map(({ says }) => says).join("; ")}`);
      return [];
    }
    const part = partOf(provision);
    const reduced = design!.columns.find((other) => other.provision === provision);
    const withheld = reduced
      ? reduced.capacity.findIndex((value, k) => Number.isNaN(value) && !Number.isNaN(capacity[k]))
      : -1;
    if (reduced && withheld >= 0)
      unjudged.push(
        `${provision.title}, design: ${reasonsAt(design!, reduced, withheld)
          .map(({ says }) => says)
          .join("; ")}`,
      );
    const reduction = Float64Array.from(capacity, (value, k) =>
      reduced ? (reduced.capacity[k] ?? NaN) / value : (settings.unstatedReduction?.[part] ?? 1),
    );
    const outside = embedments.map((_, k) =>
      reasonsAt(nominal!, column, k).map(({ clause, says }) => `${clause}: ${says}`),
    );
    return [
      {
        provision,
        part,
        nominal: capacity,
        reduction,
        statesReduction: reduced !== undefined,
        outside,
      },
    ];
  });
  return { code, parts, unjudged };
}

/**
 * The least capacity at one embedment and the provision it comes from; null where nothing applies.
 */
export function leastAt(
  { parts }: FamilyParts,
  k: number,
  level: "nominal" | "design",
  without?: Part,
): { readonly capacity: number; readonly from: PartCapacity | null } {
  let least: { capacity: number; from: PartCapacity | null } = { capacity: NaN, from: null };
  for (const one of parts) {
    if (one.part === without) continue;
    const value = (one.nominal[k] ?? NaN) * (level === "design" ? (one.reduction[k] ?? NaN) : 1);
    if (!Number.isNaN(value) && !(value >= least.capacity)) least = { capacity: value, from: one };
  }
  return least;
}
