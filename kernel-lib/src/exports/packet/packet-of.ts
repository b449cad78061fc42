import { parseFormula, symbolText } from "../../formula";
import { accountOf, verdictLines, type Comparison } from "../../comparison";
import type { Study } from "../../dataset";
import type { Proposal } from "../../proposals";
import { accountTable, factorTable, Table } from "../../tables";
import { answerLines, supportWords } from "./answer";
import type { Block, DocumentModel, Section } from "../document/document";
import type { PacketResults } from "./packet-results";

const paragraph = (text: string): Block => ({ kind: "paragraph", text });

/**
 * The document model of a packet for a code committee. Every number in its sentences is taken from
 * the results given.
 * @example await writePacket(packetOf(results), folder)
 */
export function packetOf(results: PacketResults): DocumentModel {
  const { comparison, studies } = results;
  const invented = studies.some(({ provenance }) => provenance === "demo");
  const code = `${comparison.code.title} (${comparison.code.edition})`;
  return {
    title: results.title,
    subtitle: `Evidence for a change of ${code}: ${comparison.tests.length} rows of tests from ${studies.length} studies, compared at the ${comparison.prediction.level} level.`,
    caution: results.caution,
    stamp: invented
      ? "Contains invented demonstration data: proves nothing, not for design"
      : "Research use; not for design",
    sections: [
      {
        id: "question",
        title: "The question",
        blocks: [
          paragraph(
            `Do the capacities of ${code} hold for fiber-reinforced polymer (FRP) bars as they do for steel bars, mode by mode? If not, what factor is required? A provision meets the criterion where the lower bound of the ${fractileWords(results)} of test-to-predicted ratios is at least 1.0, and falls short where its upper bound is below 1.0. Where the bounds enclose 1.0, the tests leave the question undecided.`,
          ),
        ],
      },
      {
        id: "answer",
        title: "The answer in five lines",
        blocks: [{ kind: "list", items: answerLines(results) }],
      },
      {
        id: "proposal",
        title: "The proposal",
        blocks: [...factorBlocks(results), ...proposalBlocks(results)],
      },
      {
        id: "evidence",
        title: "Evidence",
        blocks: [
          paragraph(
            "Ratio means peak load divided by predicted capacity. Tests that were stopped or failed in another mode are lower bounds for the mode studied, never values.",
          ),
          { kind: "list", items: results.groups.flatMap(verdictLines) },
          ...results.tables.map((table): Block => ({ kind: "table", table })),
          ...results.figures.map((figure): Block => ({ kind: "figure", figure })),
        ],
      },
      { id: "before-after", title: "Before and after", blocks: beforeAfterBlocks(results) },
      {
        id: "excluded",
        title: "Excluded tests and account of rows",
        blocks: [
          paragraph(
            "Every row is accounted for. The first table lists the excluded tests with the reason for each; the second gives what became of every row read, judged or not, by reason.",
          ),
          { kind: "table", table: results.excluded },
          {
            kind: "table",
            table: accountTable(accountOf(comparison, results.rejected ?? []), {
              id: "account-of-rows",
              title: "Account of rows",
            }),
          },
        ],
      },
      { id: "sources", title: "Data sources", blocks: sourceBlocks(studies, comparison) },
      methodSection(results),
      limitsSection(results, invented),
      {
        id: "colophon",
        title: "Colophon",
        blocks: [
          paragraph(
            "With the same inputs, a rerun gives the same numbers and the same files. NOTICES.txt holds the license of the font embedded in the PDF files.",
          ),
          { kind: "table", table: results.colophon },
        ],
      },
    ],
  };
}

/**
 * The factors of all groups stand before the texts that use them: whether each is supported is read
 * first.
 */
function factorBlocks({ factors, question }: PacketResults): Block[] {
  if (factors.length === 0) return [];
  const table = factorTable(
    factors,
    {
      id: "derived-factors",
      title: "Factors by three criteria",
      notes: [
        `Each factor is the lower one-sided bound at ${percent(question.confidence)} confidence, rounded down. Warnings on single factors: section "Limits and cautions".`,
      ],
    },
    { warnings: false },
  );
  return [{ kind: "table", table }];
}

