import { symbolText, toText } from "../../formula";
import {
  INPUTS,
  isInput,
  symbolsInWords,
  type Quantity,
  type Trace,
  type TraceLine,
  type TracePart,
} from "../../provisions";
import { testColumn } from "../../dataset";
import { addressOf, type Cell, type EntryRule } from "../../tables";
import { liveFormula } from "./live-formula";

/**
 * Stands for "far" where the library has infinity, which a spreadsheet lacks; it can be squared
 * without overflow.
 */
export const FAR = 1e150;
/** Relative difference up to which sheet and library count as the same. */
export const SAME = 1e-9;
export const VALUE = 4;
const LIBRARY = 6;
export const DIFFERENCE = 7;

export class Layout {
  readonly rows: Cell[][] = [];
  readonly merged: number[] = [];
  /** What the cells that a reader may change accept. */
  readonly entries: EntryRule[] = [];
  /**
   * States of the limits that the capacity rests on. A limit that failed for the values as they were
   * (a part of a group that needs no check) withheld nothing then and withholds nothing now.
   */
  readonly required: string[] = [];
  readonly #trace: Trace;

  constructor(trace: Trace) {
    this.#trace = trace;
  }

  row(cells: Cell[]): void {
    this.rows.push(cells);
  }

  text(cell: Cell): void {
    this.rows.push([cell]);
    this.merged.push(this.rows.length);
  }

  /**
   * Inputs and steps of one part; returns the address of its capacity in the edition's force unit.
   */
  part(part: TracePart): string {
    const address = new Map<string, string>();
    const cell = (name: string): string => {
      const found = address.get(name);
      if (found === undefined)
        throw new Error(
          `Step reads "${name}" before it is given; expected one of ${[...address.keys()].join(", ")}.`,
        );
      return found;
    };
    this.#section(`Inputs${part.label ? `, ${part.label}` : ""}`);
    for (const line of part.inputs)
      address.set(
        line.symbol,
        this.input(symbolText(line.symbol), line.meaning, line.clause, line.value, line.unit, {
          si: this.#inSi(line),
          kind: isCounted(line.symbol) ? "whole" : "number",
        }),
      );
    this.#section(`Steps${part.label ? `, ${part.label}` : ""}`);
    for (const line of part.steps) {
      if (!line.expression) continue;
      const text = line.symbol === "design_capacity" ? "design capacity" : symbolText(line.symbol);
      address.set(
        line.symbol,
        this.#step(text, line, liveFormula(line.expression, cell), toText(line.expression)),
      );
    }
    if (part.limits.length > 0)
      this.#section(`Limits of applicability${part.label ? `, ${part.label}` : ""}`);
    for (const limit of part.limits) this.#limit(limit, liveFormula(limit.condition, cell));
    const { provision, level } = this.#trace;
    return cell(level === "design" && provision.reduction ? "design_capacity" : provision.capacity);
  }

  input(
    symbol: string,
    meaning: string,
    clause: string,
    value: number,
    unit: string,
    {
      si = null,
      kind = "number",
    }: {
      readonly si?: readonly [factor: number, unit: string] | null;
      readonly kind?: EntryRule["kind"];
    } = {},
  ): string {
    const at = this.rows.length;
    const address = addressOf(VALUE, at);
    const given: Cell = Number.isNaN(value)
      ? { value: "#N/A", formula: "NA()", look: "input" }
      : { value: finite(value), look: "input" };
    this.row([
      symbol,
      { value: symbolsInWords(meaning), look: "wrapped" },
      { value: clause, look: "wrapped" },
      "given",
      given,
      { value: unit, look: "unit" },
      library(value),
      ...this.#compared(at, value),
      ...this.#si(address, value, si),
    ]);
    this.entries.push({ cell: address, kind });
    return address;
  }

  result(symbol: string, meaning: string, formula: string, value: number, unit: string): string {
    const at = this.rows.length;
    this.row([
      { value: symbol, look: "strong" },
      { value: meaning, look: "wrapped" },
      null,
      null,
      { value: finite(value), formula, look: "result" },
      { value: unit, look: "unit" },
      library(value),
      ...this.#compared(at, value),
    ]);
    return addressOf(VALUE, at);
  }

