import { parseFormula, symbolText } from "../../formula";
import type { Comparison, RatioGroup } from "../../comparison";
import type { Study } from "../../dataset";
import type { Figure } from "../../figures";
import type { BeforeAfter, DerivedFactor, Proposal } from "../../proposals";
import { Table, unusedTable } from "../../tables";
import type { Draft } from "../draft";
import { answerLines } from "./answer";
import type { Block, PacketModel, Section } from "./document";

/** What a packet is built from: results, not sentences. */
export interface PacketResults {
  /** Title of the proposal. */
  readonly title: string;
  /** The caution shown wherever results are. */
  readonly caution: string;
  readonly studies: readonly Study[];
  readonly comparison: Comparison;
  /** Groups of the comparison on which the case rests. */
  readonly groups: readonly RatioGroup[];
  readonly factors: readonly DerivedFactor[];
  readonly proposals: readonly Proposal[];
  /** The draft of each proposal, as the researcher left it; without them the packet says the change in one sentence each. */
  readonly drafts?: readonly Draft[];
  readonly change: BeforeAfter;
  readonly question: { readonly fractile: number; readonly confidence: number };
  readonly figures: readonly Figure[];
  readonly tables: readonly Table[];
  readonly beforeAfter: { readonly figure: Figure; readonly table: Table };
  readonly excluded: Table;
  readonly colophon: Table;
}

const paragraph = (text: string): Block => ({ kind: "paragraph", text });

/**
 * The document model of a packet for a code committee. Every number in its sentences is taken from the results given.
 * @example await writePacket(packetOf(results), folder)
 */
export function packetOf(results: PacketResults): PacketModel {
  const { comparison, studies } = results;
  const invented = studies.some(({ provenance }) => provenance === "demo");
  const code = `${comparison.code.title} (${comparison.code.edition})`;
  return {
    title: results.title,
    subtitle: `Evidence for a change of ${code}: ${comparison.tests.length} rows of tests from ${studies.length} studies, compared at the ${comparison.prediction.level} level.`,
    caution: results.caution,
    stamp: invented ? "Contains invented demonstration data: proves nothing, not for design" : "Research use; not for design",
    sections: [
      { id: "question", title: "The question", blocks: [paragraph(`Do the capacities of ${code} hold for bars of fibre-reinforced polymer as they do for steel, mode by mode? And where they do not, by what factor would they have to be reduced so that the characteristic test-to-predicted ratio (${percent(results.question.fractile)} fractile at ${percent(results.question.confidence)} confidence) is at least 1?`)] },
      { id: "answer", title: "The answer in five lines", blocks: [{ kind: "list", items: answerLines(results) }] },
      { id: "proposal", title: "The proposal", blocks: proposalBlocks(results) },
      { id: "evidence", title: "Evidence", blocks: [paragraph("Ratio means peak load divided by predicted capacity. Tests that failed otherwise than in the mode studied are lower bounds of that mode, never values."), ...results.tables.map((table): Block => ({ kind: "table", table })), ...results.figures.map((figure): Block => ({ kind: "figure", figure }))] },
      { id: "before-after", title: "Before and after", blocks: beforeAfterBlocks(results) },
      { id: "excluded", title: "Excluded tests and tests without a ratio", blocks: [paragraph("No row was dropped silently. The first table lists what was set aside and why, the second the tests to which no provision gives a ratio."), { kind: "table", table: results.excluded }, { kind: "table", table: unusedTable(comparison, { id: "tests-without-ratio", title: "Tests without a ratio, by reason" }) }] },
      { id: "sources", title: "Data sources", blocks: sourceBlocks(studies, comparison) },
      methodSection(results),
      limitsSection(results, invented),
      { id: "colophon", title: "Colophon", blocks: [paragraph("With the same entries a rerun gives the same numbers and the same files."), { kind: "table", table: results.colophon }] },
    ],
  };
}

function proposalBlocks({ proposals, comparison, drafts, caution }: PacketResults): Block[] {
  if (proposals.length === 0) return [paragraph("No change is proposed: no group with enough tests falls short.")];
  if (drafts && drafts.length > 0) return [paragraph("Added text is underlined and follows the word \"New\"; removed text is struck and follows the word \"Removed\"."), ...drafts.flatMap((draft) => draft.blocks({ caution: false })), { kind: "caution", text: caution }];
  return proposals.flatMap((proposal): Block[] => {
    const provision = comparison.code.provisions.find(({ id }) => id === proposal.changes);
    const capacity = provision?.capacity ?? "R";
    return [
      { kind: "provision", title: `${proposal.changes}: ${provision?.title ?? proposal.title}`, pieces: [
        { text: `The nominal capacity shall be taken as the capacity of this provision multiplied by the factor ${symbolText(proposal.symbol)}, which is ${proposal.says}.`, change: "inserted" },
      ] },
      { kind: "formula", symbol: `${capacity}_proposed`, expression: parseFormula(`${proposal.symbol} * ${capacity}`) },
      paragraph(`Why: ${proposal.rationale} Evidence: ${proposal.evidence}. ${proposal.derivation}`),
    ];
  });
}

