import { CODES, DEVELOPMENT_LENGTHS, LOOKUPS } from "../../kernel-lib/src/provisions";
import { checkKey, type ProvisionChecks } from "../../kernel-lib/src/tables";
import { cellsOf, goldenFiles } from "./golden/golden-files";
import { lengthRuleOf, provisionOf, recomputedCases } from "./recomputed/cases";
import { ROW_CASES } from "./recomputed/rows/cases";
import { BY_HAND } from "./worked/by-hand";
import { WORKED_LENGTHS } from "./worked/lengths";
import { WORKED_RULES } from "./worked/rules";
import { SHEET_CAPACITIES } from "./worked/sheet-capacities";

/**
 * What checks the numbers of each provision, found from the cases themselves: which provision a case evaluates is what its test
 * evaluates, so nothing is claimed that does not run.
 */
export function provisionChecks(): ProvisionChecks {
  const found = new Map<string, Map<string, Set<string>>>();
  const add = (key: string, kind: string, id: string): void => {
    const kinds = found.get(key) ?? new Map<string, Set<string>>();
    found.set(key, kinds.set(kind, (kinds.get(kind) ?? new Set()).add(id)));
  };
  for (const { code, provision, kind, id } of SHEET_CAPACITIES) add(checkKey(code, provision), kind, id);
  for (const { rule, kind, id } of WORKED_LENGTHS.filter((one) => one.id !== "H")) add(lengthKey(rule), kind, id);
  BY_HAND.forEach(({ code, provision }, k) => add(checkKey(code, provision), "on paper counted", String(k)));
  WORKED_LENGTHS.forEach(({ rule, id }, k) => void (id === "H" && add(lengthKey(rule), "on paper counted", String(k))));
  WORKED_RULES.forEach(({ key, kind, id }, k) => add(key, id !== "" ? kind : `${kind === "constructed" ? "on paper" : kind} counted`, id !== "" ? id : String(k)));
  for (const { code, provision, id } of ROW_CASES) add(checkKey(code, provision), "recomputed", id);
  for (const one of recomputedCases()) {
    if (one.inputs["quantity"] === "local_bond_stress") {
      add(checkKey(one.code, "local-law", "function"), "recomputed", one.id);
      continue;
    }
    if (one.result.length_mm === undefined) add(checkKey(one.code, provisionOf(one).provision.id), "recomputed", one.id);
    else add(checkKey(one.code, lengthRuleOf(one).definition.id, "length"), "recomputed", one.id);
    // The case by the other reading of splitting stands beside the first.
    if ("other_reading_NRk_sp_N" in one.intermediate) add(checkKey(one.code, "en1992-4-2018/7.2.1.7-factors"), "recomputed", one.id);
  }
  const golden = goldenCounts();
  const said = (key: string): string[] => [...(found.get(key) ?? [])].map(([kind, ids]) => (kind.endsWith(" counted") ? `${kind.replace(" counted", "")} (${ids.size})` : `${kind} ${[...ids].join(", ")}`));
  const evaluated = [...CODES.flatMap((code) => code.provisions.map(({ id }) => checkKey(code.id, id))), ...DEVELOPMENT_LENGTHS.map(({ code, definition }) => checkKey(code.id, definition.id, "length"))];
  const beside = [
    ...CODES.flatMap((code) => [...(code.checks ?? []).map(({ id }) => checkKey(code.id, id, "placing")), ...(code.called ?? []).map(({ id }) => checkKey(code.id, id, "function"))]),
    ...LOOKUPS.map(({ id }) => checkKey("lookup", id)),
  ];
  const withGolden = (key: string): string => [...said(key), `golden values (${golden.get(key) ?? 0})`].join("; ");
  return Object.fromEntries<string>([...evaluated.map((key) => [key, withGolden(key)] as const), ...beside.map((key) => [key, said(key).join("; ")] as const)]);
}

function lengthKey(rule: string): string {
  return checkKey(rule.slice(0, rule.indexOf("/")), rule, "length");
}

/** How many golden values each provision and length has. */
function goldenCounts(): Map<string, number> {
  const counts = new Map<string, number>();
  for (const [file, text] of goldenFiles()) {
    if (file === "specimens.csv") continue;
    for (const [column, cells] of cellsOf(text)) {
      const stated = [...cells.values()].filter((cell) => cell !== "").length;
      const name = column.replace(/, (options|splitting stated)$/, "");
      const key = file === "development-lengths.csv" ? `${name} length` : `${file.replace(/\.csv$/, "")} ${name.replace(/ (expected|nominal|design)$/, "")}`;
      counts.set(key, (counts.get(key) ?? 0) + stated);
    }
  }
  return counts;
}

/** Provisions, lengths, rules and lookups that no case beside the golden values checks. */
export function uncheckedProvisions(): string[] {
  return Object.entries(provisionChecks()).filter(([, said]) => said === "" || said.startsWith("golden")).map(([key]) => key);
}
