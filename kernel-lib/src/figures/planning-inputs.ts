import { clauseOf, variableWords, type CapacityElasticities, type GoverningMap } from "../provisions";
import type { ModeGovernsMapInput } from "./mode-governs-map";
import type { SensitivityInput } from "./sensitivity";

/** A map of governing modes in the words of `modeGovernsMap`. */
export function modeGovernsMapOf(map: GoverningMap): Pick<ModeGovernsMapInput, "x" | "y" | "governing" | "boundaries"> {
  return { x: map.x.values, y: map.y.values, governing: map.governing.map((row) => row.map((mode) => mode?.replaceAll("_", " ") ?? null)), boundaries: map.boundaries };
}

/** The elasticities of one capacity as bars of `sensitivity`; numbers that it does not follow are left out. */
export function sensitivityOf(one: CapacityElasticities): Pick<SensitivityInput, "elasticities" | "measure"> {
  const followed = one.by.filter(({ elasticity, switches }) => elasticity !== 0 || switches.length > 0);
  return {
    elasticities: followed.map(({ variable, elasticity, switches }) => ({ label: `${variableWords(variable.name)}${switches.length > 0 ? " (changes nearby)" : ""}`, value: elasticity })),
    measure: `Elasticity of ${one.provision.modes[0].replaceAll("_", " ")} (${clauseOf(one.provision.id)}): % of capacity per % of variable`,
  };
}