/**
 * The classes of the mode whose factor does not remain adequate without one study or laboratory.
 */
function withoutStudyWords({ changes }: Proposal, { comparison, factors }: PacketResults): string {
  const mode = comparison.code.provisions.find(({ id }) => id === changes)?.modes[0];
  const named = factors
    .filter(
      ({ by, leftOut }) =>
        by["mode"] === mode && leftOut.some(({ adequate }) => adequate === false),
    )
    .map(({ label }) => label);
  return named.length === 0
    ? ""
    : `; the factor of ${named.join(" and ")} does not remain adequate without one study`;
}

function proposalBlocks(results: PacketResults): Block[] {
  const { proposals, comparison, drafts, caution, groups } = results;
  if (proposals.length === 0)
    return [
      paragraph(
        `No change is proposed: no mode has a factor below 1.0 for every class of FRP bars. ${groups.filter(({ verdict }) => verdict === "undecided").length} of ${groups.length} groups are undecided.`,
      ),
    ];
  const supports: Block = {
    kind: "list",
    items: proposals.map(
      (one) =>
        `${one.title}: ${symbolText(one.symbol)} = ${one.says}; ${supportWords(one)}${withoutStudyWords(one, results)}.`,
    ),
  };
  if (drafts && drafts.length > 0)
    return [
      supports,
      paragraph(
        'Added text is underlined and follows the word "New"; removed text is struck and follows the word "Removed".',
      ),
      ...drafts.flatMap((draft) => draft.blocks({ caution: false })),
      { kind: "caution", text: caution },
    ];
  return [
    supports,
    ...proposals.flatMap((proposal): Block[] => {
      const provision = comparison.code.provisions.find(({ id }) => id === proposal.changes);
      const capacity = provision?.capacity ?? "R";
      return [
        {
          kind: "provision",
          title: `${proposal.changes}: ${provision?.title ?? proposal.title}`,
          pieces: [
            {
              text: `The nominal strength shall be taken as the strength by this provision multiplied by ${symbolText(proposal.symbol)}, which is ${proposal.says}.`,
              change: "inserted",
            },
          ],
        },
        {
          kind: "formula",
          symbol: `${capacity}_proposed`,
          expression: parseFormula(`${proposal.symbol} * ${capacity}`),
        },
        paragraph(
          `Why: ${proposal.rationale} Evidence: ${proposal.evidence}. ${proposal.derivation}`,
        ),
      ];
    }),
  ];
}

function beforeAfterBlocks({ beforeAfter, change, standings = [] }: PacketResults): Block[] {
  const shown = new Set(
    beforeAfter.table.rows.map((row) =>
      beforeAfter.table.rowKey
        .map((key) => String(row[key]))
        .join(", ")
        .toLowerCase(),
    ),
  );
  const listed = (labels: readonly string[]): string => {
    const inside = labels.filter((label) => shown.size === 0 || shown.has(label.toLowerCase()));
    return inside.length === 0 ? "none" : inside.join("; ");
  };
  return [
    paragraph(
      "The same tests compared twice: with the provision as it stands and with the proposed factors.",
    ),
    { kind: "table", table: beforeAfter.table },
    { kind: "figure", figure: beforeAfter.figure },
    {
      kind: "list",
      items: [
        `Groups that now meet the criterion: ${listed(change.nowMeet)}.`,
        `Groups that still fall short: ${listed(change.stillShort)}.`,
        `Undecided: ${listed(change.undecided)}.`,
        ...standings.filter(({ applied }) => applied !== 1).map(({ reading }) => reading),
      ],
    },
  ];
}

function sourceBlocks(studies: readonly Study[], comparison: Comparison): Block[] {
  const ids = comparison.tests.texts("study_id");
  return [
    {
      kind: "table",
      table: new Table({
        id: "data-sources",
        title: "Sources of the tests",
        rowKey: ["study"],
        columns: [
          { key: "study", title: "study", kind: "text" },
          { key: "provenance", title: "provenance", kind: "text" },
          { key: "rows", title: "rows", kind: "integer" },
          { key: "citation", title: "citation", kind: "text" },
          { key: "doi", title: "DOI", kind: "text" },
          { key: "remarks", title: "remarks", kind: "text" },
        ],
        rows: studies.map(({ study_id, provenance, citation, doi, remarks }) => ({
          study: study_id,
          provenance: provenance === "demo" ? "demonstration (invented)" : provenance,
          rows: Array.from(ids).filter((id) => id === study_id).length,
          citation,
          doi,
          remarks,
        })),
      }),
    },
  ];
}

