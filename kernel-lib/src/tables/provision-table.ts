import { clauseOf, type CodeDefinition, type Limit, type ProvisionDefinition } from "../provisions";
import { Table } from "./table";

/**
 * What checks the numbers of a provision beside the laws that hold for all, by `checkKey`: worked
 * values with their kind, recomputed cases, golden values.
 */
export type ProvisionChecks = Readonly<Record<string, string>>;

/**
 * The name in `ProvisionChecks` of a capacity, a development length, a placing rule or what has a
 * function of its own.
 */
export function checkKey(
  code: string,
  id: string,
  of: "capacity" | "length" | "placing" | "function" = "capacity",
): string {
  return `${code} ${clauseOf(id)}${of === "capacity" ? "" : ` ${of}`}`;
}

const COLUMNS = [
  { key: "title", title: "title", kind: "text" },
  { key: "action", title: "action", kind: "text" },
  { key: "modes", title: "modes", kind: "text" },
  { key: "levels", title: "levels", kind: "text" },
  {
    key: "confidence",
    title: "confidence",
    kind: "text",
    note: "H: well known; M: to be checked against a licensed copy",
  },
  { key: "limits", title: "limits", kind: "text" },
  {
    key: "checked",
    title: "tests that check it",
    kind: "text",
    note: "in addition to the rules checked for every provision. Published: printed digits of a publication. Constructed: computed separately from this library. Recomputed: calculated independently from the clauses, by case, earlier (the first three cases of a provision) and at random (seeded specimens over the whole range of inputs). No outside check: checked only by our own hand calculation",
  },
] as const;

/** Limits in one cell. */
export function limitsText(limits: readonly Limit[]): string {
  return limits
    .map(
      ({ clause, says, effect }) =>
        `${clause}: ${says}${effect === "outside" ? " (reported only)" : ""}`,
    )
    .join("; ");
}

/** What a provision is, as the cells of a row. */
export function provisionCells(
  code: CodeDefinition,
  provision: ProvisionDefinition,
  checks: ProvisionChecks,
): Record<(typeof COLUMNS)[number]["key"], string> {
  return {
    title: provision.title,
    action: provision.action,
    modes: provision.modes.map((mode) => mode.replaceAll("_", " ")).join(", "),
    levels: provision.levels.join(", "),
    confidence: provision.confidence,
    limits: limitsText(provision.limits),
    checked: checks[checkKey(code.id, provision.id)] ?? "not listed",
  };
}

/**
 * Every provision of the codes given: id, what it predicts, at which levels, its limits, how sure
 * its equation is and what checks it.
 */
export function provisionTable(
  codes: readonly CodeDefinition[],
  checks: ProvisionChecks = {},
): Table {
  return new Table({
    id: "provisions",
    title: "Provisions",
    rowKey: ["code", "id"],
    columns: [
      { key: "code", title: "code", kind: "text" },
      { key: "id", title: "provision", kind: "text" },
      ...COLUMNS,
    ],
    rows: codes.flatMap((code) =>
      code.provisions.map((provision) => ({
        code: code.id,
        id: provision.id,
        ...provisionCells(code, provision, checks),
      })),
    ),
    notes: codes.flatMap((code) => code.gaps.map((gap) => `${code.id}, not coded: ${gap}`)),
  });
}

/** The provisions of one code, by clause. */
export function codeProvisionTable(code: CodeDefinition, checks: ProvisionChecks): Table {
  return new Table({
    id: "provisions",
    title: "Capacities",
    rowKey: ["clause"],
    columns: [{ key: "clause", title: "clause", kind: "text" }, ...COLUMNS],
    rows: code.provisions.map((provision) => ({
      clause: clauseOf(provision.id),
      ...provisionCells(code, provision, checks),
    })),
  });
}
