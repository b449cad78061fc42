import { conditionWords } from "../../exports/draft";
import { capitalised, valueWords } from "../../comparison";
import { BAR_MATERIALS } from "../../dataset";
import { parseFormula } from "../../formula";
import {
  CONDITION_COLUMNS,
  conditionFormula,
  EVERY_BAR,
  familyOf,
  type ProposedChange,
} from "../../proposals";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";
import type { ProvisionId } from "../results/generated-names";
import { fileName, knownName } from "../results/names";
import type { Condition } from "../tests/condition";
import type { TestRow } from "../tests/study-row";

/** A change of one provision, as a notebook states it. */
export interface ChangeInput {
  /** Such as "aci318-19/17.6.5". */
  readonly provision: ProvisionId;
  /**
   * A number, or a formula in the symbols of the provision; "not permitted" withdraws the provision
   * there.
   */
  readonly factor: number | string;
  /**
   * Where it applies: columns of the tests that a provision can read, in their units, or a formula
   * in the symbols of the provision; everywhere where left out.
   */
  readonly where?: Condition<TestRow> | string;
  /** Further provisions that change alike; default the same failure towards other edges. */
  readonly alsoChanges?: readonly string[];
  /** Symbol of the factor in formulas. */
  readonly symbol?: string;
  readonly title?: string;
  readonly rationale?: string;
}

/**
 * A change as the room of proposals knows it.
 * @param k its number among the changes of one proposal, from 0
 * @throws UnknownNameError for a provision or column, RangeError for a factor or condition that
 *   cannot be used
 */
export function proposedChange(
  input: ChangeInput,
  code: CodeDefinition,
  k: number,
): ProposedChange {
  const ids = code.provisions.map(({ id }) => id);
  const id = knownName("provision", input.provision, ids);
  const provision = code.provisions.find((one) => one.id === id)!;
  const where = whereFormula(input.where, code);
  const everywhere = where === EVERY_BAR;
  const condition = everywhere
    ? "for every bar"
    : `where ${conditionWords(where, code, provision)}`;
  const family = familyOf(id);
  const alsoChanges = (input.alsoChanges ?? family.alsoChanges ?? []).map((one) =>
    knownName("provision", one, ids),
  );
  const mode = valueWords(provision.modes[0]);
  const shared = {
    id: input.title ? fileName(input.title) : fileName(`change ${k + 1}`, id),
    title: input.title ?? titleOf(mode, where, code, provision),
    changes: id,
    ...(alsoChanges.length > 0 ? { alsoChanges } : {}),
    where,
    rationale: input.rationale ?? "The change is proposed for study.",
    evidence: "the tests of the study",
  };
  if (input.factor === "not permitted")
    return { ...shared, kind: "restriction", says: `not permitted ${condition}` };
  const factor = factorFormula(input.factor);
  return {
    ...shared,
    symbol: input.symbol ?? symbolOf(provision, family.symbol, where, k),
    factor,
    says: `${factor} ${condition}${everywhere ? "" : ", 1 otherwise"}`,
    derivation:
      "The factor was set by the author of the proposal and was not derived from the tests.",
  };
}

function whereFormula(where: ChangeInput["where"], code: CodeDefinition): string {
  if (where === undefined) return EVERY_BAR;
  if (typeof where === "string") return readable(where);
  if (typeof where === "function")
    throw new RangeError(
      'The condition of a change is a function, which no code can print; expected columns such as { bar_class: "frp" }, or a formula such as "gfrp == 1".',
    );
  for (const column of Object.keys(where))
    knownName("column that a provision reads", column, CONDITION_COLUMNS);
  return conditionFormula(where, code);
}

function factorFormula(factor: number | string): string {
  if (typeof factor === "string") return readable(factor);
  if (!(factor > 0 && Number.isFinite(factor)))
    throw new RangeError(
      `The factor is ${factor}; expected a number above 0, a formula or "not permitted".`,
    );
  return String(factor);
}

/** The formula itself. @throws Error where it cannot be read */
function readable(formula: string): string {
  parseFormula(formula);
  return formula;
}

/** The usual symbol for FRP bars; else one of its own for each change of a proposal. */
function symbolOf(
  { modes: [mode] }: ProvisionDefinition,
  usual: string | undefined,
  where: string,
  k: number,
): string {
  if (usual !== undefined && where === "frp == 1") return usual;
  return `psi_${usual?.replace(/^psi_(FRP_)?/, "") ?? mode.replaceAll("_", "")}_${k + 1}`;
}

/** Such as "FRP bars in bond". */
function titleOf(
  mode: string,
  where: string,
  code: CodeDefinition,
  provision: ProvisionDefinition,
): string {
  if (where === EVERY_BAR) return `Bars in ${mode}`;
  const [, material] = /^(\w+) == 1$/.exec(where) ?? [];
  return material === "frp" || (BAR_MATERIALS as readonly string[]).includes(material ?? "")
    ? `${material === "frp" ? "FRP" : valueWords(material!)} bars in ${mode}`
    : `${capitalised(mode)} where ${conditionWords(where, code, provision)}`;
}
