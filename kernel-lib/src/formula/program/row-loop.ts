import { symbolsOf, type Expression } from "../expression";
import { compile } from "../fold";
import { toJavaScript } from "../print-javascript";
import type { ColumnProgram, ColumnRun, ProgramPart } from "./column-program";

/** A program as plain loops, one a part, row by row: ready at once, which suits tables of some hundred rows. */
export function compileRowLoops(program: ColumnProgram): ColumnRun {
  const loops = program.parts.map((part) => ({ run: compileRowLoop(program, part), outputs: part.outputs.length }));
  return (n, columns, outputs) => {
    let place = 0;
    for (const loop of loops) loop.run(n, columns, outputs.slice(place, (place += loop.outputs)));
  };
}

function compileRowLoop({ columns, lines }: ColumnProgram, { lines: own, when, outputs }: ProgramPart): ColumnRun {
  const read = new Set<string>();
  const needs = (expression: Expression): unknown => symbolsOf(expression, read);
  if (when) needs(when);
  for (const { value, otherwise } of outputs) [value, otherwise ?? value].forEach(needs);
  const ownNeeded = needed(own, read);
  const sharedNeeded = needed(lines, read);
  // The names of a part may be those of shared lines: each is written with a number of its own.
  const names = new Map<string, string>(columns.map((name, k) => [name, `c${k}`]));
  const js = (expression: Expression): string => toJavaScript(expression, (name) => names.get(name) ?? (name === "pi" ? "Math.PI" : name));
  let declared = 0;
  const declare = ({ name, value }: { readonly name: string; readonly value: Expression }): string => {
    const text = js(value);
    names.set(name, `v${(declared += 1)}`);
    return `const v${declared} = ${text};`;
  };
  const store = (pick: (output: ProgramPart["outputs"][number]) => Expression): string[] =>
    outputs.map((output, k) => (output.kind === "number" ? `o${k}[i] = ${js(pick(output))};` : `const w${k} = ${js(pick(output))}; if (w${k}) o${k}[i] = w${k};`));
  const written: string[] = [...columns.flatMap((name, k) => (read.has(name) ? [`const c${k} = from${k}[i];`] : [])), ...sharedNeeded.map(declare)];
  if (when) written.push(`if (!(${js(when)})) { ${store(({ value, otherwise }) => otherwise ?? value).join(" ")} continue; }`);
  written.push(...ownNeeded.map(declare), ...store(({ value }) => value));
  const heads = [...columns.flatMap((name, k) => (read.has(name) ? [`const from${k} = columns[${k}];`] : [])), ...outputs.map((_, k) => `const o${k} = outputs[${k}];`)];
  return compile<ColumnRun>(["n", "columns", "outputs"], `${heads.join("\n")}\nfor (let i = 0; i < n; i++) {\n${written.join("\n")}\n}`);
}

/** The lines that anything rests on, in order; what they rest on in turn is added to `read`. */
function needed(lines: ProgramPart["lines"], read: Set<string>): ProgramPart["lines"] {
  return [...lines].reverse().filter(({ name, value }) => read.has(name) && symbolsOf(value, read)).reverse();
}
