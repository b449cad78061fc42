import type { CodeDefinition, PredictionSettings } from "../../provisions";
import {
  codeNamed,
  levelOf,
  optionNumbers,
  type CodeOrProposal,
  type PredictOptions,
} from "../results/code-named";
import { knownName } from "../results/names";

/** A code and how it is applied. */
export interface AskedCode {
  readonly code: CodeDefinition;
  readonly settings: PredictionSettings & { readonly level: "expected" | "nominal" | "design" };
}

/**
 * The codes asked for, each with its level and the options that it offers.
 * @throws UnknownNameError for a code, a level, or an option that none of the codes offers;
 *   RangeError where no code is named
 */
export function askedCodes(
  given: CodeOrProposal | readonly CodeOrProposal[],
  { level, options }: PredictOptions,
  usual?: PredictOptions["level"],
): AskedCode[] {
  const several = [...new Set([given].flat() as readonly CodeOrProposal[])];
  if (several.length === 0)
    throw new RangeError("No code is named; expected one or several, such as aci318-19.");
  const codes = several.map(codeNamed);
  if (level !== undefined) knownName("level", level, ["expected", "nominal", "design"]);
  return codes.map((code) => ({
    code,
    settings: {
      level: levelOf(code, level, usual),
      options: optionNumbers(options, code, codes),
    },
  }));
}

/** One code, with its level and options. */
export function askedCode(
  given: CodeOrProposal,
  options: PredictOptions,
  usual?: PredictOptions["level"],
): AskedCode {
  return askedCodes(given, options, usual)[0]!;
}