function beforeAfterBlocks({ beforeAfter, change }: PacketResults): Block[] {
  const shown = new Set(beforeAfter.table.rows.map((row) => beforeAfter.table.rowKey.map((key) => String(row[key])).join(", ").toLowerCase()));
  const listed = (labels: readonly string[]): string => {
    const inside = labels.filter((label) => shown.size === 0 || shown.has(label.toLowerCase()));
    return inside.length === 0 ? "none" : inside.join("; ");
  };
  return [
    paragraph("The same tests compared twice: with the provision as it stands and with the proposed factors."),
    { kind: "table", table: beforeAfter.table }, { kind: "figure", figure: beforeAfter.figure },
    { kind: "list", items: [`Fell short and meets now: ${listed(change.mended)}.`, `Falls short still: ${listed(change.stillShort)}.`] },
  ];
}

function sourceBlocks(studies: readonly Study[], comparison: Comparison): Block[] {
  const ids = comparison.tests.texts("study_id");
  return [{
    kind: "table",
    table: new Table({
      id: "data-sources", title: "Sources of the tests", rowKey: ["study"],
      columns: [
        { key: "study", title: "study", kind: "text" }, { key: "provenance", title: "provenance", kind: "text" }, { key: "rows", title: "rows", kind: "integer" },
        { key: "citation", title: "citation", kind: "text" }, { key: "doi", title: "DOI", kind: "text" }, { key: "remarks", title: "remarks", kind: "text" },
      ],
      rows: studies.map(({ study_id, provenance, citation, doi, remarks }) => ({ study: study_id, provenance: provenance === "demo" ? "demonstration (invented)" : provenance, rows: Array.from(ids).filter((id) => id === study_id).length, citation, doi, remarks })),
    }),
  }];
}

function methodSection({ comparison, question }: PacketResults): Section {
  return { id: "methods", title: "Methods in plain words", blocks: [{ kind: "list", items: [
    `Each test is compared with the capacity of the mode ${comparison.way === "governing" ? "that governs" : "in which it failed"}, at the ${comparison.prediction.level} level: the code's characteristic value ${comparison.prediction.level === "design" ? "with" : "before"} its strength reduction.`,
    `The characteristic ratio is a lower bound: with ${percent(question.confidence)} confidence at least ${percent(1 - question.fractile)} of such bars lie above it. Tests of one series share concrete, adhesive and day, so it is counted by series: tests of a series that are alike count for little more than one. How alike they are is the intraclass correlation: 0 no more than tests of different series, 1 all the same. Verdicts and factors rest on this number where at least 3 series failed in the mode.`,
    "Beside it stands the researcher's own step, tests taken as independent of each other: mean − K × standard deviation, with the exact tolerance factor K for the number of tests (noncentral t distribution). Verdicts rest on it only where fewer than 3 series failed in the mode, and the reason says so.",
    "Where lower bounds enter a group, mean and scatter come from maximum likelihood for censored samples, and no single K exists.",
    "A factor is the characteristic ratio itself, counted by series, rounded down to a step of 0.05 and never above 1; with fewer than 3 series none is proposed. Its interval comes from resampling whole series.",
    "A group with too few tests gets no verdict and no factor: the packet says so and proposes nothing there.",
    "Each capacity can be followed by hand in the workbook hand-check.xlsx, where every step is a live formula.",
  ] }] };
}

function limitsSection({ caution, factors }: PacketResults, invented: boolean): Section {
  const warnings = factors.flatMap(({ label, status, reading, warnings: list }) => (status === "derived" ? list : [reading.replace(/\.$/, "")]).map((warning) => `${label}: ${warning}.`));
  return { id: "limits", title: "Limits and cautions", blocks: [
    { kind: "caution", text: caution },
    { kind: "list", items: [
      ...(invented ? ["Part of the data are invented for demonstration. They show how the case is made; they are no evidence about real bars."] : []),
      "Static short-term tests only: sustained load, fire, moisture, alkali and fatigue are outside this comparison.",
      "A factor speaks for bars, adhesives, sizes and concretes like those tested, and for no others.",
      "Design follows the local code and the judgement of a licensed engineer.",
      ...warnings,
    ] },
  ] };
}

const percent = (share: number): string => `${Number((100 * share).toPrecision(6))} %`;

