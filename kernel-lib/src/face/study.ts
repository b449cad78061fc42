import { resolve } from "node:path";
import { rejectedOnReading } from "../comparison";
import type { ReductionOptions } from "../curves";
import type { Dataset, Invented } from "../dataset";
import { Audit } from "./audit";
import { colophon } from "./colophon";
import { Curves } from "./curves";
import { curvesOfStudy } from "./curves-of-study";
import { caseOfProposal } from "./case-of-proposal";
import { Packet, type PacketOptions } from "./packet";
import { codeNamed } from "./results/code-named";
import type { CodeId } from "./results/generated-names";
import { KeptTable } from "./results/kept";
import type { ChangeInput } from "./proposals/change-input";
import { openProposalOn, proposeOn } from "./proposals/propose-on";
import type { Proposal } from "./proposals/proposal";
import type { Setting } from "./results/result";
import type { EvidenceColumn } from "./comparison/evidence-row";
import { USUAL_SETTINGS } from "./study-settings";
import { studyPacket } from "./study-packet";
import type { Condition } from "./tests/condition";
import { withDerivedColumns } from "./tests/derived-columns";
import type { TestRow } from "./tests/study-row";
import type { ChosenRows } from "./tests/chosen-rows";
import { Tests } from "./tests/tests";

/** Codes whose missing inputs an audit lists. */
const AUDITED: readonly CodeId[] = ["aci318-19", "en1992-4-2018", "aci440.1r-15"];

/**
 * The tests of a study and what is known of their sources.
 * @example
 * const study = await openStudy(); study.where({ action: "shear" }).predict("aci318-19").table();
 */
export class Study extends Tests {
  constructor(
    setting: Setting,
    /** The project's folder. */
    readonly root: string,
    /** The data as read and checked. */
    readonly data: Dataset,
    readonly folders: readonly string[],
    /** The tests looked at; all where none is stated. */
    condition?: Condition<TestRow>,
  ) {
    super(setting, chosenOf(setting, data, condition));
  }

  override get name(): string {
    return "study";
  }

  get folder(): string {
    return this.root;
  }

  get title(): string {
    return this.setting.settings?.title ?? this.data.name;
  }

  /** The codes of the settings: the first is judged, the others stand beside it. */
  get codes(): readonly [CodeId, ...CodeId[]] {
    return this.setting.settings?.codes ?? USUAL_SETTINGS.codes;
  }

  /** The code that is judged. */
  get code(): CodeId {
    return this.codes[0];
  }

  /** The columns of the groups that get a verdict. */
  get grouping(): readonly [EvidenceColumn, ...EvidenceColumn[]] {
    // The settings were read against the columns there are.
    const by = this.setting.settings?.by ?? USUAL_SETTINGS.by;
    return by as readonly [EvidenceColumn, ...EvidenceColumn[]];
  }

  get seed(): number {
    return this.setting.seed;
  }

  /** Whether the data are invented, all or in part. */
  get invented(): Invented {
    return this.setting.invented;
  }

  /**
   * Whether every row read is accounted for, where the rows come from, and what is missing.
   * @param options `codes`: those whose missing inputs are listed; default ACI 318-19, EN 1992-4
   *   and ACI 440.1R-15
   * @example study.audit().table("missing inputs")
   */
  audit(options: { readonly codes?: readonly CodeId[] } = {}): Audit {
    return new Audit(this.setting, {
      data: this.data,
      chosen: this.chosen.table,
      condition: this.chosen.conditions.join("; "),
      codes: (options.codes ?? AUDITED).map(codeNamed),
    });
  }

  /** What the results rest on: library, data with hashes, lock file and seed. */
  basis(): KeptTable {
    return colophon(this, this.setting.keeps);
  }

  /**
   * The load-displacement records that the tests point to, reduced.
   * @param options rules of the reduction, e.g. `freeLength_mm`, `drift`
   * @example (await study.curves({ freeLength_mm: 30 })).table()
   */
  async curves(options: ReductionOptions = {}): Promise<Curves> {
    return new Curves(this.setting, {
      ...(await curvesOfStudy(this.data, this.folders, this.chosen.table, options)),
      conditions: this.chosen.conditions,
      names: this.chosen.conditions,
      columnNames: this.columnNames,
      options,
    });
  }

  /**
   * What a committee receives: comparison, factors, proposal with its ballot, evidence.
   * @param proposal the changes to be voted on; default one factor a mode of ACI 318-19, as derived
   *   from the tests
   * @param options `otherCodes`: codes under which the same groups are shown beside;
   *   `alternatives`: those compared before; `since`: folder of an earlier packet
   * @throws UnknownNameError for a code that there is not
   * @example study.packet().table()
   */
  packet(proposal?: Proposal, options: PacketOptions = {}): Packet {
    // All rows unless the study looks at some of them: then no other row enters the packet.
    const tests = this.chosen.conditions.length === 0 ? this.data.tests : this.chosen.table;
    const made = studyPacket(this, {
      tests,
      setting: this.setting,
      ...(proposal && caseOfProposal(proposal, codeNamed(proposal.code), tests)),
      ...(options.otherCodes && { otherCodes: options.otherCodes.map(codeNamed) }),
      ...(options.since && { since: options.since }),
      ...(options.alternatives && { alternatives: options.alternatives }),
    });
    return new Packet(this.setting, this, made);
  }

  /**
   * Changes of a code, judged on the tests of the study.
   * @throws UnknownNameError for a code, provision or column; RangeError for a factor or condition
   *   that cannot be used
   * @example
   * study.propose("aci318-19", { provision: "aci318-19/17.6.5", factor: 0.8, where: { bar_class: "frp" } }).table()
   */
  propose(code: CodeId, changes: ChangeInput | readonly ChangeInput[]): Proposal {
    return proposeOn(this.setting, this.chosen.table, code, changes);
  }

  /**
   * The proposal of a JSON file: one change, or a list of changes of one code.
   * @throws Error naming the file and what of it cannot be used
   */
  openProposal(path: string): Promise<Proposal> {
    return openProposalOn(this.setting, this.chosen.table, resolve(this.root, path));
  }
}

function chosenOf(
  setting: Setting,
  data: Dataset,
  condition: Condition<TestRow> | undefined,
): ChosenRows {
  const all: ChosenRows = {
    table: withDerivedColumns(data),
    conditions: [],
    rejected: rejectedOnReading(data.rejected),
  };
  return condition === undefined ? all : new Tests(setting, all).where(condition).chosen;
}
