import { parseFormula } from "../formula";
import type { Proposal, ProposedChange } from "./proposal";
import type { ValidityLimit } from "./validity-limits";

const FACTOR_FIELDS = [
  "id",
  "title",
  "changes",
  "symbol",
  "where",
  "factor",
  "says",
  "rationale",
  "derivation",
  "evidence",
] as const;
const RESTRICTION_FIELDS = [
  "id",
  "title",
  "changes",
  "where",
  "says",
  "rationale",
  "evidence",
] as const;
const ADDITION_FIELDS = ["id", "title", "says", "rationale", "evidence"] as const;
const FORMULAS = ["where", "factor"];

/**
 * Reads and checks a proposal written as JSON: a factor (no `kind`), or `"kind": "restriction"` or
 * `"addition"`.
 *
 * All that is wrong is listed at once, each with the field, what stands there and what was
 * expected.
 * @throws Error for text that is no JSON, a missing, empty, unknown or wrongly typed field, or a
 *   formula that does not read
 * @example readProposal(await readFile("proposal.json", "utf8"))
 */
export function readProposal(text: string): ProposedChange {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new Error(
      `The proposal is not valid JSON: ${(error as Error).message}; expected an object with the fields ${FACTOR_FIELDS.join(", ")}.`,
    );
  }
  if (typeof value !== "object" || value === null || Array.isArray(value))
    throw new Error(
      `The proposal is ${Array.isArray(value) ? "a list" : String(value)}; expected an object with the fields ${FACTOR_FIELDS.join(", ")}.`,
    );
  const record = value as Record<string, unknown>;
  const wrong = problemsOf(record);
  if (wrong.length > 0)
    throw new Error(
      `The proposal ${typeof record["id"] === "string" ? record["id"] : "(no id)"} cannot be used:\n${wrong.map((one) => `  ${one}`).join("\n")}`,
    );
  return (typeof record["factor"] === "number"
    ? { ...record, factor: String(record["factor"]) }
    : record) as unknown as Proposal;
}

function problemsOf(record: Record<string, unknown>): string[] {
  const kind = record["kind"];
  if (kind !== undefined && kind !== "restriction" && kind !== "addition")
    return [
      `kind is ${JSON.stringify(kind)}, expected "restriction" or "addition", or none for a factor`,
    ];
  const fields: readonly string[] =
    kind === "restriction"
      ? RESTRICTION_FIELDS
      : kind === "addition"
        ? ADDITION_FIELDS
        : FACTOR_FIELDS;
  const known = [
    ...fields,
    "limits",
    ...(kind === "addition" ? [] : ["alsoChanges"]),
    ...(kind ? ["kind"] : []),
    ...(kind === "addition" ? ["provision"] : []),
  ];
  const problems = Object.keys(record)
    .filter((name) => !known.includes(name))
    .map((name) => `${name} is not known, expected ${known.join(", ")}`);
  for (const name of fields) {
    const value = record[name];
    if (name === "factor" && typeof value === "number") continue;
    if (typeof value !== "string" || value.trim() === "")
      problems.push(
        `${name} is ${value === undefined ? "missing" : JSON.stringify(value)}, expected ${name === "factor" ? "a number or a formula" : "a text"}`,
      );
    else if (FORMULAS.includes(name)) problems.push(...formulaProblem(name, value));
    else if (name === "symbol" && !/^[A-Za-z_]\w*$/.test(value))
      problems.push(`symbol is "${value}", expected letters, digits and _, a letter first`);
  }
  if (kind === "addition") problems.push(...provisionProblems(record["provision"]));
  const also = record["alsoChanges"];
  if (
    also !== undefined &&
    kind !== "addition" &&
    !(Array.isArray(also) && also.every((id) => typeof id === "string" && id !== record["changes"]))
  )
    problems.push(
      `alsoChanges is ${JSON.stringify(also)}, expected a list of further provisions, such as ["aci318-19/17.7.2.1(c)-edge2"]`,
    );
  return [...problems, ...limitProblems(record["limits"])];
}

function formulaProblem(name: string, formula: string): string[] {
  try {
    parseFormula(formula);
    return [];
  } catch (error) {
    return [
      `${name} is "${formula}", expected a formula that can be read: ${(error as Error).message}`,
    ];
  }
}

function provisionProblems(value: unknown): string[] {
  if (typeof value !== "object" || value === null)
    return [
      `provision is ${value === undefined ? "missing" : JSON.stringify(value)}, expected an object`,
    ];
  const record = value as Record<string, unknown>;
  const lists = ["modes", "levels", "limits", "steps"]
    .filter((name) => !Array.isArray(record[name]))
    .map(
      (name) =>
        `provision.${name} is ${JSON.stringify(record[name]) ?? "missing"}, expected a list`,
    );
  const texts = ["id", "title", "action", "capacity", "confidence"]
    .filter((name) => typeof record[name] !== "string")
    .map(
      (name) =>
        `provision.${name} is ${JSON.stringify(record[name]) ?? "missing"}, expected a text`,
    );
  const steps = (
    Array.isArray(record["steps"]) ? (record["steps"] as Record<string, unknown>[]) : []
  ).flatMap((one, k) =>
    typeof one?.["formula"] === "string"
      ? formulaProblem(`provision.steps[${k}].formula`, one["formula"])
      : [`provision.steps[${k}].formula is missing, expected a formula`],
  );
  return [...texts, ...lists, ...steps];
}

function limitProblems(value: unknown): string[] {
  if (value === undefined) return [];
  if (!Array.isArray(value))
    return [`limits is ${JSON.stringify(value)}, expected a list of { column, lower, upper }`];
  return (value as Partial<ValidityLimit>[]).flatMap((one, k) => {
    const fine =
      typeof one?.column === "string" &&
      typeof one.lower === "number" &&
      typeof one.upper === "number" &&
      one.lower <= one.upper;
    return fine
      ? []
      : [
          `limits[${k}] is ${JSON.stringify(one)}, expected { column, lower, upper } with lower at most upper`,
        ];
  });
}
