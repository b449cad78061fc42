import { resolve } from "node:path";
import { packetFileTable } from "../exports/packet/packet-file-table";
import { answerWords, changeWords, rowsWords } from "../exports/packet/cover";
import { verifyManifest } from "../exports/manifest";
import { Table, type TableText } from "../tables";
import { projectRoot } from "./project";
import type { Alternatives } from "./proposals/alternatives";
import type { Ballot } from "./proposals/ballot";
import type { CodeId } from "./results/generated-names";
import { Findings } from "./results/findings";
import { count } from "./results/names";
import { Result, type Setting, type TableView } from "./results/result";
import type { StudyData } from "./colophon";
import type { StudyPacket } from "./study-packet";
import { writeStudyPacket } from "./write-study-packet";

/** Views of a packet's tables, and the tables of the document that they show. */
const VIEWS = {
  "before and after": "before-after",
  changes: "changes",
  modes: "modes-without-change",
  evidence: "verdicts-by-mode-and-material",
  account: "account-of-rows",
  "account by study": "account-by-study",
  "other codes": "other-codes",
  alternatives: "alternatives",
  distributions: "distributions",
  choices: "choices",
  comments: "comments",
  moved: "moved",
} as const;

type PacketTable = keyof typeof VIEWS | "files";

/** Why a packet has no such table. */
const WITHOUT: Readonly<Record<string, string>> = {
  changes: "No change is proposed.",
  "other-codes": "No other code is named (otherCodes).",
  comments: "No comment is on file (comments.json).",
  moved: "Nothing moved, or no earlier packet is named (since).",
  alternatives: "No alternatives were compared (alternatives).",
};

/** What a packet shows beside its proposal. */
export interface PacketOptions {
  /** Codes under which the same groups are shown; default none. */
  readonly otherCodes?: readonly CodeId[];
  /** Alternatives that were compared before, such as `factors.alternatives()`; default none. */
  readonly alternatives?: Alternatives;
  /** Folder of an earlier packet: what moved since then is shown; default none. */
  readonly since?: string;
}

/**
 * What a committee receives: question, answer, proposal, evidence and every excluded row, as one
 * document in several formats, with a workbook to check it by hand; `save` writes it.
 * @example const packet = study.packet(); packet.table("account"); packet.check();
 */
export class Packet extends Result<PacketTable> {
  #saved: { readonly folder: string; readonly faults: readonly string[] } | null = null;

  constructor(
    protected readonly setting: Setting,
    private readonly study: StudyData,
    private readonly made: StudyPacket,
  ) {
    super();
  }

  get name(): string {
    return "packet";
  }

  get answer(): string {
    return answerWords(this.made.ballot.sheets);
  }

  /**
   * The ballot sheet of one changed provision of the packet, or of all.
   * @throws UnknownNameError for a provision that does not change
   */
  ballot(provision?: string): Ballot {
    const { ballot, proposal } = this.made;
    return provision === undefined ? ballot : proposal.ballot(provision);
  }

  /**
   * Whether the packet on disk is as it was written, by the hashes of its manifest. Before `save`
   * there is nothing to compare, and the finding says so.
   */
  check(): Findings {
    if (this.#saved === null)
      return new Findings(["The packet has not been saved: no file can be checked."]);
    const { folder, faults } = this.#saved;
    return new Findings(
      faults.length > 0 ? faults : [`Every file in ${folder} is as listed in manifest.json.`],
    );
  }

  /**
   * Writes the packet: HTML, DOCX, PDF and zip, the ballot sheets, the hand-check workbook, each
   * figure and table, every row, the results, and a manifest with the hash of every file; then
   * compares what was written with the manifest.
   * @param folder from the project's folder
   * @returns the folder's path
   */
  override async save(folder: string): Promise<string> {
    const path = resolve(projectRoot(this.study.root), folder);
    await writeStudyPacket(this.study, path, { made: this.made });
    this.#saved = { folder, faults: await verifyManifest(path) };
    return path;
  }

  protected sentences(): readonly string[] {
    const { ballot, results } = this.made;
    return [this.answer, ...ballot.sheets.map(changeWords), rowsWords(results)];
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { model } = this.made;
    const tables = new Map(
      model.sections
        .flatMap(({ blocks }) => blocks)
        .flatMap((block) => (block.kind === "table" ? [[block.table.id, block.table]] : [])),
    );
    const views = Object.entries(VIEWS).map(([name, id]) => [name, viewOf(id, tables.get(id))]);
    return {
      ...(Object.fromEntries(views) as Record<string, TableView>),
      files: {
        title: "Files of the packet",
        caption: `${count(model.sections.length, "section")}.`,
        make: (text) => packetFileTable(model, text),
      },
    };
  }
}

function viewOf(id: string, table: Table | undefined): TableView {
  if (table !== undefined) {
    const { title, caption, notes } = table;
    return { title, caption, notes, make: (text) => new Table({ ...table, ...text }) };
  }
  const says = WITHOUT[id] ?? "No group of FRP bars has a verdict in general.";
  const columns = [{ key: "says", title: "remark", kind: "text" }] as const;
  return {
    title: says,
    make: (text: TableText) => new Table({ ...text, rowKey: ["says"], columns, rows: [{ says }] }),
  };
}
