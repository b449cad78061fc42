import type { TestColumns } from "../inputs/prepare";
import { symbolsRead } from "../model/provision-symbols";
import {
  familyParts,
  type FamilyParts,
  type FamilySettings,
  type Part,
  type PartCapacity,
} from "./family-parts";

/**
 * Something that two families assume differently, in words: what each does and what that means for
 * a provision to come.
 */
export interface Assumption {
  readonly id:
    | "bond_model"
    | "short_embedment"
    | "bar_cap"
    | "environment"
    | "concrete"
    | "bar_model"
    | "reduction";
  readonly label: string;
  readonly byFirst: string;
  readonly bySecond: string;
  readonly means: string;
}

/**
 * The assumptions in which two codes differ for one row, and the design capacity for any mixture of
 * them.
 */
export interface AssumptionSwitches {
  readonly assumptions: readonly Assumption[];
  /**
   * Design capacity at the k-th embedment, N; NaN where nothing applies. True: as the second code
   * has it.
   */
  readonly capacity: (k: number, changed: readonly boolean[]) => number;
}

const SHORT = "extrapolate_below_20_d";

/**
 * The assumptions that a code for anchorage and a code for the development of bars (in this order)
 * make differently, each of which can be changed alone. A mode that one of them checks alone keeps
 * that code's reduction factor.
 */
export function assumptionSwitches(
  codes: readonly [FamilyParts, FamilyParts],
  tests: TestColumns,
  i: number,
  embedments: readonly number[],
  settings: FamilySettings,
): AssumptionSwitches {
  const [anchorage, development] = codes;
  const { code } = development;
  const C_E = settings.options?.["C_E"] ?? code.options["C_E"]?.value ?? 1;
  const environment = Object.hasOwn(code.options, "C_E") && C_E !== 1;
  const short = Object.hasOwn(code.options, SHORT) && (settings.options?.[SHORT] ?? 0) === 0;
  const capped = development.parts.some(
    ({ part, provision }) =>
      part === "bond" && symbolsRead(code, provision).some(({ name }) => name === "f_u_cap"),
  );
  const variants = new Map<string, FamilyParts>();
  /**
   * The second code with its least length, its cap of the bar stress and its environmental factor
   * in force or not.
   */
  const variant = (withShort: boolean, withCap: boolean, withEnvironment: boolean): FamilyParts => {
    const key = [withShort, withCap, withEnvironment].join();
    const options = {
      ...settings.options,
      ...(withShort || !short ? {} : { [SHORT]: 1 }),
      ...(withEnvironment || !environment ? {} : { C_E: 1 }),
    };
    const uncapped = { bar_strength_MPa: NaN, bar_strength_specified_MPa: NaN };
    const found =
      variants.get(key) ??
      familyParts(
        code,
        tests,
        i,
        embedments,
        { ...settings, options },
        withCap || !capped ? {} : uncapped,
      );
    variants.set(key, found);
    return found;
  };
  const bars = [anchorage, variant(true, true, false)].map((family) =>
    family.parts.filter(({ part }) => part === "bar"),
  );
  const sameBar = [0, embedments.length - 1]
    .map((k) => [least(bars[0]!, k), least(bars[1]!, k)] as const)
    .every(([one, other]) => one === other || Math.abs(one / other - 1) < 1e-9);
  const words = assumptionWords(anchorage, development, C_E);
  const assumptions = words.filter(
    ({ id }) =>
      ({
        bond_model: true,
        short_embedment: short,
        bar_cap: capped,
        environment,
        concrete: hasConcrete(anchorage) || hasConcrete(development),
        bar_model: !sameBar,
        reduction: true,
      })[id],
  );
  const capacity = (k: number, changed: readonly boolean[]): number => {
    const on = (id: Assumption["id"]): boolean =>
      changed[assumptions.findIndex((one) => one.id === id)] ?? false;
    const guide = variant(on("short_embedment"), on("bar_cap"), on("environment"));
    const bar = variant(true, true, on("environment"));
    // Where both codes calculate the bar alike, the environmental factor is all that differs.
    const fromGuide: Readonly<Record<Part, FamilyParts | null>> = {
      bond: on("bond_model") ? guide : null,
      concrete: on("concrete") ? development : null,
      bar: (sameBar ? on("environment") : on("bar_model")) ? bar : null,
    };
    const environmental = on("environment") && fromGuide.bar === null ? C_E : 1;
    return (["bond", "concrete", "bar"] as const).reduce((smallest, part) => {
      const own = (fromGuide[part] ?? anchorage).parts.filter((one) => one.part === part);
      const wanted = (on("reduction") ? development : anchorage).parts.filter(
        (one) => one.part === part,
      );
      const value = leastReduced(own, wanted, k) * (part === "bar" ? environmental : 1);
      return value < smallest || Number.isNaN(smallest) ? value : smallest;
    }, NaN);
  };
  return { assumptions, capacity };
}

