import { compile, parseFormula, symbolsOf, toJavaScript } from "../../formula";
import { INPUTS, isInput } from "../inputs/catalogue";
import type { Specimens } from "../inputs/prepare";
import type { CodeDefinition } from "./definition";
import type { DetailCheck } from "./detail-check";

/** The verdict of one check for one specimen; value and least in mm. */
export interface DetailVerdict {
  readonly check: DetailCheck;
  readonly verdict: "kept" | "not kept" | "does not concern" | "missing value";
  readonly value_mm: number;
  readonly least_mm: number;
}

type Judge = (args: readonly number[]) => [boolean, number, number];
const judges = new WeakMap<
  DetailCheck,
  { readonly reads: readonly string[]; readonly judge: Judge }
>();

/**
 * Judges the placing of bars of one specimen by a code's checks.
 * @param options the code's options in mm and MPa; what is left out keeps the code's default
 * @example detailChecks(aci318, ACI318_DETAIL_CHECKS, new Specimens(tests, "nominal"), 0)
 */
export function detailChecks(
  code: CodeDefinition,
  checks: readonly DetailCheck[],
  specimens: Specimens,
  i: number,
  options: Readonly<Record<string, number>> = {},
): DetailVerdict[] {
  const valueOf = (name: string): number => {
    const option = code.options[name];
    if (option) return (options[name] ?? option.value) / code.system.inSi[option.quantity];
    if (!isInput(name))
      throw new Error(`Symbol "${name}" is neither an input nor an option of ${code.id}.`);
    return specimens.value(name, i) / code.system.inSi[INPUTS[name].quantity];
  };
  return checks.map((check) => {
    const { reads, judge } = judgeOf(check);
    const [concerns, value, least] = judge(reads.map(valueOf));
    const verdict = !concerns
      ? "does not concern"
      : Number.isNaN(value) || Number.isNaN(least)
        ? "missing value"
        : value >= least
          ? "kept"
          : "not kept";
    const mm = code.system.inSi.length;
    return { check, verdict, value_mm: value * mm, least_mm: least * mm };
  });
}

function judgeOf(check: DetailCheck): { readonly reads: readonly string[]; readonly judge: Judge } {
  const known = judges.get(check);
  if (known) return known;
  const formulas = [check.concerns, check.value, check.least].map(parseFormula);
  const reads = [...new Set(formulas.flatMap((formula) => [...symbolsOf(formula)]))];
  const [concerns, value, least] = formulas.map((formula) =>
    toJavaScript(formula, (name) => `args[${reads.indexOf(name)}]`),
  );
  const made = {
    reads,
    judge: compile<Judge>(
      ["args"],
      `return [Boolean(${concerns}), Number(${value}), Number(${least})];`,
    ),
  };
  judges.set(check, made);
  return made;
}
