import type { ProvisionDefinition } from "../model/definition";
import { clauseOf } from "../model/reasons";
import { nearbySwitches, type NearbySwitch, type PlaceOnLaw } from "./nearby-switches";
import type { RowVariable } from "./row-inputs";
import type { RowOfCode } from "./row-of-code";

/** Where another mode becomes the least. */
export function takeovers(row: RowOfCode, variable: RowVariable, within: number): NearbySwitch[] {
  const at = (t: number): PlaceOnLaw => {
    const capacities = row.reached
      .map((provision) => ({ provision, capacity: row.capacityAt(provision, variable, t) }))
      .filter(({ capacity }) => !Number.isNaN(capacity));
    const least = capacities.reduce<{ provision: ProvisionDefinition; capacity: number } | null>(
      (a, b) => (a === null || b.capacity < a.capacity ? b : a),
      null,
    );
    if (least === null) return { law: "none", limits: 0, capacity: NaN, elasticity: NaN };
    return {
      law: least.provision.id,
      limits: 0,
      capacity: least.capacity,
      elasticity: row.alongProvision(least.provision, variable)(t).elasticity,
    };
  };
  return nearbySwitches(variable.value, within, at, (_, { law }) => {
    const provision = row.reached.find(({ id }) => id === law);
    return provision
      ? `${provision.modes[0].replaceAll("_", " ")} (${clauseOf(law)}) governs beyond`
      : "no capacity applies beyond";
  });
}

/** Which steps and limits part two laws of one provision, in words. */
export function lawChange(
  provision: ProvisionDefinition,
  before: PlaceOnLaw,
  beyond: PlaceOnLaw,
): string {
  type Law = [number, [string, string, string][]];
  const [[flagsBefore, stepsBefore], [flagsBeyond, stepsBeyond]] = [before, beyond].map(
    ({ law }) => JSON.parse(law) as Law,
  ) as [Law, Law];
  const limits = provision.limits
    .filter((_, k) => ((flagsBefore ^ flagsBeyond) & (1 << k)) !== 0)
    .map(({ clause, says }) => `limit of ${clause}: ${says}`);
  const steps = stepsBefore
    .filter(
      ([symbol, , taken], k) => stepsBeyond[k]?.[0] === symbol && stepsBeyond[k]?.[2] !== taken,
    )
    .map(([symbol, clause]) => `${symbol} (${clause})`);
  const taken =
    stepsBefore.length === stepsBeyond.length
      ? []
      : ["bars of the group start or cease to act together"];
  return [
    ...limits,
    ...taken,
    ...new Set(steps.length > 0 ? [`another branch of ${[...new Set(steps)].join(", ")}`] : []),
  ].join("; ");
}
