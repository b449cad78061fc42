import { comparisonSettings } from "../../comparison";
import { candidatesOf, frontier } from "../../figures";
import {
  compareAlternatives,
  usualAlternatives,
  type AlternativeOutcome,
  type DeriveOn,
  type FactorPlace,
} from "../../proposals";
import { alternativesTable } from "../../tables";
import { count, fileName } from "../results/names";
import type { DerivedFactors } from "./derived-factors";
import { chosenPairs, type GroupsOfCode } from "./judged-groups";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";

/** The usual alternatives judged on the rows of the comparison; none without modes. */
export function alternativeOutcomes(
  { pairs, columns, question }: GroupsOfCode,
  { byMode, factors }: DerivedFactors,
  places: Readonly<Record<string, FactorPlace>>,
  deriveOn: DeriveOn,
): readonly AlternativeOutcome[] {
  if (byMode.length === 0) return [];
  const { tests, code } = pairs;
  return compareAlternatives(
    tests,
    code,
    usualAlternatives({ derived: byMode, tests, present: code, deriveOn }, places),
    columns.filter((column) => column !== "code"),
    {
      ...comparisonSettings(pairs),
      ...question,
      pairs: chosenPairs(pairs),
      modes: byMode.map(({ mode }) => mode).filter((mode) => mode in places),
      factors,
    },
  );
}

/** The usual alternatives of one case, by safety, economy and simplicity. */
export class Alternatives extends DrawnResult<"safety and economy", "alternatives"> {
  constructor(
    protected readonly setting: Setting,
    private readonly of: string,
    private readonly basis: string,
    /** The alternatives as the room of proposals judges them. */
    readonly outcomes: readonly AlternativeOutcome[],
  ) {
    super();
  }

  get name(): string {
    return fileName("alternatives", this.of);
  }

  get answer(): string {
    if (this.outcomes.length === 0)
      return 'No alternatives: no group of FRP bars by mode; expected by("mode", ...) of tests with FRP bars.';
    const best = this.outcomes.filter(({ dominatedBy }) => dominatedBy === null);
    const meets = this.outcomes.filter(({ verdict }) => verdict === "meets");
    return `Of ${count(this.outcomes.length, "alternative")}, ${meets.length === 0 ? "none brings" : `${meets.map(({ label }) => `"${label}"`).join(" and ")} ${meets.length === 1 ? "brings" : "bring"}`} every group to meet; no other is better in all respects than ${best.map(({ label }) => `"${label}"`).join(", ")}.`;
  }

  protected sentences(): readonly string[] {
    return this.outcomes.map(({ reading }) => reading);
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    return {
      alternatives: {
        title: `Alternatives by safety, economy and simplicity, ${this.basis}`,
        caption: this.answer,
        make: (text) => alternativesTable(this.outcomes, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return {
      "safety and economy": {
        title: "Alternatives by safety and economy",
        subtitle: `${this.basis}, FRP bars`,
        caption: `In parentheses: numbers and conditions in the rule. ${this.answer}`,
        make: (text) =>
          frontier({
            ...text,
            candidates: candidatesOf(this.outcomes),
            economyTitle: "Strength used, mean predicted / test (–)",
            safetyTitle: "Lowest characteristic ratio (–)",
            required: { value: 1, label: "characteristic ratio 1: meets" },
          }),
      },
    };
  }
}
