import {
  clauseOf,
  developmentLengthsOf,
  installationWords,
  limitRanges,
  LOOKUP_GAPS,
  LOOKUPS,
  testedByOf,
  writtenNumber,
  type CodeDefinition,
  type TestedBy,
} from "../provisions";
import { checkKey, codeProvisionTable, limitsText, type ProvisionChecks } from "./provision-table";
import type { TableColumn } from "./column";
import { Table } from "./table";
import { escapeMarkdown } from "./to-markdown";

const CHECKED = "tests that check it";

/**
 * The card of a code in Markdown: edition and units, what it covers, its provisions with clause,
 * mode, limits, confidence and the tests that check them, development lengths, placing rules,
 * options, interpretations, discontinuities, what is not coded, and what to check against a
 * licensed copy. Everything comes from the objects that compute.
 */
export function codeCard(code: CodeDefinition, checks: ProvisionChecks = {}): string {
  const tables = [
    codeProvisionTable(code, checks),
    lengthTable(code, checks),
    placingTable(code, checks),
    calledTable(code, checks),
    rangeTable(code),
    optionTable(code),
  ].filter(({ rows }) => rows.length > 0);
  const doubtful = doubtfulLines([...code.provisions, ...lengthsOf(code)]);
  const notes = code.provisions.flatMap(({ id, notes: said = [] }) =>
    said.map((note) => `${clauseOf(id)}: ${note}`),
  );
  return [
    `## ${escapeMarkdown(code.id)}`,
    `${escapeMarkdown(code.title)}. Edition: ${escapeMarkdown(code.edition)}. Units: ${escapeMarkdown(code.system.name)}.`,
    `Covers ${escapeMarkdown(lowerFirst(code.covers))}`,
    ...tables.map((table) => table.toMarkdown().trimEnd()),
    ...bullets("Tests used to judge the provisions", testedLines(code)),
    ...bullets("Installation conditions and temperature", [installationWords(code)]),
    ...bullets("Interpretations adopted", code.readings ?? []),
    ...bullets("Discontinuities in the code", code.jumps ?? []),
    ...bullets("Notes", notes),
    ...bullets("Not coded", code.gaps),
    ...bullets("To be checked against a licensed copy", doubtful),
  ].join("\n\n");
}

/** The cards of several codes, under a heading that says how to read them. */
export function codeCards(codes: readonly CodeDefinition[], checks: ProvisionChecks = {}): string {
  return [
    "# Provisions",
    "Generated from the coded provisions: `npx code-comparison provisions --format cards`. Research use only; no design. Anchorage failures can kill. Design must follow the local code and a licensed engineer.",
    "No text of any edition is reproduced; clause and equation numbers are from memory. Tests check these rules for every provision, level and option: the hand calculation gives exactly the capacity of the column; where the clause implies it, a capacity does not decrease with concrete strength, bar strength, embedment or edge distance of a single bar; n bars spaced far apart carry n times the load of one bar; an edge at infinite distance has no effect; the same row in inch-pound and in SI units gives the same result; a blank input gives no capacity and a stated reason. The tables list the tests that check the numbers of each provision; [worked examples](worked-cases.md) explains the case numbers.",
    ...codes.map((code) => codeCard(code, checks)),
    ...(codes.length > 1 ? [lookupCard(checks)] : []),
  ]
    .join("\n\n")
    .concat("\n");
}

/**
 * What is from memory, clauses with the same doubt together, and whether published pages were
 * searched for it in vain.
 */
function doubtfulLines(
  definitions: readonly {
    readonly id: string;
    readonly confidence: string;
    readonly toCheck?: string;
    readonly searched?: string;
  }[],
): string[] {
  const clauses = new Map<string, Set<string>>();
  for (const { id, confidence, toCheck, searched } of definitions) {
    if (confidence !== "M") continue;
    const says = `${toCheck ?? "the whole equation"}${searched === undefined ? "" : ` (searched in published pages in ${searched}, not found)`}`;
    clauses.set(says, (clauses.get(says) ?? new Set()).add(clauseOf(id)));
  }
  return [...clauses].map(([says, of]) => `${[...of].join(", ")}: ${says}`);
}

const lengthsOf = (code: CodeDefinition) =>
  developmentLengthsOf(code).map(({ definition }) => definition);

function lengthTable(code: CodeDefinition, checks: ProvisionChecks): Table {
  return new Table({
    id: "lengths",
    title: "Development lengths for a stress",
    rowKey: ["clause"],
    columns: [
      { key: "clause", title: "clause", kind: "text" },
      { key: "title", title: "title", kind: "text" },
      { key: "confidence", title: "confidence", kind: "text" },
      { key: "limits", title: "limits", kind: "text" },
      { key: "checked", title: "tests that check it", kind: "text" },
    ],
    rows: lengthsOf(code).map(({ id, title, confidence, limits }) => ({
      clause: clauseOf(id),
      title,
      confidence,
      limits: limitsText(limits),
      checked: checks[checkKey(code.id, id, "length")] ?? "not listed",
    })),
  });
}

