import type { Trace } from "../model/trace";
import type { CalculationContext } from "./hand-calculation";
import { handCalculationHtml, handCalculationNotebookHtml } from "./hand-calculation-html";
import { handCalculationLatex } from "./hand-calculation-latex";
import { handCalculationMarkdown } from "./hand-calculation-markdown";
import { handCalculationText } from "./hand-calculation-text";

/** One value of a hand calculation as data: null where it is missing or unlimited (a far edge). */
export interface TraceValue {
  readonly symbol: string;
  readonly value: number | null;
  readonly unit: string;
  readonly clause: string;
  /** Which bars, where a group was taken apart. */
  readonly part?: string;
}

/** A hand calculation that a notebook shows as a printed page. */
export class ShownTrace {
  constructor(
    readonly trace: Trace,
    readonly context: CalculationContext = {},
  ) {}

  toText(): string {
    return handCalculationText(this.trace, this.context);
  }

  toMarkdown(): string {
    return handCalculationMarkdown(this.trace, this.context);
  }

  toLatex(): string {
    return handCalculationLatex(this.trace, this.context);
  }

  toHtml(): Promise<string> {
    return handCalculationHtml(this.trace, this.context);
  }

  /** HTML for a notebook, which may strip MathML: formulas as lines of text. */
  toNotebookHtml(): string {
    return handCalculationNotebookHtml(this.trace, this.context);
  }

  /** What a notebook shows for it. */
  [Symbol.for("code-comparison.display")](): {
    "text/html": string;
    "text/markdown": string;
    "text/plain": string;
  } {
    return {
      "text/html": this.toNotebookHtml(),
      "text/markdown": this.toMarkdown(),
      "text/plain": this.toText(),
    };
  }
}

/**
 * Makes a trace printable: in a notebook `show(showTrace(trace(...)))` prints the hand calculation.
 * @example showTrace(trace(code("aci318-19"), provision, tests, 0)).toText()
 */
export function showTrace(trace: Trace, context: CalculationContext = {}): ShownTrace {
  return new ShownTrace(trace, context);
}

/**
 * The values of a trace as data, for a check by machine: inputs, then steps in order, in the units
 * of the edition.
 */
export function traceToJson(trace: Trace): TraceValue[] {
  return trace.parts.flatMap((part) =>
    [...part.inputs, ...part.steps].map(({ symbol, value, unit, clause }) => ({
      symbol,
      value: Number.isFinite(value) ? value : null,
      unit,
      clause,
      ...(part.label === "" ? {} : { part: part.label }),
    })),
  );
}
