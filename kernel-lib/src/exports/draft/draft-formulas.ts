import { parseFormula, symbolsOf, symbolText } from "../../formula";
import { applyProposals, printedEquation, provisionOf, type ProposedChange } from "../../proposals";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";
import type { Block } from "../document/document";
import { clauseForm, inForm, type PrintedForm } from "./clause-forms";
import { symbolMeaning } from "./condition-words";

type Formula = Extract<Block, { kind: "formula" }>;

/**
 * The equations of a change, as they are evaluated: the present one removed, the proposed one new,
 * in each form that the edition prints. Several changes of one clause are one equation.
 */
export function draftFormulas(
  changes: readonly ProposedChange[],
  provision: ProvisionDefinition,
  code: CodeDefinition,
): readonly { readonly form: PrintedForm | null; readonly formulas: readonly Formula[] }[] {
  const { capacity, id } = provision;
  const [first] = changes;
  if (first !== undefined && "kind" in first && first.kind === "addition")
    return [
      {
        form: null,
        formulas: provision.steps.map(({ symbol, formula }) => ({
          kind: "formula",
          symbol,
          expression: parseFormula(formula),
          change: "inserted",
        })),
      },
    ];
  const factors = changes.filter((one) => !("kind" in one));
  const changed = provisionOf(applyProposals(code, factors), id) ?? provision;
  const [present, proposed] = [provision, changed].map((one) =>
    printedEquation(one, capacity, code),
  );
  const forms: readonly (PrintedForm | null)[] = clauseForm(id)?.forms ?? [null];
  return forms.map((form) => {
    const formula = (expression: Formula["expression"], change?: Formula["change"]): Formula => ({
      kind: "formula",
      symbol: form?.symbol ?? capacity,
      expression: form ? inForm(expression, form) : expression,
      ...(change ? { change } : {}),
    });
    return {
      form,
      formulas:
        factors.length === 0
          ? [formula(present!)]
          : [formula(present!, "deleted"), formula(proposed!, "inserted")],
    };
  });
}

/** Factors that are no number, each as an equation of its own. */
export function factorFormulas(changes: readonly ProposedChange[]): readonly Formula[] {
  return changes.flatMap((one): Formula[] => {
    if (!("factor" in one)) return [];
    const expression = parseFormula(one.factor);
    return expression.kind === "number"
      ? []
      : [{ kind: "formula", symbol: one.symbol, expression, change: "inserted" }];
  });
}

/** What the symbols of the equations that stand mean, one a line. */
export function draftSymbols(
  changes: readonly ProposedChange[],
  provision: ProvisionDefinition,
  code: CodeDefinition,
): string[] {
  const equations = draftFormulas(changes, provision, code);
  const formulas = [...equations.flatMap((one) => one.formulas), ...factorFormulas(changes)];
  const read = new Set(
    formulas.flatMap(({ change, symbol, expression }) =>
      change === "deleted" ? [] : [symbol, ...symbolsOf(expression)],
    ),
  );
  const ofForm = new Map(
    equations.flatMap(({ form }) =>
      form === null
        ? []
        : [
            [form.symbol, provision.capacity] as const,
            ...Object.entries(form.rename ?? {}).map(([old, now]) => [now, old] as const),
          ],
    ),
  );
  return [...read]
    .filter((name) => name !== "pi")
    .map((name) => {
      const own = changes.find((one) => "symbol" in one && one.symbol === name);
      if (own) return `${symbolText(name)} = factor for ${own.title} (new)`;
      const known = ofForm.get(name) ?? name;
      const { meaning, unit } = symbolMeaning(known, code, provision);
      const which = known === name ? "" : " of a single anchor";
      return `${symbolText(name)} = ${meaning}${which}${unit === "" ? "" : `, ${unit}`}`;
    });
}
