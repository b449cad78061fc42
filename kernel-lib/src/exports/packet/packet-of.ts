import { verdictLines } from "../../comparison";
import { accountSection } from "./account-section";
import { commentsSection } from "./comments";
import { movedBetween, movedSection } from "./moved-numbers";
import { resultsFile } from "./results-file";
import { coverSection } from "./cover";
import type { Block, DocumentModel, Section } from "../document/document";
import type { PacketResults } from "./packet-results";
import { paragraph } from "./paragraph";
import { factorBlocks, proposalBlocks } from "./proposal-section";
import { beforeAfterBlocks } from "./before-after-section";
import { sensitivitySection } from "./sensitivity-section";
import { sourceBlocks } from "./source-section";
import { methodSection } from "./method-section";
import { limitsSection } from "./limits-section";

/**
 * The document model of a packet for a code committee. Every number in its sentences is taken from
 * the results given.
 * @example packetOf(results).sections.map(({ title }) => title)
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
    coverFirst: true,
    sections: [
      coverSection(results),
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
      ...(results.sensitivity ? [sensitivitySection(results.sensitivity)] : []),
      accountSection(results),
      { id: "sources", title: "Appendix: data", blocks: sourceBlocks(studies, comparison) },
      ...(results.comments ? [commentsSection(results.comments)] : []),
      ...earlierSections(results),
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

/** What moved since an earlier packet, where one is named. */
function earlierSections(results: PacketResults): Section[] {
  const { earlier } = results;
  if (earlier === undefined) return [];
  return [movedSection(movedBetween(earlier.results, resultsFile(results)), earlier.folder)];
}
