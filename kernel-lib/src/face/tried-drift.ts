import type { DriftTrial } from "../curves";
import { significant } from "../statistics/reading";
import { driftTrialTable } from "../tables";
import { fileName } from "./results/names";
import { Result, type Setting, type TableView } from "./results/result";

/** How well a rule for slow drift recovers the peak load of a record with a known drift. */
export class TriedDrift extends Result<"rules"> {
  constructor(
    protected readonly setting: Setting,
    private readonly source: string,
    private readonly test_id: string | null,
    private readonly trials: readonly DriftTrial[],
  ) {
    super();
  }

  get name(): string {
    return fileName(this.source, "drift");
  }

  get answer(): string {
    if (this.test_id === null) return "No load-displacement record to which a drift can be added.";
    const parts = this.trials.map(
      ({ rule, error }) =>
        `${significant(100 * error, 2)} % ${rule === "none" ? "without correction of the drift" : `after the rule ${rule}`}`,
    );
    return `Error of the peak load of ${this.test_id} with a known drift of the load cell: ${parts.join(", ")}.`;
  }

  protected sentences(): readonly string[] {
    return [this.answer];
  }

  protected tableViews(): Readonly<Record<"rules", TableView>> {
    return {
      rules: {
        title: "One record with a known drift of its load cell",
        notes: ["The drift, the readings at rest before it and their scatter are invented."],
        make: (text) => driftTrialTable(this.trials, text),
      },
    };
  }
}
