import {
  CODES,
  DEVELOPMENT_LENGTHS,
  developmentLengthRule,
  LOOKUPS,
} from "../../kernel-lib/src/provisions";
import { checkKey, type ProvisionChecks } from "../../kernel-lib/src/tables";
import { cellsOf, goldenFiles } from "./golden/golden-files";
import { lengthRuleOf, provisionOf, recomputedCases } from "./recomputed/cases";
import { olderChecks } from "./recomputed/older";
import { ROW_CASES } from "./recomputed/rows/cases";
import { functionCases, keyParts, spreadCases } from "./recomputed/spread/cases";
import { BY_HAND } from "./worked/by-hand";
import { WORKED_LENGTHS } from "./worked/lengths";
import { WORKED_RULES } from "./worked/rules";
import { SHEET_CAPACITIES } from "./worked/sheet-capacities";

/**
 * What checks the numbers of each provision, found from the cases themselves: which provision a
 * case evaluates is what its test evaluates, so nothing is claimed that does not run.
 */
export function provisionChecks(): ProvisionChecks {
  const found = new Map<string, Map<string, Set<string>>>();
  const add = (key: string, kind: string, id: string): void => {
    const kinds = found.get(key) ?? new Map<string, Set<string>>();
    found.set(key, kinds.set(kind, (kinds.get(kind) ?? new Set()).add(id)));
  };
  for (const { code, provision, kind, id } of SHEET_CAPACITIES)
    add(checkKey(code, provision), kind, id);
  for (const { rule, kind, id } of WORKED_LENGTHS.filter((one) => one.id !== "H"))
    add(lengthKey(rule), kind, id);
  BY_HAND.forEach(({ code, provision }, k) =>
    add(checkKey(code, provision), "on paper counted", String(k)),
  );
  WORKED_LENGTHS.forEach(
    ({ rule, id }, k) => void (id === "H" && add(lengthKey(rule), "on paper counted", String(k))),
  );
  WORKED_RULES.forEach(({ key, kind, id }, k) =>
    add(
      key,
      id !== "" ? kind : `${kind === "constructed" ? "on paper" : kind} counted`,
      id !== "" ? id : String(k),
    ),
  );
  for (const { code, provision, id } of ROW_CASES) add(checkKey(code, provision), "recomputed", id);
  for (const one of recomputedCases()) {
    if (one.inputs["quantity"] === "local_bond_stress") {
      add(checkKey(one.code, "local-law", "function"), "recomputed", one.id);
      continue;
    }
    if (one.result.length_mm === undefined)
      add(checkKey(one.code, provisionOf(one).provision.id), "recomputed", one.id);
    else add(checkKey(one.code, lengthRuleOf(one).definition.id, "length"), "recomputed", one.id);
    // The case by the other reading of splitting stands beside the first.
    if ("other_reading_NRk_sp_N" in one.intermediate)
      add(checkKey(one.code, "en1992-4-2018/7.2.1.7-factors"), "recomputed", one.id);
  }
  for (const { code, provision, kind, id } of olderChecks())
    add(
      kind === "length" ? lengthRuleKey(provision) : checkKey(code, provision),
      "recomputed earlier counted",
      id,
    );
  for (const one of spreadCases()) {
    for (const [key, force] of Object.entries(one.forces_N)) {
      const { code, provision } = keyParts(key);
      // Seen at several levels, a specimen counts once.
      if (force !== null) add(checkKey(code, provision), "recomputed at random counted", one.id);
    }
    for (const rule of Object.keys(one.lengths_mm ?? {}))
      add(lengthRuleKey(rule), "recomputed at random counted", one.id);
    for (const [code, rules] of Object.entries(one.details_mm ?? {}))
      for (const rule of Object.keys(rules))
        add(checkKey(code, rule, "placing"), "recomputed at random counted", one.id);
  }
  functionCases().forEach(({ code, rule }, k) => {
    if (code === "lookup") add(checkKey(code, rule), "recomputed at random counted", String(k));
    for (const { id, called } of CODES)
      if (id.startsWith(code) && called?.some((one) => one.id === rule))
        add(checkKey(id, rule, "function"), "recomputed at random counted", String(k));
  });
  const golden = goldenCounts();
  const said = (key: string): string[] =>
    [...(found.get(key) ?? [])].map(([kind, ids]) =>
      kind.endsWith(" counted")
        ? `${kind.replace(" counted", "")} (${ids.size})`
        : `${kind} ${[...ids].join(", ")}`,
    );
  const evaluated = [
    ...CODES.flatMap((code) => code.provisions.map(({ id }) => checkKey(code.id, id))),
    ...DEVELOPMENT_LENGTHS.map(({ code, definition }) =>
      checkKey(code.id, definition.id, "length"),
    ),
  ];
  const beside = [
    ...CODES.flatMap((code) => [
      ...(code.checks ?? []).map(({ id }) => checkKey(code.id, id, "placing")),
      ...(code.called ?? []).map(({ id }) => checkKey(code.id, id, "function")),
    ]),
    ...LOOKUPS.map(({ id }) => checkKey("lookup", id)),
  ];
  const warned = (key: string): string[] => [
    ...(hasOutsideCheck(found.get(key)) ? [] : [NO_OUTSIDE_CHECK]),
    ...said(key),
  ];
  const withGolden = (key: string): string =>
    [...warned(key), `golden values (${golden.get(key) ?? 0})`].join("; ");
  return Object.fromEntries<string>([
    ...evaluated.map((key) => [key, withGolden(key)] as const),
    ...beside.map((key) => [key, warned(key).join("; ")] as const),
  ]);
}

