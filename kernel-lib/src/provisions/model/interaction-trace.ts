import { evaluate, parseFormula, renameSymbols, type Expression } from "../../formula";
import type { ProvisionDefinition } from "./definition";
import { ALONG, interactionAt, interactionRule, type InteractionPart } from "./interaction";
import type { CodePrediction } from "./predict";
import { clauseOf } from "./reasons";
import { restsOnFinder } from "./rests-on";
import type { Trace, TraceLine } from "./trace";
import type { Quantity } from "./unit-system";

/**
 * The hand calculation of the resultant capacity of a row with tension and shear: the governing
 * capacities of both actions as inputs, then each equation of the code, and the least resultant.
 * Null where the row has one load, or the code states no interaction.
 * @example
 * const both = { action: "tension_and_shear", setup: "combined_loading", load_angle_deg: 30 } as const;
 * const inclined = TestTable.fromRows([{ ...tests.row(0), ...both }]);
 * showTrace(interactionTrace(predict(code("aci318-19"), inclined), 0)!).toText()
 */
export function interactionTrace(prediction: CodePrediction, i: number): Trace | null {
  const found = interactionAt(prediction, i);
  const rule = interactionRule(prediction.code, prediction.settings);
  if (found === null || rule === null) return null;
  const { code, level } = prediction;
  const values = new Map<string, number>([["alpha", found.angle]]);
  const line = (
    symbol: string,
    value: number,
    quantity: Quantity,
    clause: string,
    meaning: string,
    expression?: Expression,
  ): TraceLine => {
    values.set(symbol, value);
    const size = quantity === "force" ? 1000 : 1;
    return {
      symbol,
      value,
      unit: quantity === "force" ? code.system.unit.force : "deg",
      valueSi: (value * code.system.inSi[quantity]) / size,
      unitSi: quantity === "force" ? "kN" : "deg",
      clause,
      meaning,
      ...(expression ? { expression } : {}),
    };
  };
  const step = (symbol: string, formula: Expression, clause: string, meaning: string): TraceLine =>
    line(
      symbol,
      evaluate(formula, (name) => values.get(name) ?? NaN),
      "force",
      clause,
      meaning,
      formula,
    );
  const inputs = [line("alpha", found.angle, "number", "", "angle of the load from the bar axis")];
  const steps: TraceLine[] = [];
  const resultants = found.parts.map((part) => {
    const names = namesFor(part, found.parts.length > 1);
    const of = found.parts.length > 1 ? `, ${part.equation.meaning}` : "";
    const clauseAt = (column: number): string =>
      clauseOf(prediction.columns[column]?.provision.id ?? "");
    const force = (column: number): number =>
      (prediction.columns[column]?.capacity[i] ?? NaN) / code.system.inSi.force;
    inputs.push(
      line(
        names.N_n,
        force(part.tension),
        "force",
        clauseAt(part.tension),
        `lowest capacity in tension${of}: ${titleAt(prediction, part.tension)}`,
      ),
    );
    inputs.push(
      line(
        names.V_n,
        force(part.shear),
        "force",
        clauseAt(part.shear),
        `lowest capacity in shear${of}: ${titleAt(prediction, part.shear)}`,
      ),
    );
    const formula = (text: string): Expression => renameSymbols(parseFormula(text), names);
    steps.push(
      step(
        names.P_N,
        formula(ALONG.P_N),
        "",
        `resultant at which tension alone reaches its capacity${of}`,
      ),
    );
    steps.push(
      step(
        names.P_V,
        formula(ALONG.P_V),
        "",
        `resultant at which shear alone reaches its capacity${of}`,
      ),
    );
    steps.push(
      step(
        names.P,
        formula(part.equation.resultant),
        part.equation.clause,
        `resultant at which the interaction is met (${part.equation.meaning})`,
      ),
    );
    return names.P;
  });
  if (resultants.length > 1)
    steps.push(
      step("P_n", parseFormula(`min(${resultants.join(", ")})`), "", "the lowest of these"),
    );
  const provision: ProvisionDefinition = {
    id: `${code.id}/${rule.clause}`,
    title: rule.title,
    action: "tension",
    modes: ["concrete_breakout"],
    confidence: rule.confidence,
    levels: [level],
    limits: [],
    steps: [],
    capacity: "P_n",
    notes: [
      "Both loads increase from zero in a constant ratio; the capacity is the resultant.",
      ...found.unchecked.map((says) => `${says}.`),
    ],
  };
  const capacity = found.capacity / code.system.inSi.force;
  const missing = [
    ...(Number.isNaN(found.angle) ? ["alpha"] : []),
    ...found.without.map((action) => (action === "tension" ? "N_n" : "V_n")),
  ];
  return {
    code,
    provision,
    level,
    parts: [{ label: "", inputs, steps, limits: [], capacity, missing }],
    capacity_N: found.capacity,
    restsOn: interactionRestsOn(prediction, i),
  };
}

/** What the governing equation of a row with both loads rests on that the row does not state. */
export function interactionRestsOn(prediction: CodePrediction, i: number): string[] {
  const governing = interactionAt(prediction, i)?.governing ?? null;
  const columns =
    governing === null
      ? []
      : [governing.tension, governing.shear].flatMap((column) => prediction.columns[column] ?? []);
  return [...new Set(columns.flatMap((column) => restsOnFinder(prediction, column)(i)))];
}

const titleAt = ({ columns }: CodePrediction, column: number): string =>
  columns[column]?.provision.title ?? "";

/** Symbols of one equation; several equations carry the kind of failure as a subscript. */
function namesFor(
  { equation }: InteractionPart,
  several: boolean,
): Readonly<Record<"N_n" | "V_n" | "P_N" | "P_V" | "P", string>> {
  const suffix = !several ? "" : equation.of === "steel" ? "_s" : "_c";
  return {
    N_n: `N_n${suffix}`,
    V_n: `V_n${suffix}`,
    P_N: `P_N${suffix}`,
    P_V: `P_V${suffix}`,
    P: `P_n${suffix}`,
  };
}
