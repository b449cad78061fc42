import { describe, expect, it } from "vitest";
import { bpeStress, TestTable, type TestRowInput } from "../../kernel-lib/src/dataset";
import {
  anchorLightweightFactor,
  bendStrength,
  code,
  CODES,
  concreteInteraction,
  detailChecks,
  DEVELOPMENT_LENGTHS,
  developmentLength,
  developmentLengthRule,
  localBondLaw,
  powerInteraction,
  predict,
  slipAtSplitting,
  Specimens,
  steelInteraction,
  threadedArea,
  trilinearInteraction,
  type DevelopmentLengthRule,
  type Level,
} from "../../kernel-lib/src/provisions";
import {
  barOf,
  functionCases,
  keyParts,
  optionsFor,
  specimensOf,
  spreadCases,
  spreadFiles,
  type SpreadCase,
} from "./recomputed/spread/cases";
import { column } from "./specimens";

// Seeded specimens over the whole range of inputs, which Python evaluated from the equation sheet
// without a look at the library.
const TOLD = {
  test_id: "t",
  study_id: "s",
  series_id: "a",
  setup: "unconfined_tension",
  action: "tension",
  peak_load_kN: 50,
  failure_mode: "bond",
} as const;
const tableOf = ({ row }: SpreadCase): TestTable =>
  TestTable.fromRows([{ ...TOLD, ...row } as TestRowInput]);
const close = (found: number, expected: number | null): boolean =>
  expected === null ? Number.isNaN(found) : Math.abs(found / expected - 1) < 1e-9;
/** Code and clause of a length; both forms of an edition share the latter. */
const nameOf = ({ code: of, definition: { id } }: DevelopmentLengthRule): string =>
  `${of.id}${id.slice(id.indexOf("/"))}`;

/** What differs, in words; nothing where all agree. */
function differences(one: SpreadCase): string[] {
  const wrong: string[] = [];
  const levels = new Set(
    Object.keys(one.forces_N).map((key) => `${keyParts(key).code} ${keyParts(key).level}`),
  );
  for (const pair of levels) {
    const [id = "", level = ""] = pair.split(" ");
    const of = code(id);
    const prediction = predict(of, tableOf(one), {
      level: level as Level,
      options: optionsFor(one, of),
    });
    for (const [key, expected] of Object.entries(one.forces_N)) {
      const { code: keyed, provision, level: asked } = keyParts(key);
      if (keyed !== id || asked !== level) continue;
      const found = column(prediction, provision).capacity[0] ?? NaN;
      if (!close(found, expected)) wrong.push(`${key}: ${found} N, Python ${expected}`);
    }
  }
  return wrong;
}

describe.each(spreadFiles())("%s", (file) => {
  it.each(specimensOf(file).map((one) => [one.id, one] as const))(
    "%s has the capacities that Python found, and none where it found none",
    (_, one) => {
      expect(differences(one)).toEqual([]);
    },
  );
});

describe("lengths for a stress", () => {
  it.each(
    spreadCases()
      .filter(({ lengths_mm }) => lengths_mm)
      .map((one) => [one.id, one] as const),
  )("%s", (_, one) => {
    for (const [id, expected] of Object.entries(one.lengths_mm ?? {})) {
      const rule = developmentLengthRule(id);
      expect(
        developmentLength(rule, barOf(one), optionsFor(one, rule.code)).length_mm / expected,
        id,
      ).toBeCloseTo(1, 9);
    }
    // What Python left out has no length here either.
    for (const rule of DEVELOPMENT_LENGTHS) {
      const id = nameOf(rule);
      if (one.lengths_mm?.[id] === undefined)
        expect(
          developmentLength(rule, barOf(one), optionsFor(one, rule.code)).length_mm,
          id,
        ).toBeNaN();
    }
  });
});

