import {
  clauseOf,
  variableWords,
  type CapacityElasticities,
  type DesignComparison,
  type GoverningMap,
} from "../provisions";
import { valueWords } from "../comparison";
import type { PlannedTests } from "../proposals";
import type { TestsNeededCell, TestsNeededInput } from "./tests-needed";
import type { DesignCapacitiesInput } from "./design-capacities";
import type { ModeGovernsMapInput } from "./mode-governs-map";
import type { SensitivityInput } from "./sensitivity";

/** A map of governing modes in the words of `modeGovernsMap`. */
export function modeGovernsMapOf(
  map: GoverningMap,
): Pick<ModeGovernsMapInput, "x" | "y" | "governing" | "boundaries"> {
  return {
    x: map.x.values,
    y: map.y.values,
    governing: map.governing.map((row) => row.map((mode) => mode?.replaceAll("_", " ") ?? null)),
    boundaries: map.boundaries,
  };
}

/**
 * The elasticities of one capacity as bars of `sensitivity`; numbers that it does not follow are
 * left out.
 */
export function sensitivityOf(
  one: CapacityElasticities,
): Pick<SensitivityInput, "elasticities" | "measure"> {
  const followed = one.by.filter(
    ({ elasticity, switches }) => elasticity !== 0 || switches.length > 0,
  );
  return {
    elasticities: followed.map(({ variable, elasticity, switches }) => ({
      label: `${variableWords(variable.name)}${switches.length > 0 ? " (changes nearby)" : ""}`,
      value: elasticity,
    })),
    measure: `Elasticity of ${one.provision.modes[0].replaceAll("_", " ")} (${clauseOf(one.provision.id)}): % of capacity per % of variable`,
  };
}

/** A design comparison in the words of `designCapacities`. */
export function designCapacitiesOf({
  families,
  crossings,
  at,
}: DesignComparison): Pick<DesignCapacitiesInput, "families" | "crossings" | "at"> {
  const kN = (newtons: number): number => newtons / 1000;
  return {
    at,
    crossings: crossings.design.map(({ embedment, capacity }) => ({
      embedment,
      capacity: kN(capacity),
    })),
    families: families.map(({ code, points, modeChanges }) => ({
      label: code.id,
      embedment: points.map(({ embedment }) => embedment),
      nominal: points.map(({ nominal }) => kN(nominal.capacity)),
      design: points.map(({ design }) => kN(design.capacity)),
      modeChanges: modeChanges.map(({ embedment, capacity, mode }) => ({
        embedment,
        capacity: kN(capacity),
        mode,
      })),
    })),
  };
}

/**
 * A test plan as cells of `testsNeeded`, materials and sizes by modes: further failures; "open"
 * where no campaign looked at settles the verdict or no law can be estimated.
 */
export function testsNeededOf(
  plan: readonly PlannedTests[],
): Pick<TestsNeededInput, "rows" | "columns" | "cells"> {
  const rowOf = ({ cell }: PlannedTests): string => `${valueWords(cell.material)}, ${cell.size}`;
  const columnOf = ({ cell }: PlannedTests): string => valueWords(cell.mode);
  const [rows, columns] = [[...new Set(plan.map(rowOf))], [...new Set(plan.map(columnOf))]];
  const cells = new Map(
    plan.map((one): [string, TestsNeededCell] => [
      `${rowOf(one)} ${columnOf(one)}`,
      one.finding === "settled" ? "settled" : (one.settle?.further ?? "open"),
    ]),
  );
  return {
    rows,
    columns,
    cells: rows.map((row) => columns.map((column) => cells.get(`${row} ${column}`) ?? null)),
  };
}