  /** A formula that counts the entries that are blank or text, which MIN, MAX and SUM would skip. */
  get notNumbers(): string {
    return this.entries.map(({ cell }) => `(ISBLANK(${cell})+ISTEXT(${cell}))`).join("+");
  }

  /** A formula that names them. */
  get namesOfNotNumbers(): string {
    return this.entries
      .map(({ cell }) => `IF(ISBLANK(${cell})+ISTEXT(${cell})>0," ${cell}","")`)
      .join("&");
  }

  #limit({ clause, says, holds, effect }: TracePart["limits"][number], condition: string): void {
    const at = this.rows.length;
    const [now, then] = [VALUE, LIBRARY].map((column) => addressOf(column, at));
    const state = holds === null ? "not judged" : holds ? "holds" : "fails";
    this.row([
      effect === "outside" ? "reported only" : "required",
      { value: says, look: "wrapped" },
      { value: clause, look: "wrapped" },
      null,
      {
        value: state,
        formula: `IF(ISERROR(${condition}),"not judged",IF(${condition}=1,"holds","fails"))`,
      },
      null,
      state,
      null,
      { value: "agrees", formula: `IF(${now}=${then},"agrees","differs")`, look: "unit" },
    ]);
    if (effect === "not_applicable" && holds === true) this.required.push(now!);
  }

  #section(title: string): void {
    this.row([
      { value: title, look: "section" },
      ...Array.from({ length: 10 }, (): Cell => ({ value: null, look: "section" })),
    ]);
  }

  #step(symbol: string, line: TraceLine, formula: string, text: string): string {
    const at = this.rows.length;
    const address = addressOf(VALUE, at);
    this.row([
      symbol,
      { value: symbolsInWords(line.meaning), look: "wrapped" },
      { value: line.clause, look: "wrapped" },
      { value: text, look: "wrapped" },
      { value: Number.isNaN(line.value) ? "#N/A" : finite(line.value), formula },
      { value: line.unit, look: "unit" },
      library(line.value),
      ...this.#compared(at, line.value),
      ...this.#si(address, line.value, this.#inSi(line)),
    ]);
    return address;
  }

  #compared(row: number, value: number): Cell[] {
    const [ours, theirs, difference] = [VALUE, LIBRARY, DIFFERENCE].map((column) =>
      addressOf(column, row),
    );
    if (Number.isNaN(value)) return [null, "not given"];
    return [
      // Beyond the square root of "far" both stand for infinity.
      {
        value: 0,
        formula: `IF(AND(ABS(${ours})>1E+70,ABS(${theirs})>1E+70),0,IF(${theirs}=0,ABS(${ours}),ABS(${ours}/${theirs}-1)))`,
      },
      {
        value: "agrees",
        formula: `IF(${difference}<=${SAME.toExponential().toUpperCase()},"agrees","differs")`,
        look: "unit",
      },
    ];
  }

  #si(address: string, value: number, si: readonly [factor: number, unit: string] | null): Cell[] {
    if (si === null || Number.isNaN(value)) return [];
    return [
      { value: finite(value * si[0]), formula: `${address}*${si[0]}` },
      { value: si[1], look: "unit" },
    ];
  }

  /** Factor from the edition's unit to the one shown in SI; null where they are the same. */
  #inSi(line: TraceLine): readonly [number, string] | null {
    if (line.unit === line.unitSi || line.unitSi === "") return null;
    const { unit, inSi } = this.#trace.code.system;
    const quantity = (Object.keys(unit) as Quantity[]).find((one) => unit[one] === line.unit);
    if (quantity === undefined) return null;
    return [
      inSi[quantity] / (line.unitSi === "kN" || line.unitSi === "GPa" ? 1000 : 1),
      line.unitSi,
    ];
  }
}

/** Whether a symbol counts something, such as the bars of a group. */
function isCounted(symbol: string): boolean {
  const column = isInput(symbol) ? INPUTS[symbol].column : undefined;
  return typeof column === "string" && testColumn(column)?.kind === "integer";
}

function finite(value: number): number {
  return value === Infinity ? FAR : value === -Infinity ? -FAR : value;
}

function library(value: number): Cell {
  return Number.isNaN(value) ? "not given" : finite(value);
}