describe("placing rules", () => {
  it.each(
    spreadCases()
      .filter(({ details_mm }) => details_mm)
      .map((one) => [one.id, one] as const),
  )("%s", (_, one) => {
    for (const [id, expected] of Object.entries(one.details_mm ?? {})) {
      const of = code(id);
      const judged = detailChecks(
        of,
        of.checks ?? [],
        new Specimens(tableOf(one), "nominal"),
        0,
        optionsFor(one, of),
      ).filter(({ verdict }) => verdict !== "does not concern");
      expect(judged.map(({ check }) => check.id).sort()).toEqual(Object.keys(expected).sort());
      for (const { check, verdict, value_mm, least_mm } of judged) {
        const [stated, least] = expected[check.id] ?? [NaN, NaN];
        const value = stated ?? Infinity;
        expect(
          [verdict, value === value_mm || Math.abs(value_mm / value - 1) < 1e-9],
          check.id,
        ).toEqual([value >= least ? "kept" : "not kept", true]);
        expect(least_mm / least).toBeCloseTo(1, 9);
      }
    }
  });
});

describe("interactions, bends, bond laws and lookups", () => {
  const law = (fcm: unknown, good: unknown, ribs: unknown): ReturnType<typeof localBondLaw> =>
    localBondLaw({
      f_cm: Number(fcm),
      goodConditions: good === true,
      clearRibSpacing_mm: Number(ribs),
    });
  const CALLS: Readonly<
    Record<
      string,
      (...of: readonly unknown[]) => number | { readonly value: number; readonly holds: boolean }
    >
  > = {
    trilinearInteraction: (n, v) => trilinearInteraction(Number(n), Number(v)),
    powerInteraction: (n, v) => powerInteraction(Number(n), Number(v)),
    steelInteraction: (n, v) => steelInteraction(Number(n), Number(v)),
    concreteInteraction: (n, v, form) =>
      concreteInteraction(Number(n), Number(v), form === "straight" ? "straight" : "power"),
    bendStrength: (r, f) => bendStrength(Number(r), Number(f)),
    anchorLightweightFactor: (kind, lambda, lightweight) =>
      anchorLightweightFactor(
        kind as Parameters<typeof anchorLightweightFactor>[0],
        Number(lambda),
        lightweight === true,
      ),
    threadedArea: (d, threads) => threadedArea(Number(d), Number(threads)),
    bondStress: (slip, ...of) => bpeStress(Number(slip), law(of[0], of[1], of[2])),
    slipAtSplitting: (stress, ...of) => slipAtSplitting(Number(stress), law(of[0], of[1], of[2])),
  };
  it.each(functionCases().map((one) => [`${one.call}(${one.arguments.join(", ")})`, one] as const))(
    "%s",
    (_, { call, arguments: given, value, holds }) => {
      const found = CALLS[call]?.(...given) ?? NaN;
      expect((typeof found === "number" ? found : found.value) / value).toBeCloseTo(1, 9);
      if (holds !== null) expect(typeof found === "number" ? null : found.holds).toBe(holds);
    },
  );
});

it("visits every provision, length, placing rule and function of every code", () => {
  const keys = new Set(
    spreadCases().flatMap(({ forces_N }) =>
      Object.entries(forces_N).flatMap(([key, force]) =>
        force === null ? [] : [`${keyParts(key).code} ${keyParts(key).provision}`],
      ),
    ),
  );
  const lengths = new Set(spreadCases().flatMap(({ lengths_mm }) => Object.keys(lengths_mm ?? {})));
  const details = new Set(
    spreadCases().flatMap(({ details_mm }) =>
      Object.entries(details_mm ?? {}).flatMap(([id, found]) =>
        Object.keys(found).map((check) => `${id} ${check}`),
      ),
    ),
  );
  const rules = new Set(functionCases().map(({ code: id, rule }) => `${id} ${rule}`));
  const missed = [
    ...CODES.flatMap((of) => [
      ...of.provisions.map(({ id }) => `${of.id} ${id}`).filter((key) => !keys.has(key)),
      ...(of.checks ?? []).map(({ id }) => `${of.id} ${id}`).filter((key) => !details.has(key)),
      // Both forms of ACI 318 share the functions.
      ...(of.called ?? [])
        .map(({ id }) => `${of.id.replace(/19m$/, "19")} ${id}`)
        .filter((key) => !rules.has(key)),
    ]),
    ...DEVELOPMENT_LENGTHS.map(nameOf).filter((id) => !lengths.has(id)),
  ];
  expect(missed).toEqual([]);
});
