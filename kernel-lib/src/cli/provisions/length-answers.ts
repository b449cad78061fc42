import type { TestTable } from "../../dataset";
import {
  clauseOf,
  DEVELOPMENT_LENGTHS,
  developmentLengthsOf,
  developmentTrace,
  traceToJson,
  type CodeDefinition,
  type PredictionSettings,
  type Trace,
} from "../../provisions";
import { InvalidInput, listed } from "../use/invalid-input";

/**
 * Development lengths of the test's bar for a stress, one a rule of the code. @throws InvalidInput
 * where the code states none
 */
export function lengthTraces(
  code: CodeDefinition,
  tests: TestTable,
  i: number,
  stress: number,
  settings: PredictionSettings,
): Trace[] {
  const rules = developmentLengthsOf(code);
  if (rules.length === 0)
    throw new InvalidInput(
      `Invalid --length-for: ${code.id} states no development length. Use --codes ${listed([...new Set(DEVELOPMENT_LENGTHS.map((rule) => rule.code.id))])}.`,
    );
  return rules.map((rule) => developmentTrace(rule, tests, i, stress, settings));
}

/** One development length as data for JSON. */
export function lengthAnswer(one: Trace): object {
  const length_mm = one.length_mm ?? NaN;
  const reasons = one.parts.flatMap(({ limits }) =>
    limits.filter(({ holds }) => holds === false).map(({ clause, says }) => `${clause}: ${says}`),
  );
  return {
    clause: clauseOf(one.provision.id),
    length_mm: Number.isNaN(length_mm) ? null : length_mm,
    applies: !Number.isNaN(length_mm),
    reasons,
    steps: traceToJson(one),
  };
}
