import type { BeforeAfterGroup, ProposedChange } from "../../proposals";

/** The paragraphs of a draft that a researcher may write anew; the caution is not among them. */
export type ParagraphName =
  "change" | "limits" | "metric" | "commentary" | "family" | "evidence" | "outside";

/**
 * A paragraph with placeholders such as `{factor}` where the results put their words and numbers.
 */
export interface DraftParagraph {
  readonly name: ParagraphName;
  readonly text: string;
  /** New text of the provision is underlined; a note to the editor is not. */
  readonly change?: "inserted";
  readonly part: "provision" | "commentary";
}

/**
 * The paragraphs as they stand before anybody edits them, in our own words.
 * @param changes of one provision, in order
 * @param values what the placeholders stand for: a paragraph without its values is left out
 */
export function firstParagraphs(
  changes: readonly ProposedChange[],
  groups: readonly BeforeAfterGroup[],
  values: Readonly<Record<string, string>>,
): DraftParagraph[] {
  const law = (name: ParagraphName, text: string): DraftParagraph => ({
    name,
    part: "provision",
    change: "inserted",
    text,
  });
  const commentary = (name: ParagraphName, text: string): DraftParagraph => ({
    name,
    part: "commentary",
    text,
  });
  const [first] = changes;
  const factors = changes.filter((one) => "factor" in one);
  return [
    law("change", changes.map(changeText).join(" ")),
    ...("limits" in values &&
    !(first !== undefined && "kind" in first && first.kind === "restriction")
      ? [law("limits", LIMITS)]
      : []),
    ...("metric" in values
      ? [{ name: "metric" as const, part: "provision" as const, text: "Metric edition: {metric}." }]
      : []),
    commentary(
      "commentary",
      first !== undefined && factors.length > 0
        ? factors.map((one) => `${reasonText(one, changes.indexOf(one))}`).join(" ")
        : "{rationale}",
    ),
    ...("family" in values ? [commentary("family", FAMILY)] : []),
    commentary("evidence", groups.length > 0 ? EVIDENCE : "The change is based on {evidence}."),
    commentary(
      "outside",
      "The evidence is from short-term static tests. Sustained load, repeated load, fire, moisture and alkali were not investigated.",
    ),
  ];
}

const LIMITS =
  "This change applies within the tested range: {limits}. Outside these limits, strength shall be established by tests.";
const FAMILY =
  "Clauses that use this strength use the changed one, and their text stays: {family}.";

const CHANGE = {
  factor: "{symbol} shall be taken as {factor} where {condition} and as {one} otherwise.",
  rule: "{symbol} shall be taken by this equation where {condition} and as {one} otherwise.",
  restriction: "This section shall not be used where {condition}{says_why}.",
  addition: "{says}",
} as const;

/** The change of the law in words; the placeholders of a second change of the clause end in _2. */
function changeText(one: ProposedChange, k: number): string {
  const kind = "kind" in one ? one.kind : Number.isFinite(Number(one.factor)) ? "factor" : "rule";
  return numbered(CHANGE[kind], k);
}

/** Names of placeholders of the change numbered k from 0. */
export function numbered(text: string, k: number): string {
  return k === 0 ? text : text.replace(/\{(\w+)\}/g, `{$1_${k + 1}}`);
}

function reasonText(one: ProposedChange, k: number): string {
  return numbered(`{rationale} ${criterionText(one)}{derivation}`, k);
}

/** What the factor was chosen for, where the proposal says so. */
function criterionText(proposal: ProposedChange): string {
  if (!("factor" in proposal) || proposal.criterion === undefined) return "";
  return `The factor is proposed by the criterion "{criterion}" ({question}). ${proposal.supported === undefined ? "" : "Supported by its own tests: {supported}. "}`;
}

const EVIDENCE =
  "The change is based on {evidence}. Of the groups it concerns, {short_before} fall short, {undecided_before} are undecided and {meet_before} meet with the present provision; {short_after} fall short, {undecided_after} are undecided and {meet_after} meet with it. The lowest characteristic ratio in general changes from {least_before} ({least_before_group}) to {least_after} ({least_after_group}). The share of single tests below the capacity changes from {share_before} to {share_after}, and the mean ratio from {mean_before} to {mean_after}: predictions for an average test become more conservative in proportion.";

/** Fills the placeholders. @throws Error for a placeholder that has no value */
export function filled(text: string, values: Readonly<Record<string, string>>): string {
  return text.replace(/\{(\w*)\}/g, (_, name: string) => {
    const value = values[name];
    if (value === undefined)
      throw new Error(
        `The placeholder {${name}} is not known; expected one of ${Object.keys(values)
          .map((one) => `{${one}}`)
          .join(", ")}.`,
      );
    return value;
  });
}

/**
 * Checks a paragraph that a researcher writes: every number must come from a placeholder, so that
 * none is typed.
 * @throws Error naming the digits that stand outside a placeholder
 */
export function checkTyped(name: string, text: string): void {
  if (text.trim() === "") throw new Error(`The paragraph "${name}" is empty; expected a sentence.`);
  const typed = /\S*\d\S*/.exec(text.replace(/\{\w*\}/g, ""));
  if (typed)
    throw new Error(
      `The paragraph "${name}" holds the typed number "${typed[0]}"; expected a placeholder such as {factor}, so that the text follows the results.`,
    );
}
