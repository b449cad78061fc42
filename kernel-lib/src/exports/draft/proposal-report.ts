import type { Comparison } from "../../comparison";
import type { TestTable } from "../../dataset";
import { candidatesOf, frontier } from "../../figures";
import { changedProvisions, FactorDerivation, groupReliability, groupStandings, type AlternativeOutcome, type BeforeAfter, type GroupStanding, type ProposedChange } from "../../proposals";
import { alternativesTable, leftOutTable, standingTable } from "../../tables";
import type { Block, PacketModel, Section } from "../packet/document";
import { draftText } from "./draft";

/** What a report on a proposal is made from. */
export interface ProposalReportInput {
  readonly proposal: ProposedChange;
  readonly tests: TestTable;
  readonly change: BeforeAfter;
  /** The comparison with the present code that the change was made from. */
  readonly comparison: Comparison;
  readonly question: { readonly fractile: number; readonly confidence: number };
  /** Several proposals compared on the same tests; none when there is only one. */
  readonly alternatives?: readonly AlternativeOutcome[];
  readonly caution: string;
  /** True where the tests hold invented demonstration data. */
  readonly invented: boolean;
}

const paragraph = (text: string): Block => ({ kind: "paragraph", text });

/** A report on one proposal: draft text, before and after in words and numbers, whether its factor survives, alternatives. */
export function proposalReport(input: ProposalReportInput): PacketModel {
  const { proposal, tests, change, question, caution, invented } = input;
  const standings = groupStandings(change, groupReliability(tests, change.present)).filter((one, k) => one.applied !== 1 || change.groups[k]?.before.verdict !== change.groups[k]?.after.verdict);
  const sections: Section[] = [
    { id: "before-after", title: "Before and after", blocks: standingBlocks(standings, change) },
    ...robustnessSection(input, new Set(standings.map(({ label }) => label))),
    ...alternativesSection(input),
    { id: "draft", title: "Draft text, the change marked", blocks: draftText(proposal, { code: change.present, change, question, caution }).blocks() },
  ];
  return { title: `Proposal ${proposal.id}: ${proposal.title}`, subtitle: proposal.says, caution, stamp: invented ? "Contains invented demonstration data: proves nothing, not for design" : "Research use; not for design", sections };
}

function standingBlocks(standings: readonly GroupStanding[], change: BeforeAfter): Block[] {
  const list = (title: string, labels: readonly string[]): string[] => (labels.length > 0 ? [`${title}: ${labels.join("; ")}.`] : []);
  const moved = [...list("No longer permitted", change.withdrawn), ...list("New", change.added)];
  if (standings.length === 0) return [paragraph(`${moved.length > 0 ? "" : "No group changes. "}${change.groups.length} groups are as before.`), ...(moved.length > 0 ? [{ kind: "list" as const, items: moved }] : [])];
  return [
    { kind: "table", table: standingTable(standings, { id: "standing", title: "Groups that the proposal changes, before and then" }) },
    { kind: "list", items: [...standings.map(({ reading }) => reading), ...moved] },
    paragraph(`${change.groups.length - standings.length} groups are as before.`),
  ];
}

/** Whether a constant factor remains adequate without each study and size, and under other reasonable choices. */
function robustnessSection({ proposal, comparison, change, question }: ProposalReportInput, labels: ReadonlySet<string>): Section[] {
  if (!("factor" in proposal) || !Number.isFinite(Number(proposal.factor))) return [];
  const factor = Number(proposal.factor);
  const ids = changedProvisions(proposal);
  const groups = change.groups.filter(({ label, by }) => labels.has(label) && ids.some((id) => change.present.provisions.some((one) => one.id === id && one.modes[0] === by["mode"])));
  if (groups.length === 0) return [];
  const derivation = new FactorDerivation(comparison, question);
  const found = groups.map(({ label, before }) => {
    const criterion = proposal.criterion === "reliability" ? "fractile" : (proposal.criterion ?? derivation.defaultFor(before));
    return { label, criterion, leftOut: derivation.leaveOut(before, criterion, "study", factor), choices: derivation.choices(before, criterion, factor) };
  });
  return [{ id: "robustness", title: "Robustness of the factor", blocks: [
    ...(found.some(({ leftOut }) => leftOut.length > 0) ? [{ kind: "table" as const, table: leftOutTable(found.map((one) => ({ ...one, proposed: factor })), { id: "left-out", title: `The factor ${factor} without each study` }) }] : []),
    { kind: "list", items: found.map(({ label, criterion, choices }) => `${label}, criterion "${criterion}": ${choices.reading}`) },
  ] }];
}

function alternativesSection({ alternatives = [], invented }: ProposalReportInput): Section[] {
  if (alternatives.length === 0) return [];
  const candidates = candidatesOf(alternatives);
  const figure = frontier({
    id: "alternatives-frontier", title: "Alternatives by safety and economy", invented, caption: "In brackets the numbers and conditions to look up.", candidates, economyTitle: "Strength used, mean predicted / test (–)", safetyTitle: "Least characteristic ratio (–)",
    required: { value: 1, label: "characteristic ratio 1: meets" },
  });
  return [{ id: "alternatives", title: "Alternatives", blocks: [
    { kind: "table", table: alternativesTable(alternatives, { id: "alternatives", title: "Alternatives by safety, economy and simplicity" }) },
    ...(candidates.length > 0 ? [{ kind: "figure" as const, figure }] : []),
    { kind: "list", items: alternatives.map(({ reading }) => reading) },
  ] }];
}
