import { compare, type Comparison as Pairs, type LowerBoundRule } from "../../comparison";
import type { TestTable } from "../../dataset";
import {
  codeNamed,
  levelOf,
  optionNumbers,
  type CodeOrProposal,
  type PredictOptions,
} from "../results/code-named";
import type { CodeId } from "../results/generated-names";
import { knownName } from "../results/names";

/** How tests are joined with a code's predictions. */
export interface CompareOptions<C extends CodeId = CodeId> extends PredictOptions<C> {
  /** Which capacity divides the load; default `observed mode`. */
  readonly capacityOf?: "observed mode" | "governing mode";
  /** Which pairs of test and provision enter the ratios; default `judged`. */
  readonly scope?: "judged" | "all";
  /** Tests that failed in another mode or were stopped; default `used`. */
  readonly lowerBounds?: LowerBoundRule | "left out";
  /** Factor on the load of confined bond tests; default none: they do not test the provision. */
  readonly confinedBondFactor?: number;
}

/** One code of a comparison: the tests joined with its predictions. */
export interface ComparedCode {
  readonly pairs: Pairs;
}

/** Choices other than the defaults that a title must name. */
export function unusualChoices({ scope, lowerBounds }: CompareOptions): readonly string[] {
  return [
    ...(scope === "all" ? ["judged or not"] : []),
    ...(lowerBounds === "left out" ? ["lower bounds omitted"] : []),
    ...(lowerBounds === "stopped early" ? ["lower bounds of tests stopped early only"] : []),
  ];
}

/** A set of tests joined with the predictions of one or several codes. */
export function comparedCodes(
  tests: TestTable,
  codes: CodeOrProposal | readonly CodeOrProposal[],
  options: CompareOptions,
  usual?: CompareOptions["level"],
): ComparedCode[] {
  const given: readonly CodeOrProposal[] = Array.isArray(codes)
    ? [...new Set(codes as readonly CodeOrProposal[])]
    : [codes as CodeOrProposal];
  if (given.length === 0)
    throw new RangeError("No code is named; expected one or several, such as aci318-19.");
  const capacityOf = knownName("capacityOf", options.capacityOf ?? "observed mode", [
    "observed mode",
    "governing mode",
  ]);
  const scope = knownName("scope", options.scope ?? "judged", ["judged", "all"]);
  const lowerBounds = knownName("lowerBounds", options.lowerBounds ?? "used", [
    "used",
    "stopped early",
    "left out",
  ]);
  const all = given.map(codeNamed);
  return all.map((code): ComparedCode => {
    const known = optionNumbers(options.options, code, all);
    const pairs = compare(tests, code, {
      level: levelOf(code, options.level, usual),
      capacityOf,
      scope,
      ...(lowerBounds === "left out" ? {} : { lowerBounds }),
      options: known,
      ...(options.confinedBondFactor === undefined
        ? {}
        : { confinedBondFactor: options.confinedBondFactor }),
    });
    if (lowerBounds !== "left out") return { pairs };
    return {
      pairs: {
        ...pairs,
        evidence: pairs.evidence.filter(({ bound }) => !bound),
        notJudged: pairs.notJudged.filter(({ bound }) => !bound),
      },
    };
  });
}
