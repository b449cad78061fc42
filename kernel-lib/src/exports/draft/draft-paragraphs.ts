import type { BeforeAfterGroup, ProposedChange } from "../../proposals";

/** The paragraphs of a draft that a researcher may write anew; the caution is not among them. */
export type ParagraphName =
  "rule" | "change" | "family" | "limits" | "commentary" | "evidence" | "outside";

/**
 * A paragraph with placeholders such as `{factor}` where the results put their words and numbers.
 */
export interface DraftParagraph {
  readonly name: ParagraphName;
  readonly text: string;
  /** New text of the provision is underlined; the rule that stands already is not. */
  readonly change?: "inserted";
  readonly part: "provision" | "commentary";
}

/** The paragraphs as they stand before anybody edits them, in our own words. */
export function firstParagraphs(
  proposal: ProposedChange,
  groups: readonly BeforeAfterGroup[],
): DraftParagraph[] {
  const kind = "kind" in proposal ? proposal.kind : "factor";
  const limited = (proposal.limits ?? []).length > 0;
  const family =
    kind !== "addition" && "alsoChanges" in proposal && (proposal.alsoChanges ?? []).length > 0;
  return [
    ...(kind === "addition"
      ? []
      : [
          {
            name: "rule" as const,
            part: "provision" as const,
            text: "The nominal strength in the failure mode of this section shall be calculated by the equation given here.",
          },
        ]),
    { name: "change", part: "provision", change: "inserted", text: CHANGE[kind] },
    ...(family
      ? [
          {
            name: "family" as const,
            part: "provision" as const,
            change: "inserted" as const,
            text: "The same applies to {family}.",
          },
        ]
      : []),
    ...(limited
      ? [
          {
            name: "limits" as const,
            part: "provision" as const,
            change: "inserted" as const,
            text: "This change applies within the tested range: {limits}. Outside these limits, strength shall be established by tests.",
          },
        ]
      : []),
    {
      name: "commentary",
      part: "commentary",
      text:
        kind === "factor" ? `{rationale} ${criterionText(proposal)}{derivation}` : "{rationale}",
    },
    {
      name: "evidence",
      part: "commentary",
      text: groups.length > 0 ? EVIDENCE : "The change is based on {evidence}.",
    },
    {
      name: "outside",
      part: "commentary",
      text: "The evidence is from short-term static tests. Sustained load, repeated load, fire, moisture and alkali were not investigated.",
    },
  ];
}

const CHANGE = {
  factor: "{symbol} shall be taken as {factor} where {condition} and as {one} otherwise.",
  restriction: "This section shall not be used where {condition}: {says}.",
  addition: "{says}",
} as const;

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
