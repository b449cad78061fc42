import { capitalised } from "../../statistics/reading";
import { symbolText, toText, type Expression } from "../../formula";
import type { Trace, TracePart } from "../model/trace";
import { INPUTS, isInput } from "../inputs/catalogue";
import { writtenLine, type CalculationLine } from "./calculation-line";
import { clauseWords } from "./clause-words";
import { decisive, usedLines } from "./used-lines";
import { writtenNumber, writtenValue } from "./written-number";

export type { CalculationLine } from "./calculation-line";

/** The caution that closes every hand calculation. */
export const CALCULATION_CAUTION =
  "Research use only, to compare tests with a code's equations; no design. Anchorage failures can kill. Design must follow the local code and a licensed engineer.";

/** What the reader of one hand calculation may need besides it. */
export interface CalculationContext {
  /** Which test the calculation belongs to. */
  readonly test?: string;
  /** The sentence that says which capacity governs, see `governingSentence`. */
  readonly governing?: string;
  /** Characters of a line of the text form; 100 when left out. */
  readonly width?: number;
  /** Inputs that need no listing, see `inputKey`. */
  readonly listed?: ReadonlySet<string>;
  /** Whether the caution closes the calculation, as it does unless told otherwise. */
  readonly caution?: boolean;
}

/** One acting group of a hand calculation, ready to print. */
export interface CalculationPart {
  readonly heading: string;
  readonly inputs: readonly CalculationLine[];
  /** Inputs with the same values that an earlier calculation has listed. */
  readonly asAbove: readonly string[];
  readonly steps: readonly CalculationLine[];
  readonly limits: readonly {
    readonly verdict: string;
    readonly clause: string;
    readonly says: string;
  }[];
  /** Options at their defaults that decided between cases. */
  readonly defaults: readonly string[];
}

/** A hand calculation as words and lines, which the text, Markdown and HTML forms lay out. */
export interface Calculation {
  readonly title: string;
  readonly source: string;
  readonly parts: readonly CalculationPart[];
  readonly result: string;
  readonly notes: readonly string[];
  readonly governing: string;
  readonly caution: string;
}

/** Prepares a trace for printing. */
export function calculation(trace: Trace, context: CalculationContext = {}): Calculation {
  const { code, provision, level } = trace;
  return {
    title:
      context.test === undefined ? provision.title : `${provision.title}: test ${context.test}`,
    source: `${code.title}; ${code.edition}. ${capitalised([clauseWords(provision.id), trace.length_mm === undefined ? `${level} level` : ""].filter(Boolean).join(", "))}. Units ${code.system.name}${code.system.inSi.length === 1 ? "" : "; mm, kN, MPa in brackets"}.`,
    parts: trace.parts.map((part, k) =>
      writtenPart(
        trace,
        part,
        trace.parts.length > 1 ? `Part ${k + 1} of ${trace.parts.length}: ${part.label}` : "",
        context.listed ?? new Set(),
      ),
    ),
    result: resultSentence(trace),
    notes: [
      ...trace.restsOn.map((says) => `Depends on an input that is not stated: ${says}.`),
      ...(provision.confidence === "M"
        ? [
            `To be checked against a licensed copy of the source${provision.toCheck ? `: ${provision.toCheck}` : ""}.`,
          ]
        : []),
      ...(provision.notes ?? []),
    ],
    governing: context.governing ?? "",
    caution: context.caution === false ? "" : CALCULATION_CAUTION,
  };
}

function writtenPart(
  trace: Trace,
  part: TracePart,
  heading: string,
  listed: ReadonlySet<string>,
): CalculationPart {
  const values = new Map(
    [...part.inputs, ...part.steps].map(({ symbol, value }) => [symbol, value]),
  );
  const value = (name: string): number => (name === "pi" ? Math.PI : (values.get(name) ?? NaN));
  const { isSetting } = usedLines(trace, part, value, []);
  const limits = part.limits.flatMap((limit) => {
    // A limit on the kind of bar that holds is known from the case; of a choice the side that holds
    // is enough.
    const shown =
      limit.holds === true ? decisive(limit.condition, true, value, isSetting) : [limit.condition];
    return shown.length === 0 ? [] : [{ ...limit, shown }];
  });
  const { symbols, defaults } = usedLines(
    trace,
    part,
    value,
    limits.flatMap(({ shown }) => shown),
  );
  const inputs = part.inputs
    .filter(({ symbol }) => symbols.has(symbol))
    .map((line) => writtenLine(line, { value, isSetting }));
  return {
    heading,
    inputs: inputs.filter((line) => !listed.has(inputKey(line))),
    asAbove: inputs.filter((line) => listed.has(inputKey(line))).map(({ symbol }) => symbol),
    steps: part.steps
      .filter(({ symbol, unprinted }) => !unprinted && symbols.has(symbol))
      .map((line) => writtenLine(line, { value, isSetting })),
    limits: limits.map(({ holds, clause, shown, says }) => ({
      verdict:
        holds === null
          ? "cannot be checked because an input is missing"
          : holds
            ? "holds"
            : "does not hold",
      clause,
      says:
        holds === true
          ? `${shown.map(conditionText).join(" and ")} (if not: ${says})`
          : `${says} (needs ${shown.map(conditionText).join(" and ")})`,
    })),
    defaults: [...defaults].map((name) => `${symbolText(name)} = ${writtenNumber(value(name))}`),
  };
}

/**
 * An input with its value: listed once, it need not be listed for the next calculation of the same
 * test.
 */
export function inputKey({ symbol, value }: CalculationLine): string {
  return `${symbol} = ${value}`;
}

/** A distance of a kilometre stands for a far edge. */
function conditionText(condition: Expression): string {
  return toText(condition).replace(/\b1000000\b/g, "∞");
}

function resultSentence({ capacity_N, length_mm, parts, code, provision, level }: Trace): string {
  if (length_mm !== undefined) {
    if (Number.isNaN(length_mm)) return `No length is stated: ${whyWithheld(parts)}.`;
    return `Length: ${writtenValue(length_mm / code.system.inSi.length, code.system.unit.length, length_mm, "mm")}.`;
  }
  if (Number.isNaN(capacity_N)) return `No capacity is stated: ${whyWithheld(parts)}.`;
  const own = writtenValue(
    capacity_N / code.system.inSi.force,
    code.system.unit.force,
    capacity_N / 1000,
    "kN",
  );
  const what = level === "design" && provision.reduction ? "Design capacity" : "Capacity";
  return parts.length > 1
    ? `${what}, sum of ${parts.length} parts that do not act together: ${own}.`
    : `${what}: ${own}.`;
}

/**
 * What withholds a value: the limits that do not hold, else the inputs that are missing with the
 * columns they come from.
 */
function whyWithheld(parts: readonly TracePart[]): string {
  const failing = parts.flatMap(({ limits }) =>
    limits
      .filter(({ holds, effect }) => holds === false && effect === "not_applicable")
      .map(({ clause, says }) => `${clause}, ${says}`),
  );
  if (failing.length > 0) return [...new Set(failing)].join("; ");
  const missing = [...new Set(parts.flatMap((part) => part.missing))];
  if (missing.length === 0) return "a limit cannot be checked because an input is missing";
  return `needs ${missing.map((name) => `${symbolText(name)}${isInput(name) && "column" in INPUTS[name] ? ` (column ${INPUTS[name].column})` : ""}`).join(", ")}`;
}
