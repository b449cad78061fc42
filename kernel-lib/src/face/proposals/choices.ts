import { choicesSpread } from "../../figures";
import type { ReasonableChoices } from "../../proposals";
import { choicesTable } from "../../tables";
import { count, fileName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";

/**
 * The factors under every combination of choices that a reasonable analyst makes: confidence,
 * outliers, lower bounds, and by the fractile criterion distribution and series effect.
 */
export class Choices extends DrawnResult<"every choice", "choices"> {
  constructor(
    protected readonly setting: Setting,
    private readonly of: string,
    private readonly basis: string,
    /** The analyses of each factor as the room of proposals makes them. */
    readonly found: readonly ReasonableChoices[],
  ) {
    super();
  }

  get name(): string {
    return fileName("choices", this.of);
  }

  get answer(): string {
    if (this.found.length === 0)
      return "No factor to examine: none is derived by the criterion fractile or as steel.";
    const all = this.found.filter(({ analyses }) => analyses.every(({ adequate }) => adequate));
    return `${all.length} of ${count(this.found.length, "factor")} ${all.length === 1 ? "does" : "do"} not exceed the factor from any reasonable analysis. ${this.hardest?.label ?? ""}: ${this.hardest?.reading ?? ""}`;
  }

  protected sentences(): readonly string[] {
    return this.found.map(({ label, reading }) => `${label}: ${reading}`);
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    return {
      choices: {
        title: `Factors under every combination of reasonable choices, ${this.basis}`,
        caption: this.answer,
        make: (text) => choicesTable(this.found, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    const { hardest } = this;
    return {
      "every choice": {
        title: `Every reasonable analysis${hardest ? `: ${hardest.label}` : ""}`,
        subtitle: hardest ? `Proposed factor ${hardest.proposed}` : this.basis,
        caption: `Each column is one combination of choices; the reported one is marked. ${this.answer}`,
        make: (text) =>
          choicesSpread({ ...text, measure: "Factor (–)", analyses: hardest?.analyses ?? [] }),
      },
    };
  }

  /** The group of which an analysis gives the lowest factor. */
  private get hardest(): ReasonableChoices | null {
    const lowest = ({ analyses }: ReasonableChoices): number =>
      Math.min(...analyses.map(({ estimate }) => estimate));
    return this.found.reduce<ReasonableChoices | null>(
      (low, one) =>
        one.analyses.length > 0 && (low === null || lowest(one) < lowest(low)) ? one : low,
      null,
    );
  }
}
