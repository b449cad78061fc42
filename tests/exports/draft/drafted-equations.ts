import { parseFormula, symbolText, type Expression } from "../../../kernel-lib/src/formula";

/**
 * The equations of a printed draft, read back from its plain text by nothing but the text: lines
 * "[+N_ag = ψ × (A / B) × N_ba+]", each with the number that stands above it, if any.
 */
export interface DraftedEquation {
  readonly number: string | null;
  readonly symbol: string;
  readonly expression: Expression;
}

/** @param names every symbol that the text may hold, as formulas name it */
export function draftedEquations(text: string, names: readonly string[]): DraftedEquation[] {
  const nameOf = new Map(names.map((name) => [symbolText(name), name]));
  const found: DraftedEquation[] = [];
  let number: string | null = null;
  for (const line of text.split("\n")) {
    number = /^\W*Equation \(([\w.()]+)\)/.exec(line)?.[1] ?? number;
    const [, written, right] = /^\s*\[\+(\S+) = (.*)\+\]$/.exec(line) ?? [];
    const symbol = nameOf.get(written ?? "");
    if (symbol === undefined || right === undefined) continue;
    found.push({ number, symbol, expression: parseFormula(fromPrint(right, nameOf)) });
  }
  return found;
}

/** A printed equation in the formula language: signs and symbols only, no order changed. */
function fromPrint(text: string, nameOf: ReadonlyMap<string, string>): string {
  const choice = innermostChoice(text);
  if (choice) {
    const { from, to, yes, condition, no } = choice;
    const parts = [condition.replace(/ = /g, " == "), yes, no].map((one) => fromPrint(one, nameOf));
    return fromPrint(`${text.slice(0, from)}if⟨${parts.join("¦")}⟩${text.slice(to)}`, nameOf);
  }
  return text
    .replace(/√\(/g, "sqrt(")
    .replace(/√([^\s()×/+−^;]+)/g, "sqrt($1)")
    .replaceAll("⟨", "(")
    .replaceAll("⟩", ")")
    .replace(/[;¦]/g, ",")
    .replaceAll("×", "*")
    .replaceAll("−", "-")
    .replaceAll("≤", "<=")
    .replaceAll("≥", ">=")
    .replaceAll("≠", "!=")
    .replaceAll(" and ", " && ")
    .replaceAll(" or ", " || ")
    .replace(/[\p{L}][\p{L}\p{N}_,']*/gu, (word) => {
      const whole = word.replace(/,$/, "");
      return `${nameOf.get(whole) ?? whole}${word.endsWith(",") ? "," : ""}`;
    });
}

/** "(a if c, else b)" without another one inside. */
function innermostChoice(text: string): {
  from: number;
  to: number;
  yes: string;
  condition: string;
  no: string;
} | null {
  for (const { index: at } of text.matchAll(/ if /g)) {
    let [from, depth] = [at, 0];
    for (; from >= 0; from--) {
      if (text[from] === ")") depth += 1;
      if (text[from] === "(" && depth-- === 0) break;
    }
    let to = at;
    depth = 0;
    for (; to < text.length; to++) {
      if (text[to] === "(") depth += 1;
      if (text[to] === ")" && depth-- === 0) break;
    }
    const rest = text.slice(at + 4, to);
    if (rest.includes(" if ")) continue;
    const middle = rest.indexOf(", else ");
    return {
      from,
      to: to + 1,
      yes: text.slice(from + 1, at),
      condition: rest.slice(0, middle),
      no: rest.slice(middle + 7),
    };
  }
  return null;
}

/** The number after "shall be taken as" of a factor, from the printed sentence. */
export function draftedFactor(text: string, symbol: string): number | null {
  const [, rest] = text.split(`${symbolText(symbol)} shall be taken as `);
  const value = Number(/^[\d.]*\d/.exec(rest ?? "")?.[0] ?? NaN);
  return Number.isNaN(value) ? null : value;
}