const textColumns = (...titles: readonly string[]): TableColumn[] =>
  titles.map((title) => ({ key: title, title, kind: "text" }));

function placingTable(code: CodeDefinition, checks: ProvisionChecks): Table {
  return new Table({
    id: "placing",
    title: "Spacing, edge distance and thickness, checked separately from the capacities",
    rowKey: ["rule"],
    columns: textColumns("clause", "rule", "confidence", CHECKED),
    rows: (code.checks ?? []).map(({ id, clause, says, confidence }) => ({
      clause,
      rule: says,
      confidence,
      [CHECKED]: checks[checkKey(code.id, id, "placing")] ?? "not listed",
    })),
  });
}

function calledTable(code: CodeDefinition, checks: ProvisionChecks): Table {
  return new Table({
    id: "called",
    title: "Provisions called as functions",
    rowKey: ["call"],
    columns: textColumns("clause", "title", "call", "confidence", CHECKED),
    rows: (code.called ?? []).map(({ id, clause, title, call, confidence }) => ({
      clause,
      title,
      call,
      confidence,
      [CHECKED]: checks[checkKey(code.id, id, "function")] ?? "not listed",
    })),
  });
}

/** The card of the tables and rules beside the codes. */
function lookupCard(checks: ProvisionChecks): string {
  const table = new Table({
    id: "lookups",
    title: "Tables and conversions",
    rowKey: ["call"],
    columns: textColumns("title", "source", "call", "confidence", CHECKED),
    rows: LOOKUPS.map(({ id, title, source, call, confidence }) => ({
      title,
      source,
      call,
      confidence,
      [CHECKED]: checks[checkKey("lookup", id)] ?? "not listed",
    })),
  });
  return ["## Lookups", table.toMarkdown().trimEnd(), ...bullets("Not coded", LOOKUP_GAPS)].join(
    "\n\n",
  );
}

/** Limits that bound a column, for a selection of tests by machine and by eye. */
function rangeTable(code: CodeDefinition): Table {
  const rows = code.provisions.flatMap((provision) =>
    limitRanges(code, provision).map(
      ({ clause, column, per, lower, upper, unit, effect, unless }) => ({
        of: clauseOf(provision.id),
        clause,
        column: per === undefined ? column : `${column} / ${per}`,
        from: Number.isFinite(lower) ? writtenNumber(lower) : "–",
        to: Number.isFinite(upper) ? writtenNumber(upper) : "–",
        unit,
        effect: effect === "outside" ? "reported" : "withheld",
        unless: unless ?? "",
      }),
    ),
  );
  return new Table({
    id: "ranges",
    title: "Limits as ranges of columns",
    rowKey: ["of", "clause", "column"],
    columns: textColumns("of", "clause", "column", "from", "to", "unit", "effect", "unless"),
    rows,
  });
}

function optionTable(code: CodeDefinition): Table {
  return new Table({
    id: "options",
    title: "Options",
    rowKey: ["option"],
    columns: [
      { key: "option", title: "option", kind: "text" },
      { key: "value", title: "default", kind: "text" },
      { key: "meaning", title: "meaning", kind: "text" },
      { key: "clause", title: "clause", kind: "text" },
    ],
    rows: Object.entries(code.options).map(([option, { value, quantity, meaning, clause }]) => ({
      option,
      value: Number.isNaN(value) ? "not stated" : `${writtenNumber(value)}${UNIT[quantity] ?? ""}`,
      meaning,
      clause,
    })),
  });
}

/** Options are stated in the library's own units. */
const UNIT: Readonly<Record<string, string>> = {
  length: " mm",
  area: " mm²",
  stress: " MPa",
  force: " N",
};

/** Which tests judge which provisions, and why; provisions that say the same together. */
function testedLines(code: CodeDefinition): string[] {
  const groups = new Map<TestedBy, string[]>();
  for (const provision of code.provisions)
    groups.set(testedByOf(code, provision), [
      ...(groups.get(testedByOf(code, provision)) ?? []),
      clauseOf(provision.id),
    ]);
  const listed = (names: readonly string[]): string =>
    names.map((name) => name.replace(/_(in|installed)$/, "-$1").replaceAll("_", " ")).join(", ");
  return [...groups].map(
    ([{ setups, installations, because }, clauses]) =>
      `${groups.size === 1 ? "All" : clauses.join(", ")}: ${listed(setups)}; ${listed(installations)} bars. ${because}`,
  );
}

function bullets(title: string, lines: readonly string[]): string[] {
  return lines.length === 0
    ? []
    : [`**${title}**\n\n${lines.map((line) => `- ${escapeMarkdown(line)}`).join("\n")}`];
}

function lowerFirst(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}
