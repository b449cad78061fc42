import { compare, groupRatios, type RatioGroup } from "../../kernel-lib/src/comparison";
import { openStudy } from "../../kernel-lib/src/index";
import { factorCase } from "../../kernel-lib/src/proposals";
import { code, predict } from "../../kernel-lib/src/provisions";

/** Computed when an example first asks for it. */
export const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
};

// The demonstration and what is made of it, all of it invented.
/** Part of the demonstration, so that the examples are quick. */
export const study = once(() =>
  openStudy({
    data: "datasets/demo",
    where:
      "bar_diameter_mm <= 16 && (failure_mode == 'bond' || failure_mode == 'concrete_edge_breakout')",
  }),
);
export const data = once(async () => (await study()).data);
/** Few modes, so that the examples are quick. */
export const tests = once(async () =>
  (await data()).tests.where(
    ({ failure_mode, setup, bar_diameter_mm }) =>
      ["bond", "concrete_breakout"].includes(failure_mode ?? "") &&
      setup === "unconfined_tension" &&
      (bar_diameter_mm ?? NaN) <= 16,
  ),
);
export const aci318 = code("aci318-19");
export const provision = aci318.provisions.find(({ id }) => id === "aci318-19/17.6.5")!;
export const prediction = once(async () => predict(aci318, await tests()));
/** Evidence of one mode. */
export const comparison = once(async () => {
  const whole = compare(await tests(), aci318);
  return { ...whole, evidence: whole.evidence.filter(({ mode }) => mode === "bond") };
});
export const groups = once(async () => groupRatios(await comparison(), ["mode", "bar_material"]));
export const group = async (material: string): Promise<RatioGroup> =>
  (await groups()).find(({ by }) => by["bar_material"] === material)!;
export const found = once(async () => factorCase(await tests(), aci318));
export const proposal = once(async () => (await found()).proposals[0]!);
