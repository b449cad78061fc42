import { CODES, code as codeById, type CodeDefinition } from "../../provisions";
import type { CodeId, CodeOptionNames } from "./generated-names";
import { knownName } from "./names";

/** A code by its id, or a proposal, which goes wherever a code goes. */
export type CodeOrProposal<C extends CodeId = CodeId> =
  C | { readonly changedCode: CodeDefinition };

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

/** Names of the options of a code, or of several. */
export type CodeOption<C extends CodeId = CodeId> = CodeOptionNames[C];

/** Options of a code by name; true and false stand for yes and no. */
export type CodeOptions<C extends CodeId = CodeId> = {
  readonly [O in CodeOption<C>]?: number | boolean;
};

/** Settings of a prediction as a notebook states them. */
export interface PredictOptions<C extends CodeId = CodeId> {
  /** Default `nominal`; `expected` for a code that states nothing else. */
  readonly level?: "expected" | "nominal" | "design";
  readonly options?: CodeOptions<C>;
}

/**
 * The level asked for, else that of the study's settings where the code states it, else `nominal`,
 * else the only one that the code states.
 */
export function levelOf(
  { provisions }: CodeDefinition,
  asked: PredictOptions["level"],
  usual?: PredictOptions["level"],
): "expected" | "nominal" | "design" {
  if (asked !== undefined) return asked;
  const states = (level: "expected" | "nominal" | "design"): boolean =>
    provisions.some(({ levels }) => levels.includes(level));
  if (usual !== undefined && states(usual)) return usual;
  return states("nominal") || !states("expected") ? "nominal" : "expected";
}

/**
 * Options as numbers: those that a code offers, of a set stated for one or several codes.
 * @throws UnknownNameError for a name that none of the codes offers, with the nearest one
 */
export function optionNumbers(
  options: Readonly<Record<string, number | boolean | undefined>> = {},
  code: Pick<CodeDefinition, "options">,
  codes: readonly Pick<CodeDefinition, "options">[] = [code],
): Record<string, number> {
  const offered = [...new Set(codes.flatMap((one) => Object.keys(one.options)))];
  return Object.fromEntries(
    Object.entries(options).flatMap(([name, value]) =>
      value !== undefined && knownName("code option", name, offered) in code.options
        ? [[name, Number(value)]]
        : [],
    ),
  );
}
