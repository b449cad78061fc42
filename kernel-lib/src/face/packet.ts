import { resolve } from "node:path";
import type { Block } from "../exports/document";
import { packetFileTable } from "../exports/packet/packet-file-table";
import { verifyManifest } from "../exports/manifest";
import type { Table, TableText } from "../tables";
import { projectRoot } from "./project";
import type { Ballot } from "./proposals/ballot";
import type { Proposal } from "./proposals/proposal";
import type { CodeId } from "./results/generated-names";
import { packetProposal } from "./packet-proposal";
import { Findings } from "./results/findings";
import { count } from "./results/names";
import { Result, type Setting, type TableView } from "./results/result";
import type { StudyData } from "./colophon";
import type { Tests } from "./tests/tests";
import type { StudyPacket } from "./study-packet";
import { writeStudyPacket } from "./write-study-packet";

type PacketTable = "before and after" | "evidence" | "account" | "other codes" | "files";

/** What a packet shows beside its proposal. */
export interface PacketOptions {
  /** Codes under which the same groups are shown; default none. */
  readonly otherCodes?: readonly CodeId[];
}

/** What a packet is made of. */
interface PacketTold extends PacketOptions {
  readonly made: StudyPacket;
  /** The proposal to be voted on, where it is not the one derived by default. */
  readonly proposal?: Proposal | undefined;
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
    private readonly study: Tests & StudyData,
    private readonly told: PacketTold,
  ) {
    super();
  }

  private get made(): StudyPacket {
    return this.told.made;
  }

  private get proposal(): Proposal {
    return this.told.proposal ?? packetProposal(this.made, this.setting);
  }

  get name(): string {
    return "packet";
  }

  get answer(): string {
    return this.lines.find((line) => /^(Proposed|No factor)/.test(line)) ?? this.lines.at(-1) ?? "";
  }

  /**
   * The ballot sheet of one changed provision of the packet, or of all.
   * @throws UnknownNameError for a provision that does not change
   */
  ballot(provision?: string): Ballot {
    return this.proposal.ballot(provision);
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
   * figure and table, and a manifest with the hash of every file; then compares what was written with the manifest.
   * @param folder from the project's folder
   * @returns the folder's path
   */
  override async save(folder: string): Promise<string> {
    const path = resolve(projectRoot(this.study.root), folder);
    await writeStudyPacket(this.study, path, { made: this.made, more: await this.ballotFiles() });
    this.#saved = { folder, faults: await verifyManifest(path) };
    return path;
  }

  protected sentences(): readonly string[] {
    return this.lines;
  }

  protected tableViews(): Readonly<Record<PacketTable, TableView>> {
    const of = (id: string, title: string): TableView => {
      const found = this.blocks.flatMap((block) =>
        block.kind === "table" && block.table.id === id ? [block.table] : [],
      )[0];
      if (found === undefined) throw new RangeError(`The packet has no table "${id}".`);
      return { title, caption: found.caption, notes: found.notes, make: renamed(found) };
    };
    return {
      "before and after": of("before-after", "Characteristic ratio before and after"),
      evidence: of("verdicts-by-mode-and-material", "Verdicts by mode and material"),
      account: of("account-of-rows", "Account of rows"),
      "other codes": this.otherCodes(),
      files: {
        title: "Files of the packet",
        caption: `${count(this.made.model.sections.length, "section")}.`,
        make: (text) => packetFileTable(this.made.model, text),
      },
    };
  }

  /** The same groups under other codes. */
  private otherCodes(): TableView {
    const others = this.told.otherCodes ?? [];
    // Compared when the table is asked for, not with every other table.
    const groups = (): Table =>
      this.study
        .compare([...new Set([this.proposal.code, ...others])])
        .by("mode", "bar_material")
        .table("verdicts");
    return {
      title: "The same tests under other codes",
      caption:
        others.length === 0
          ? "No other code is named (otherCodes)."
          : "Characteristic ratios of the same groups; each code is judged on the tests within its scope.",
      make: (text) => renamed(groups())(text),
    };
  }

  private async ballotFiles(): Promise<readonly { name: string; content: Uint8Array | string }[]> {
    const ballot = this.ballot();
    if (ballot.sheets.length === 0) return [];
    return [
      { name: "ballot.html", content: await ballot.toHtml() },
      { name: "ballot.docx", content: await ballot.toDocx() },
    ];
  }

  private get blocks(): readonly Block[] {
    return this.made.model.sections.flatMap(({ blocks }) => blocks);
  }

  /** The answer in five lines. */
  private get lines(): readonly string[] {
    const answer = this.made.model.sections.find(({ id }) => id === "answer");
    return (answer?.blocks ?? []).flatMap((block) => (block.kind === "list" ? block.items : []));
  }
}

function renamed(table: Table): (text: TableText) => Table {
  return (text) => new (table.constructor as new (content: object) => Table)({ ...table, ...text });
}
