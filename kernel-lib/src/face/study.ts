import { rejectedOnReading } from "../comparison";
import type { Dataset, Invented } from "../dataset";
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
}
