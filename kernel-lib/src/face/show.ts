import { printable } from "../formula";
import { inspect } from "node:util";
import { TestTable } from "../dataset";
import { interruptsSoFar } from "../exports/images/interrupts";
import type { Figure } from "../figures";
import { showTrace } from "../provisions";
import type { Trace } from "../provisions";
import { Table } from "../tables";
import { firstRows } from "./first-rows";
import { proseBundle } from "./results/prose";

const KEEP = Symbol.for("code-comparison.keep");
const SHOW = Symbol.for("code-comparison.show");
const DISPLAY = Symbol.for("code-comparison.display");
/** What an output says of its run beside what it shows. */
export const METADATA = Symbol.for("code-comparison.output-metadata");
const PLAIN_DATA = Symbol.for("code-comparison.plain-data");

type Bundle = Record<string, unknown>;
type Shower = (bundle: Bundle, metadata?: () => Promise<object>) => void | Promise<void>;

function isFigure(value: object): value is Figure {
  return "layout" in value && "alt" in value && Array.isArray((value as { data?: unknown }).data);
}

function isTrace(value: object): value is Trace {
  return (
    "provision" in value &&
    "capacity_N" in value &&
    Array.isArray((value as { parts?: unknown }).parts)
  );
}

/**
 * What a notebook shows for a value: a table, a figure with its picture, a hand calculation, or
 * text as Markdown.
 */
export async function bundleOf(value: unknown): Promise<Bundle> {
  if (typeof value === "string") return proseBundle(value);
  if (typeof value === "object" && value !== null) {
    // What a cell shows of a study is kept.
    await (value as { readonly [KEEP]?: () => Promise<void> })[KEEP]?.();
    if (isFigure(value))
      return { ...(await (await import("../exports/images/index.js")).figureBundle(value)) };
    const shown = isTrace(value)
      ? showTrace(value)
      : value instanceof TestTable
        ? firstRows(value)
        : value;
    const display = (shown as Record<symbol, unknown>)[DISPLAY];
    if (typeof display === "function")
      return await (display as (this: unknown) => Bundle | Promise<Bundle>).call(shown);
  }
  return {
    "text/plain": typeof value === "object" ? JSON.stringify(value, null, 1) : inspect(value),
  };
}

/**
 * Figures, traces and tables of tests have no method to show themselves. The kernel asks here when
 * one of them is the last value of a cell; anything else gives undefined.
 */
function bundleOfPlainData(value: unknown): Promise<Bundle> | undefined {
  return typeof value === "object" &&
    value !== null &&
    (isFigure(value) || isTrace(value) || value instanceof TestTable)
    ? bundleOf(value)
    : undefined;
}
(globalThis as Record<symbol, unknown>)[PLAIN_DATA] = bundleOfPlainData;

/** What is still being shown: the kernel waits for it before it ends a cell. */
const SHOWING = Symbol.for("code-comparison.showing");
let shown: Promise<void> = Promise.resolve();
let interrupts = interruptsSoFar();

/**
 * Shows values in a notebook, one after the other and after those of earlier calls; outside one it
 * prints their plain text. It needs no `await`: a cell ends when all is shown.
 * @example show(table, figure, "The characteristic ratio is **0.83**.")
 */
export function show(...values: readonly unknown[]): Promise<void> {
  if (interruptsSoFar() !== interrupts) {
    interrupts = interruptsSoFar();
    shown = Promise.resolve();
  }
  const turn = shown.then(() => showEach(values));
  // A failure belongs to its own call; what follows is shown all the same.
  shown = turn.catch(() => undefined);
  (globalThis as Record<symbol, unknown>)[SHOWING] = shown;
  return turn;
}

function metadataOf(value: unknown): (() => Promise<object>) | undefined {
  const method = (value as { readonly [METADATA]?: () => Promise<object> } | null)?.[METADATA];
  return method && (() => method.call(value));
}

async function showEach(values: readonly unknown[]): Promise<void> {
  for (const value of values) {
    const bundle = await bundleOf(value);
    const shower = (globalThis as Record<symbol, unknown>)[SHOW];
    if (typeof shower === "function") await (shower as Shower)(bundle, metadataOf(value));
    else process.stdout.write(`${printable(String(bundle["text/plain"]))}\n`);
  }
}

export { isFigure, Table };