function methodSection(results: PacketResults): Section {
  const { comparison, question, groups, proposals } = results;
  const level = percent(question.confidence);
  const lognormal = groups[0]?.distribution === "lognormal";
  return {
    id: "methods",
    title: "Methods in plain words",
    blocks: [
      {
        kind: "list",
        items: [
          `Each test is compared with the capacity of the mode ${comparison.way === "governing" ? "that governs" : "in which it failed"}, at the ${comparison.prediction.level} level: the code's characteristic value ${comparison.prediction.level === "design" ? "with" : "before"} its strength reduction.`,
          `The ${percent(question.fractile)} fractile of the ratios is given as a median estimate with a lower and an upper one-sided bound, each at ${level} confidence. The lower bound is the characteristic ratio r_k. Meets: r_k at least 1.0. Falls short: upper bound below 1.0. Undecided: neither.`,
          `As tested: for the bars, concretes and adhesives of the series tested, series effect ignored; mean − K × standard deviation${lognormal ? " of the logarithms" : ""}, K from the noncentral t distribution.`,
          "In general: for a further series, series effect included. Tests of one series share concrete, adhesive and day and are correlated, so the effective sample size is smaller. At least 3 series that failed in the mode are needed. Where the mean ratio differs with layout or another column, each such cell has a mean of its own, with one scatter within and between series for all cells; the group's verdict is that of its worst cell. The bounds are an approximate Bayesian mixture over the intraclass correlation.",
          "Lower bounds are treated as right-censored: mean and scatter come from maximum likelihood, and no single K exists.",
          `A factor is the lower bound at ${level} confidence by its criterion, rounded down to a step of 0.05 and not above 1. Fractile: the lower bound of the ${percent(question.fractile)} fractile in general is 1.0. As steel: FRP bars get what the present provision gives steel bars, from cells in which both were tested. Reliability: a target index is reached at the code's own strength reduction. A reduction is supported by its own tests where the upper bound by the criterion is below 1.0.`,
          ...(proposals.length > 0
            ? [
                "Factors are derived and judged on the same tests, which flatters them: each is therefore also derived without each study and each laboratory in turn and judged on what was left out.",
              ]
            : []),
          "A group with too few tests or series has no verdict in general, and nothing is proposed for it.",
          "The statistical model, its measured error rates, limits and sources are in the project's methods document, kernel-lib/docs/methods.md.",
          "Each capacity can be followed by hand in the workbook hand-check.xlsx, where every step is a live formula; so can the verdict as tested. No spreadsheet formula gives the verdict in general.",
        ],
      },
    ],
  };
}

function limitsSection({ caution, factors }: PacketResults, invented: boolean): Section {
  const warnings = factors.flatMap(({ label, status, reading, warnings: list }) =>
    (status === "derived" ? list : [reading.replace(/\.$/, "")]).map(
      (warning) => `${label}: ${warning}.`,
    ),
  );
  return {
    id: "limits",
    title: "Limits and cautions",
    blocks: [
      { kind: "caution", text: caution },
      {
        kind: "list",
        items: [
          ...(invented
            ? [
                "Part of the data are invented for demonstration. They show how the case is made; they are no evidence about real bars.",
              ]
            : []),
          "Static short-term tests only: sustained load, fire, moisture, alkali and fatigue are outside this comparison.",
          "A factor applies only to bars, adhesives, sizes and concretes like those tested.",
          "Design follows the local code and the judgment of a licensed engineer.",
          ...warnings,
        ],
      },
    ],
  };
}

function fractileWords({ question }: PacketResults): string {
  return `${percent(question.fractile)} fractile (one-sided, at ${percent(question.confidence)} confidence)`;
}

const percent = (share: number): string => `${Number((100 * share).toPrecision(6))} %`;