/** Stands first where nothing but our own paper and golden values check a number. */
export const NO_OUTSIDE_CHECK = "no outside check";

/**
 * Whether a publication, another hand or another tool has a say: what we computed on paper has not.
 */
function hasOutsideCheck(kinds: ReadonlyMap<string, unknown> | undefined): boolean {
  return [...(kinds?.keys() ?? [])].some((kind) => !kind.startsWith("on paper"));
}

function lengthKey(rule: string): string {
  return checkKey(rule.slice(0, rule.indexOf("/")), rule, "length");
}

/** The same of a rule by code and clause, or by the code alone. */
function lengthRuleKey(rule: string): string {
  const { code, definition } = developmentLengthRule(rule);
  return checkKey(code.id, definition.id, "length");
}

/** How many golden values each provision and length has. */
function goldenCounts(): Map<string, number> {
  const counts = new Map<string, number>();
  for (const [file, text] of goldenFiles()) {
    if (file === "specimens.csv") continue;
    for (const [column, cells] of cellsOf(text)) {
      const stated = [...cells.values()].filter((cell) => cell !== "").length;
      const name = column.replace(/, (options|splitting stated)$/, "");
      const key =
        file === "development-lengths.csv"
          ? `${name} length`
          : `${file.replace(/\.csv$/, "")} ${name.replace(/ (expected|nominal|design)$/, "")}`;
      counts.set(key, (counts.get(key) ?? 0) + stated);
    }
  }
  return counts;
}

/** Provisions, lengths, rules and lookups that no case beside the golden values checks. */
export function uncheckedProvisions(): string[] {
  return Object.entries(provisionChecks())
    .filter(
      ([, said]) => said === NO_OUTSIDE_CHECK || said.startsWith(`${NO_OUTSIDE_CHECK}; golden`),
    )
    .map(([key]) => key);
}

/**
 * Those of which the cards say that no publication, no other hand and no other tool has checked a
 * number.
 */
export function withoutOutsideCheck(): string[] {
  return Object.entries(provisionChecks())
    .filter(([, said]) => said.startsWith(NO_OUTSIDE_CHECK))
    .map(([key]) => key);
}
