import type { Comparison } from "../../comparison";
import type { TestTable } from "../../dataset";
import { candidatesOf, frontier } from "../../figures";
import {
  changedProvisions,
  FactorDerivation,
  groupReliability,
  groupStandings,
  type AlternativeOutcome,
  type BeforeAfter,
  type DerivedFactor,
  type GroupStanding,
  type ProposedChange,
} from "../../proposals";
import { alternativesTable, factorTable, leftOutTable, standingTable } from "../../tables";
import type { Block, DocumentModel, Section } from "../document/document";
import { draftText } from "./draft";

/** What a report on a proposal is made from. */
export interface ProposalReportInput {
  readonly proposal: ProposedChange;
  readonly tests: TestTable;
  readonly change: BeforeAfter;
  /** The comparison with the present code that the change was made from. */
  readonly comparison: Comparison;
  readonly question: { readonly fractile: number; readonly confidence: number };
  /**
   * Factors of the groups that the proposal changes, where they are known already (`ownFactors`).
   */
  readonly factors?: readonly DerivedFactor[];
  /** Several proposals compared on the same tests; none when there is only one. */
  readonly alternatives?: readonly AlternativeOutcome[];
  readonly caution: string;
  /** True where the tests hold invented demonstration data. */
  readonly invented: boolean;
}

const paragraph = (text: string): Block => ({ kind: "paragraph", text });

/**
 * A report on one proposal: draft text, factors by three criteria, before and after, robustness,
 * alternatives.
 */
export function proposalReport(input: ProposalReportInput): DocumentModel {
  const { proposal, tests, change, question, caution, invented } = input;
  const factors = input.factors ?? ownFactors(input);
  const standings = groupStandings(change, groupReliability(tests, change.present), {
    factors,
  }).filter(
    (one, k) =>
      one.applied !== 1 || change.groups[k]?.before.verdict !== change.groups[k]?.after.verdict,
  );
  const sections: Section[] = [
    ...criteriaSection(proposal, factors),
    { id: "before-after", title: "Before and after", blocks: standingBlocks(standings, change) },
    ...robustnessSection(input, factors),
    ...alternativesSection(input),
    {
      id: "draft",
      title: "Draft text, the change marked",
      blocks: draftText(proposal, { code: change.present, change, question, caution }).blocks(),
    },
  ];
  return {
    title: `Proposal ${proposal.id}: ${proposal.title}`,
    subtitle: proposal.says,
    caution,
    stamp: invented
      ? "Contains invented demonstration data: proves nothing, not for design"
      : "Research use; not for design",
    sections,
  };
}

/**
 * Factors that the tests of each group the proposal changes require, by the proposal's criterion
 * (fractile where it states none); none for other changes.
 */
export function ownFactors({
  proposal,
  comparison,
  change,
  question,
}: Pick<ProposalReportInput, "proposal" | "comparison" | "change" | "question">): DerivedFactor[] {
  if (!("factor" in proposal)) return [];
  const ids = changedProvisions(proposal);
  const modes = change.present.provisions
    .filter(({ id }) => ids.includes(id))
    .map(({ modes: [first] }) => first as string);
  const derivation = new FactorDerivation(comparison, question);
  return change.groups
    .filter(
      ({ by, before, after }) =>
        before.mean !== after.mean &&
        (by["mode"] === undefined || modes.includes(String(by["mode"]))) &&
        before.evidence.length > 0,
    )
    .map(({ before }) => derivation.derive(before, proposal.criterion ?? "fractile"));
}

/** What each criterion gives beside the proposed factor. */
function criteriaSection(proposal: ProposedChange, factors: readonly DerivedFactor[]): Section[] {
  if (factors.length === 0) return [];
  return [
    {
      id: "criteria",
      title: "Factors that the tests require",
      blocks: [
        {
          kind: "table",
          table: factorTable(factors, {
            id: "factors",
            title: `Factors by three criteria, beside ${proposal.says}`,
          }),
        },
        { kind: "list", items: factors.map(({ reading }) => reading) },
      ],
    },
  ];
}

function standingBlocks(standings: readonly GroupStanding[], change: BeforeAfter): Block[] {
  const list = (title: string, labels: readonly string[]): string[] =>
    labels.length > 0 ? [`${title}: ${labels.join("; ")}.`] : [];
  const moved = [...list("No longer permitted", change.withdrawn), ...list("New", change.added)];
  if (standings.length === 0)
    return [
      paragraph(
        `${moved.length > 0 ? "" : "No group changes. "}${change.groups.length} groups are as before.`,
      ),
      ...(moved.length > 0 ? [{ kind: "list" as const, items: moved }] : []),
    ];
  return [
    {
      kind: "table",
      table: standingTable(standings, {
        id: "standing",
        title: "Groups that the proposal changes, present and proposed",
      }),
    },
    { kind: "list", items: [...standings.map(({ reading }) => reading), ...moved] },
    paragraph(`${change.groups.length - standings.length} groups are as before.`),
  ];
}

/**
 * Whether a constant factor remains adequate without each study, and under other reasonable
 * choices.
 */
function robustnessSection(
  { proposal, comparison, change, question }: ProposalReportInput,
  factors: readonly DerivedFactor[],
): Section[] {
  if (!("factor" in proposal) || !Number.isFinite(Number(proposal.factor)) || factors.length === 0)
    return [];
  const factor = Number(proposal.factor);
  const derivation = new FactorDerivation(comparison, question);
  const before = new Map(change.groups.map((group) => [group.label, group.before]));
  const found = factors.map(({ label, criterion }) => {
    const group = before.get(label)!;
    return {
      label,
      criterion,
      proposed: factor,
      leftOut: derivation.leaveOut(group, criterion, "study", factor),
      choices: criterion === "reliability" ? null : derivation.choices(group, criterion, factor),
    };
  });
  return [
    {
      id: "robustness",
      title: "Robustness of the factor",
      blocks: [
        ...(found.some(({ leftOut }) => leftOut.length > 0)
          ? [
              {
                kind: "table" as const,
                table: leftOutTable(found, {
                  id: "left-out",
                  title: `The factor ${factor} without each study`,
                }),
              },
            ]
          : []),
        {
          kind: "list",
          items: found.map(
            ({ label, criterion, choices }) =>
              `${label}, criterion "${criterion}": ${choices?.reading ?? "other choices are examined for the criteria fractile and as steel only."}`,
          ),
        },
      ],
    },
  ];
}

function alternativesSection({ alternatives = [], invented }: ProposalReportInput): Section[] {
  if (alternatives.length === 0) return [];
  const candidates = candidatesOf(alternatives);
  const figure = frontier({
    id: "alternatives-frontier",
    title: "Alternatives by safety and economy",
    invented,
    caption: "In brackets the numbers and conditions to find.",
    candidates,
    economyTitle: "Strength used, mean predicted / test (–)",
    safetyTitle: "Lowest characteristic ratio, in general (–)",
    required: { value: 1, label: "r_k = 1: meets" },
  });
  return [
    {
      id: "alternatives",
      title: "Alternatives",
      blocks: [
        {
          kind: "table",
          table: alternativesTable(alternatives, {
            id: "alternatives",
            title: "Alternatives by safety, economy and simplicity",
          }),
        },
        ...(candidates.length > 0 ? [{ kind: "figure" as const, figure }] : []),
        { kind: "list", items: alternatives.map(({ reading }) => reading) },
      ],
    },
  ];
}
