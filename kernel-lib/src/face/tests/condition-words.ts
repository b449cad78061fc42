import { labelWords, valueWords } from "../../comparison";
import { columnTitle } from "../../units";

/** What a cell of a row may hold. */
export type Cell = string | number | null;

/** What stands around the values of a column, with `$` for the values. */
const SENTENCE_OF: Readonly<Record<string, readonly [holds: string, others: string]>> = {
  bar_material: ["$ bars", "bars other than $"],
  bar_class: ["$ bars", "bars other than $"],
  bar_surface: ["$ bars", "bar surface other than $"],
  installation: ["$ bars", "bars other than $"],
  setup: ["$ tests", "tests other than $"],
  action: ["tests in $", "tests not in $"],
  provenance: ["$ tests", "tests other than $"],
  failure_mode: ["observed failure $", "observed failure other than $"],
  mode: ["$", "modes other than $"],
  layout: ["$", "layouts other than $"],
  adhesive: ["adhesive $", "adhesives other than $"],
  bar_size: ["bar size $", "bar sizes other than $"],
  test_id: ["test $", "tests other than $"],
  study_id: ["study $", "studies other than $"],
  series_id: ["series $", "series other than $"],
  code: ["$", "codes other than $"],
};

const WORDS_OF: Readonly<Record<string, string>> = {
  "cracked yes": "cracked concrete",
  "cracked no": "uncracked concrete",
  "lower_bound no": "failures in the mode only",
  "lower_bound yes": "lower bounds only",
  "installation post_installed": "post-installed bars",
  "installation cast_in": "cast-in bars",
};

/**
 * A condition on one column in an engineer's words, as titles and sentences print it: "GFRP bars",
 * "uncracked concrete", "embedment at least 100 mm".
 * @param wanted as `where` takes it: a value, a list, `{ not }` or `{ from, to }`
 * @example conditionWords("bar_material", ["gfrp", "bfrp"]) // "GFRP or BFRP bars"
 */
export function conditionWords(column: string, wanted: unknown): string {
  if (typeof wanted === "object" && wanted !== null && !Array.isArray(wanted)) {
    if ("not" in wanted) return otherThan(column, wanted.not);
    return range(column, wanted);
  }
  const fixed = WORDS_OF[`${column} ${String(wanted)}`];
  if (fixed !== undefined) return fixed;
  const around = SENTENCE_OF[column];
  if (around !== undefined && wanted !== null)
    return around[0].replace("$", values(column, wanted));
  if (wanted === null) return `no ${named(column)} stated`;
  if (typeof wanted === "string") return labelWords(column, wanted);
  return `${named(column)} ${withUnit(column, values(column, wanted))}`;
}

interface Range {
  readonly from?: string | number;
  readonly to?: string | number;
}

function range(column: string, { from, to }: Range): string {
  const limits =
    to === undefined
      ? `at least ${String(from)}`
      : from === undefined
        ? `at most ${String(to)}`
        : `${String(from)} to ${String(to)}`;
  return `${named(column)} ${withUnit(column, limits)}`;
}

function otherThan(column: string, unwanted: unknown): string {
  const around = SENTENCE_OF[column];
  if (around !== undefined && unwanted !== null)
    return around[1].replace("$", values(column, unwanted));
  const name = named(column);
  return unwanted === null
    ? `${name} stated`
    : `${name} other than ${withUnit(column, values(column, unwanted))}`;
}

const named = (column: string): string => {
  const { title } = columnTitle(column);
  return title.charAt(0).toLowerCase() + title.slice(1);
};

const withUnit = (column: string, words: string): string => {
  const { unit } = columnTitle(column);
  return unit === null ? words : `${words} ${unit}`;
};

/** The values as a list, "GFRP, BFRP or steel". */
function values(column: string, wanted: unknown): string {
  const all = (Array.isArray(wanted) ? wanted : [wanted]) as readonly Cell[];
  const words = all.map((one) =>
    column.endsWith("_id") || column === "code" || typeof one === "number"
      ? String(one ?? "blank")
      : valueWords(one),
  );
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)!}`;
}
