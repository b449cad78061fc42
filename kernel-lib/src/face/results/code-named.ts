import { CODES, code as codeById, type CodeDefinition } from "../../provisions";
import { knownName } from "./names";
import type { CodeId } from "./generated-names";

/** A code by its id, or a proposal, which goes wherever a code goes. */
export type CodeOrProposal = CodeId | { readonly changedCode: CodeDefinition };

/** The code, or the code with a proposal applied. @throws UnknownNameError naming the nearest id */
export function codeNamed(given: CodeOrProposal): CodeDefinition {
  return typeof given === "string"
    ? codeById(
        knownName(
          "code",
          given,
          CODES.map(({ id }) => id),
        ),
      )
    : given.changedCode;
}

/**
 * Settings of a prediction as a notebook states them: option names of the codes, with true and
 * false for yes and no.
 */
export interface PredictOptions {
  /** Default `nominal`; `expected` for a code that states nothing else. */
  readonly level?: "expected" | "nominal" | "design";
  readonly options?: Readonly<Record<string, number | boolean>>;
}

/** The level asked for, else `nominal`, else the only one that the code states. */
export function levelOf(
  { provisions }: CodeDefinition,
  asked: PredictOptions["level"],
): "expected" | "nominal" | "design" {
  if (asked !== undefined) return asked;
  const states = (level: "expected" | "nominal"): boolean =>
    provisions.some(({ levels }) => levels.includes(level));
  return states("nominal") || !states("expected") ? "nominal" : "expected";
}

/** Options as numbers. */
export function optionNumbers(options: PredictOptions["options"] = {}): Record<string, number> {
  return Object.fromEntries(Object.entries(options).map(([name, value]) => [name, Number(value)]));
}
