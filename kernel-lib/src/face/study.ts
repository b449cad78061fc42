import { resolve } from "node:path";
import { rejectedOnReading } from "../comparison";
import type { Dataset, Invented } from "../dataset";
import type { ChangeInput } from "./proposals/change-input";
import { openProposalOn, proposeOn } from "./proposals/propose-on";
import type { Proposal } from "./proposals/proposal";
import type { CodeId } from "./results/generated-names";
import type { Setting } from "./results/result";
import { withDerivedColumns } from "./tests/derived-columns";
import { Tests } from "./tests/tests";

/**
 * The tests of a study and what is known of their sources.
 * @example
 * const study = await openStudy(); study.compare("aci318-19").by("mode", "bar_material").table();
 */
export class Study extends Tests {
  constructor(
    setting: Setting,
    /** The project's folder. */
    readonly root: string,
    /** The data as read and checked. */
    readonly data: Dataset,
    readonly folders: readonly string[],
  ) {
    super(setting, {
      table: withDerivedColumns(data),
      conditions: [],
      rejected: rejectedOnReading(data.setAside),
    });
  }

  override get name(): string {
    return "study";
  }

  get folder(): string {
    return this.root;
  }

  get title(): string {
    return this.data.name;
  }

  get seed(): number {
    return this.setting.seed;
  }

  /** Whether the data are invented, all or in part. */
  get invented(): Invented {
    return this.setting.invented;
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
