import { NotebookProblem, tagsOf } from "../format";
import type { CodeCell, Notebook } from "../format";
import { parametersCell, readParameters } from "./read-parameters";
import type { Parameter, ParameterValue } from "./read-parameters";

/** The tag of the cell we put in; a later run takes it out again. */
export const INJECTED_TAG = "injected-parameters";

/** Splits `name=value` as given on a command line. */
export function parseSetting(text: string): [name: string, value: string] {
  const at = text.indexOf("=");
  const name = text.slice(0, at).trim();
  if (at < 1 || !/^[\p{L}_$][\p{L}\p{N}_$]*$/u.test(name)) {
    throw new NotebookProblem(`--set ${text}: expected name=value, such as --set seed=7`);
  }
  return [name, text.slice(at + 1).trim()];
}

/**
 * The notebook with a cell after its `parameters` cell that gives the named parameters new
 * values. Without settings, a cell put in by an earlier run is taken out.
 *
 * @param settings values, or the text of values as given on a command line
 * @throws NotebookProblem for a name the notebook does not declare, or a value of another type
 */
export function setParameters(
  notebook: Notebook,
  settings: Readonly<Record<string, unknown>>,
  name: string,
): Notebook {
  const cells = notebook.cells.filter((cell) => !tagsOf(cell).includes(INJECTED_TAG));
  const given = Object.entries(settings);
  if (given.length === 0) return { ...notebook, cells };
  const declared = readParameters(notebook, name);
  const lines = given.map(([key, value]) => {
    const parameter = declared.find((one) => one.name === key);
    if (!parameter) throw new NotebookProblem(unknownName(key, declared, name));
    return `const ${key}${typeNote(parameter)} = ${JSON.stringify(readValue(parameter, value))};`;
  });
  const injected: CodeCell = {
    cell_type: "code",
    id: INJECTED_TAG,
    metadata: { tags: [INJECTED_TAG] },
    source: `// Parameters set for this run\n${lines.join("\n")}`,
    outputs: [],
    execution_count: null,
  };
  const at = cells.findIndex((cell) => cell.id === parametersCell(notebook)?.id);
  return { ...notebook, cells: [...cells.slice(0, at + 1), injected, ...cells.slice(at + 1)] };
}

function typeNote({ type, choices }: Parameter): string {
  return `: ${choices ? choices.map((choice) => JSON.stringify(choice)).join(" | ") : type}`;
}

function unknownName(name: string, declared: readonly Parameter[], notebook: string): string {
  const known = declared.map((one) => one.name).join(", ");
  return `${notebook} has no parameter ${JSON.stringify(name)}; it declares: ${known || "none"}`;
}

function readValue(parameter: Parameter, given: unknown): ParameterValue {
  const value = typeof given === "string" ? fromText(parameter, given) : given;
  const single = parameter.type.replace("[]", "");
  const items: unknown[] = Array.isArray(value) ? value : [value];
  const shapeFits = Array.isArray(value) === parameter.type.endsWith("[]");
  const itemsFit = items.every(
    (item) => typeof item === single && (single !== "number" || Number.isFinite(item)),
  );
  if (!shapeFits || !itemsFit) throw wrongValue(parameter, given, describeType(parameter.type));
  if (parameter.choices && !parameter.choices.includes(value as ParameterValue)) {
    throw wrongValue(
      parameter,
      given,
      `one of ${parameter.choices.map((choice) => JSON.stringify(choice)).join(", ")}`,
    );
  }
  return value as ParameterValue;
}

/** A text stands for itself where a text is wanted; elsewhere it is read as JSON. */
function fromText(parameter: Parameter, text: string): unknown {
  if (parameter.type === "string") return text;
  try {
    return JSON.parse(text) as unknown;
  } catch {
    throw wrongValue(parameter, text, describeType(parameter.type));
  }
}

function wrongValue(parameter: Parameter, given: unknown, expected: string): NotebookProblem {
  const shown = typeof given === "string" ? given : JSON.stringify(given);
  return new NotebookProblem(
    `parameter ${parameter.name} cannot be ${shown}: expected ${expected}, such as ${JSON.stringify(parameter.value)}`,
  );
}

function describeType(type: Parameter["type"]): string {
  const words = { number: "a number", string: "a text", boolean: "true or false" } as const;
  return type.endsWith("[]")
    ? `a list in JSON of ${type.replace("[]", "")} values`
    : words[type as keyof typeof words];
}
