import { parseFormula, symbolText, toText } from "../../formula";
import { testColumn } from "../../dataset";
import {
  changedProvisions,
  type BeforeAfterGroup,
  type ProposedChange,
  type ValidityLimit,
} from "../../proposals";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";
import { conditionWords } from "./condition-words";

/**
 * The words and numbers that the placeholders of a draft stand for, all from the proposal and its
 * results.
 */
export function draftValues(
  proposal: ProposedChange,
  code: CodeDefinition,
  provision: ProvisionDefinition,
  groups: readonly BeforeAfterGroup[],
  question: string,
): Record<string, string> {
  const factor =
    "factor" in proposal
      ? {
          symbol: symbolText(proposal.symbol),
          one: "1.0",
          factor: toText(parseFormula(proposal.factor)),
          derivation: `${proposal.derivation.slice(0, 1).toUpperCase()}${proposal.derivation.slice(1)}`,
        }
      : {};
  const where =
    "where" in proposal ? { condition: conditionWords(proposal.where, code, provision) } : {};
  const family = changedProvisions(proposal)
    .slice(1)
    .map(
      (id) =>
        `${clauseOf(id)} (${lowerFirst(code.provisions.find((one) => one.id === id)?.title ?? id)})`,
    );
  return {
    title: proposal.title,
    says: proposal.says,
    provision: provision.title,
    clause: clauseOf(provision.id),
    code: code.title,
    edition: code.edition,
    rationale: proposal.rationale,
    evidence: proposal.evidence,
    question,
    ...factor,
    ...criterionValues(proposal),
    ...where,
    ...(family.length > 0 ? { family: listed(family) } : {}),
    ...(proposal.limits?.length ? { limits: listed(proposal.limits.map(limitWords)) } : {}),
    ...resultValues(groups),
  };
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

/** A title within a sentence: "FRP bar in shear" keeps its capitals. */
function lowerFirst(title: string): string {
  return /^[A-Z][A-Z]/.test(title) ? title : title.charAt(0).toLowerCase() + title.slice(1);
}

function limitWords({ column, lower, upper }: ValidityLimit): string {
  const known = testColumn(column);
  const unit = known?.unit ? ` ${known.unit}` : "";
  const name = column.replace(/_(mm2?|MPa|GPa|kN)$/, "").replaceAll("_", " ");
  return lower === upper ? `${name} ${lower}${unit}` : `${name} from ${lower} to ${upper}${unit}`;
}

function listed(names: readonly string[]): string {
  return names.length < 2
    ? (names[0] ?? "")
    : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1] ?? ""}`;
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
