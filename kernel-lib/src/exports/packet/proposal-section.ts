import { parseFormula, symbolText } from "../../formula";
import type { Proposal } from "../../proposals";
import { factorTable } from "../../tables";
import { supportWords } from "./support-words";
import type { Block } from "../document/document";
import type { PacketResults } from "./packet-results";
import { percent } from "./packet-words";
import { paragraph } from "./paragraph";

/**
 * The factors of all groups stand before the texts that use them: whether each is supported is read
 * first.
 */
export function factorBlocks({ factors, question }: PacketResults): Block[] {
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

/** The proposals with their drafts, or that nothing is proposed. */
export function proposalBlocks(results: PacketResults): Block[] {
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