/**
 * The least of some capacities, each with the reduction of another code's part where that has one.
 */
function leastReduced(
  own: readonly PartCapacity[],
  wanted: readonly PartCapacity[],
  k: number,
): number {
  const governing = wanted.reduce<PartCapacity | null>(
    (a, b) => (a === null || (b.nominal[k] ?? NaN) < (a.nominal[k] ?? NaN) ? b : a),
    null,
  );
  const values = own.map(
    (one) =>
      (one.nominal[k] ?? NaN) *
      (wanted.includes(one) || governing === null ? one.reduction : governing.reduction)[k]!,
  );
  return least(
    values.map((value) => ({ nominal: [value] })),
    0,
  );
}

function least(parts: readonly { readonly nominal: ArrayLike<number> }[], k: number): number {
  return parts
    .map(({ nominal }) => nominal[k] ?? NaN)
    .filter((value) => !Number.isNaN(value))
    .reduce((a, b) => Math.min(a, b), Infinity);
}

const hasConcrete = ({ parts }: FamilyParts): boolean =>
  parts.some(({ part }) => part === "concrete");

function assumptionWords(
  anchorage: FamilyParts,
  development: FamilyParts,
  C_E: number,
): Assumption[] {
  const titles = ({ parts }: FamilyParts, wanted: Part, none: string): string =>
    parts
      .filter(({ part }) => part === wanted)
      .map(({ provision }) => provision.title)
      .join("; ") || none;
  const reductions = ({ parts }: FamilyParts): string =>
    parts
      .map(
        ({ part, reduction, statesReduction }) =>
          `${part} ${Number((reduction[0] ?? NaN).toPrecision(3))}${statesReduction ? "" : " (none stated)"}`,
      )
      .join(", ");
  return [
    {
      id: "bond_model",
      label: "bond model",
      byFirst: titles(anchorage, "bond", "none"),
      bySecond: titles(development, "bond", "none"),
      means:
        "the bond strength of FRP bars in drilled holes must be established by tests, because neither bond model was fitted to them",
    },
    {
      id: "short_embedment",
      label: "reduction below 20 diameters",
      byFirst: "none",
      bySecond: "stress falls linearly to zero below 20 diameters",
      means:
        "a rule for embedments below 20 diameters is needed, since anchors lie there and development lengths do not",
    },
    {
      id: "bar_cap",
      label: "cap of the stress developed",
      byFirst: "bar strength checked separately",
      bySecond: "stress developed limited to the bar strength",
      means:
        "the provision must state whether the bar's strength caps the bond stress before or after a reduction for length",
    },
    {
      id: "environment",
      label: "environmental factor",
      byFirst: "none",
      bySecond: `C_E = ${Number(C_E.toPrecision(3))} on the bar's strength`,
      means: "the provision must state whether the environmental factor applies to anchorage",
    },
    {
      id: "concrete",
      label: "concrete breakout",
      byFirst: titles(anchorage, "concrete", "not checked"),
      bySecond: titles(development, "concrete", "not checked"),
      means:
        "a concrete breakout check belongs beside any bond provision for bars in drilled holes",
    },
    {
      id: "bar_model",
      label: "bar strength",
      byFirst: titles(anchorage, "bar", "not checked"),
      bySecond: titles(development, "bar", "not checked"),
      means: "both families must calculate the bar strength in the same way",
    },
    {
      id: "reduction",
      label: "strength reduction",
      byFirst: reductions(anchorage),
      bySecond: reductions(development),
      means:
        "a strength reduction factor for bond of FRP bars must be calibrated, because the two families cannot be combined without one",
    },
  ];
}
