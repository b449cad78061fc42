import { listed } from "../../statistics/reading";
import { parseFormula, symbolText, toText } from "../../formula";
import { testColumn } from "../../dataset";
import {
  changedProvisions,
  rangeWords,
  usesOfResult,
  type BeforeAfterGroup,
  type ProposedChange,
  type TestedScope,
  type ValidityLimit,
} from "../../proposals";
import { SI, type CodeDefinition, type ProvisionDefinition } from "../../provisions";
import { conditionWords } from "./condition-words";
import { metricWords } from "./metric-words";

/** What the values of a draft come from. */
export interface DraftValuesInput {
  /** Changes of one provision, in order. */
  readonly changes: readonly ProposedChange[];
  readonly code: CodeDefinition;
  readonly provision: ProvisionDefinition;
  readonly groups: readonly BeforeAfterGroup[];
  readonly question: string;
  /** What the tests behind the change cover; the limits that it states itself where left out. */
  readonly scope?: TestedScope;
}

/**
 * The words and numbers that the placeholders of a draft stand for, all from the changes and their
 * results. Those of a second change of the same clause end in `_2`.
 */
export function draftValues(input: DraftValuesInput): Record<string, string> {
  const { changes, code, provision, groups, question, scope } = input;
  const each = changes.map((one, k) =>
    Object.fromEntries(
      Object.entries(changeValues(one, code, provision)).map(([name, value]) => [
        k === 0 ? name : `${name}_${k + 1}`,
        value,
      ]),
    ),
  );
  const family = usingClauses(changes, code, provision);
  const limits = scope ? scopeWords(scope) : (changes[0]?.limits ?? []).map(limitWords);
  const metric =
    code.system === SI ? [] : changes.flatMap((one) => metricWords(one, code, provision) ?? []);
  return {
    provision: provision.title,
    clause: clauseOf(provision.id),
    code: code.title,
    edition: code.edition,
    question,
    ...Object.fromEntries(each.flatMap((one) => Object.entries(one))),
    ...(family.length > 0 ? { family: listed(family) } : {}),
    ...(limits.length > 0 ? { limits: listed(limits) } : {}),
    ...(metric.length > 0 ? { metric: metric.join("; ") } : {}),
    ...resultValues(groups),
  };
}

function changeValues(
  proposal: ProposedChange,
  code: CodeDefinition,
  provision: ProvisionDefinition,
): Record<string, string> {
  const { title, says, rationale, evidence } = proposal;
  return {
    title,
    says,
    rationale,
    evidence,
    ...("factor" in proposal
      ? {
          symbol: symbolText(proposal.symbol),
          one: "1.0",
          factor: toText(parseFormula(proposal.factor)),
          derivation: `${proposal.derivation.slice(0, 1).toUpperCase()}${proposal.derivation.slice(1)}`,
        }
      : {}),
    ...criterionValues(proposal),
    ...("where" in proposal ? { condition: conditionWords(proposal.where, code, provision) } : {}),
    // "Not permitted where ..." says what the sentence says already.
    ...("kind" in proposal && proposal.kind === "restriction"
      ? { says_why: says.startsWith("not permitted") ? "" : `: ${says}` }
      : {}),
  };
}

/** Clauses that use the changed strength, each once: towards other edges, and those that read it. */
function usingClauses(
  changes: readonly ProposedChange[],
  code: CodeDefinition,
  provision: ProvisionDefinition,
): string[] {
  const own = clauseOf(provision.id);
  const members = changes.flatMap((one) => changedProvisions(one));
  const users = code.provisions.flatMap((one) =>
    members.includes(one.id) ? usesOfResult(code, one).map(({ id }) => id) : [],
  );
  return [...new Set([...members, ...users].map(clauseOf))].filter((clause) => clause !== own);
}

/** What tests cover, as the limits of a provision. */
export function scopeWords({ ranges, says }: TestedScope): string[] {
  return [...ranges.map((range) => rangeWords(range, toText(parseFormula(range.symbol)))), ...says];
}

/**
 * The clause of a provision's id: what stands after the code, without the edge that tells two of
 * one clause apart.
 */
export function clauseOf(id: string): string {
  return id.slice(id.indexOf("/") + 1).replace(/-edge\d$/, "");
}

/** The number of a clause before its title; nothing where no clause states the provision. */
export function clauseBefore(id: string): string {
  return /^\d/.test(clauseOf(id)) ? `${clauseOf(id)}  ` : "";
}

function limitWords({ column, lower, upper }: ValidityLimit): string {
  const known = testColumn(column);
  const unit = known?.unit ? ` ${known.unit}` : "";
  const name = column.replace(/_(mm2?|MPa|GPa|kN)$/, "").replaceAll("_", " ");
  return lower === upper ? `${name} ${lower}${unit}` : `${name} from ${lower} to ${upper}${unit}`;
}

function countOf(groups: readonly { readonly verdict: string }[], word: string): string {
  return String(groups.filter(({ verdict }) => verdict === word).length);
}

/**
 * The criterion of a factor, and whether its own tests show that a reduction is needed; nothing for
 * other proposals.
 */
function criterionValues(proposal: ProposedChange): Record<string, string> {
  if (!("factor" in proposal) || proposal.criterion === undefined) return {};
  const { criterion, supported } = proposal;
  return {
    criterion,
    ...(supported === undefined
      ? {}
      : {
          supported: supported
            ? "yes: the upper bound by this criterion is below 1.0"
            : "no: the upper bound by this criterion is not below 1.0, so that these tests do not show that a reduction is needed",
        }),
  };
}

function resultValues(groups: readonly BeforeAfterGroup[]): Record<string, string> {
  if (groups.length === 0) return {};
  const found: Record<string, string> = {};
  for (const side of ["before", "after"] as const) {
    const of = groups.map((group) => group[side]);
    const least = of.reduce<{ value: number; label: string } | null>(
      (low, { lower, label, inGeneral: { cell } }) =>
        lower !== null && (low === null || lower < low.value)
          ? { value: lower, label: cell === "" ? label : `${label}, ${cell}` }
          : low,
      null,
    );
    const values = of.flatMap(({ evidence }) =>
      evidence.filter(({ bound }) => !bound).map(({ ratio }) => ratio),
    );
    const below = values.filter((ratio) => ratio < 1).length;
    Object.assign(found, {
      [`meet_${side}`]: countOf(of, "meets"),
      [`short_${side}`]: countOf(of, "falls short"),
      [`undecided_${side}`]: countOf(of, "undecided"),
      [`least_${side}`]: least?.value.toFixed(3) ?? "not known",
      [`least_${side}_group`]: least?.label ?? "no group",
      [`share_${side}`]:
        values.length === 0 ? "not known" : `${((100 * below) / values.length).toFixed(1)} %`,
      [`mean_${side}`]:
        values.length === 0
          ? "not known"
          : (values.reduce((sum, ratio) => sum + ratio, 0) / values.length).toFixed(2),
    });
  }
  return {
    ...found,
    groups: String(groups.length),
    n: String(groups.reduce((sum, { before }) => sum + before.n, 0)),
    n_bounds: String(groups.reduce((sum, { before }) => sum + before.lowerBounds, 0)),
  };
}
