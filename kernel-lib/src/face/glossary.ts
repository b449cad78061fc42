import { KeptTable } from "./results/kept";
import { UnknownNameError } from "./results/names";

/** Term of the trade, its name in code or a column, and its meaning. */
const TERMS: readonly (readonly [term: string, name: string, meaning: string])[] = [
  ["test-to-predicted ratio", "ratio", "measured load divided by the capacity predicted"],
  ["observed failure mode", "failure_mode", "mode in which the specimen failed, as reported"],
  ["mode", "mode", "mode of the provision used as the predicted capacity"],
  ["governing mode", "governing_mode", "mode with the lowest predicted capacity"],
  [
    "capacity that divides",
    "capacityOf",
    "the capacity in the observed mode, or in the governing mode",
  ],
  [
    "lower bound",
    "lower_bound",
    "result of a test that was stopped or failed in another mode: the strength in the mode judged is at least the load reached (right-censored)",
  ],
  ["5 % fractile", "fractile", "value below which 5 % of a population are expected; an estimate"],
  [
    "characteristic ratio",
    "lower",
    "lower confidence limit (90 % unless stated) of the 5 % fractile of the ratios, r_k",
  ],
  ["upper confidence limit", "upper", "upper confidence limit of the 5 % fractile of the ratios"],
  [
    "as tested",
    "asTested",
    "verdict for the series tested, each with its own mean (fixed series effect)",
  ],
  [
    "in general",
    "inGeneral",
    "verdict for a further series like those tested (random series effect)",
  ],
  [
    "series effect, ICC",
    "icc",
    "between-series share of the variance: tests of one series are correlated",
  ],
  [
    "layout cell",
    "cells",
    "tests of one layout (and of other columns named) that share a mean within a group",
  ],
  ["scope", "scope", "tests used to judge a provision: set-up, stated limits, available inputs"],
  [
    "account of rows",
    'table("account")',
    "every row read, with its status and reason; the counts add up to the total",
  ],
  ["rejected row", "rejected", "a row that could not be read; listed with file, row and column"],
  ["excluded test", "exclude", "a test excluded by the researcher, with the reason"],
  ["hand calculation", "explain", "one prediction step by step, with clauses and units"],
  ["criterion: fractile", "fractile", "factor that brings the characteristic ratio to 1.0"],
  [
    "criterion: as steel",
    "as steel",
    "factor that gives FRP bars the characteristic ratio of steel bars under the same provision, so that the model error of the provision cancels",
  ],
  [
    "criterion: reliability",
    "reliability",
    "factor that brings the reliability index to its target with the code's strength reduction factor",
  ],
  ["level", "level", "expected (mean model), nominal (characteristic) or design capacity"],
  ["change, proposal", "Change, Proposal", "one changed provision; all changes of one code"],
  ["basis", "basis()", "library, data files with hashes, lock file and seed behind a result"],
];

/**
 * Terms as used in code, columns, options and prose, with their meaning.
 * @param term part of a term or name; all terms where it is not stated
 * @throws UnknownNameError where nothing matches
 * @example glossary("lower bound")
 */
export function glossary(term?: string): KeptTable {
  const asked = term?.toLowerCase();
  const found = TERMS.filter(
    (words) => asked === undefined || words.slice(0, 2).join(" ").toLowerCase().includes(asked),
  );
  if (term !== undefined && found.length === 0)
    throw new UnknownNameError(
      "term",
      term,
      TERMS.map(([name]) => name),
    );
  return new KeptTable(
    {
      id: "glossary",
      title: "Terms",
      rowKey: ["term"],
      columns: [
        { key: "term", title: "term", kind: "text" },
        { key: "name", title: "name", kind: "text" },
        { key: "meaning", title: "meaning", kind: "text" },
      ],
      rows: found.map(([word, name, meaning]) => ({ term: word, name, meaning })),
    },
    false,
  );
}
