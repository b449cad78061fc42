import { mapOperands, renameSymbols, type Expression } from "../../formula";

/** An equation as the edition numbers it. */
export interface PrintedForm {
  readonly number: string;
  readonly symbol: string;
  readonly of: string;
  /** Symbols that this form writes otherwise. */
  readonly rename?: Readonly<Record<string, string>>;
  /** Factors that this form has not, since they are 1 in it. */
  readonly without?: readonly string[];
}

/** How a clause of the edition is cited and where new text goes. */
export interface ClauseForm {
  readonly heading: string;
  readonly forms: readonly PrintedForm[];
  /** Number of the sub-clause that a change adds. */
  readonly next: string;
}

const single = (
  number: string,
  symbol: string,
  rest: Pick<PrintedForm, "rename" | "without"> = {},
): PrintedForm => ({ number, symbol, of: "a single anchor", ...rest });
const group = (number: string, symbol: string): PrintedForm => ({
  number,
  symbol,
  of: "a group of anchors",
});

/**
 * Clauses of ACI 318-19, both printed forms: heading and numbers of equations from memory, to be
 * checked against a licensed copy before a ballot.
 */
const ACI_318_19: Readonly<Record<string, ClauseForm>> = {
  "17.6.2": {
    heading: "Concrete breakout strength of anchors in tension",
    forms: [single("17.6.2.1a", "N_cb", { without: ["psi_ec_N"] }), group("17.6.2.1b", "N_cbg")],
    next: "17.6.2.7",
  },
  "17.6.5": {
    heading: "Bond strength of adhesive anchors in tension",
    forms: [single("17.6.5.1a", "N_a", { without: ["psi_ec_Na"] }), group("17.6.5.1b", "N_ag")],
    next: "17.6.5.6",
  },
  "17.7.2": {
    heading: "Concrete breakout strength of anchors in shear",
    forms: [single("17.7.2.1a", "V_cb", { without: ["psi_ec_V"] }), group("17.7.2.1b", "V_cbg")],
    next: "17.7.2.7",
  },
  "17.7.3": {
    heading: "Concrete pryout strength of anchors in shear",
    forms: [
      single("17.7.3.1a", "V_cp", { rename: { N_cpg: "N_cp" } }),
      group("17.7.3.1b", "V_cpg"),
    ],
    next: "17.7.3.2",
  },
};

/**
 * How a provision is cited in its edition; null where that is not known.
 * @example clauseForm("aci318-19/17.6.5")?.next // "17.6.5.6"
 */
export function clauseForm(provision: string): ClauseForm | null {
  const [code = "", clause = ""] = provision.split("/");
  return code.startsWith("aci318-19") ? (ACI_318_19[clause] ?? null) : null;
}

/** The equation in one of its printed forms. */
export function inForm(
  equation: Expression,
  { rename = {}, without = [] }: PrintedForm,
): Expression {
  return renameSymbols(withoutFactors(equation, without), rename);
}

function withoutFactors(e: Expression, names: readonly string[]): Expression {
  if (e.kind === "binary" && e.operator === "*") {
    if (e.right.kind === "symbol" && names.includes(e.right.name))
      return withoutFactors(e.left, names);
    return { ...e, left: withoutFactors(e.left, names) };
  }
  return e.kind === "call" ? mapOperands(e, (one) => withoutFactors(one, names)) : e;
}
