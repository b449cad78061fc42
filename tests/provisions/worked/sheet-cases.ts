import type { CaseKind } from "./case";
import { WORKED_LENGTHS } from "./lengths";
import { PRINTED_CAPACITIES, PRINTED_LENGTHS } from "./printed-formulas";
import { WORKED_RULES } from "./rules";
import { SHEET_CAPACITIES } from "./sheet-capacities";
import { SHEET_NUMBERS } from "./sheet-numbers";

/**
 * A worked example of the equation sheet: what it is, what it is worth, and where its numbers are
 * from.
 */
export interface SheetCase {
  readonly id: string;
  readonly topic: string;
  readonly kind: CaseKind;
  readonly source: string;
  /** What of it cannot be checked, and why. */
  readonly open?: string;
}

const BEFORE =
  "computed beforehand from the equations, separately from this library; no published answer was found";

/**
 * Every worked example W and every computed anchor C of the sheet; the test fails for one without a
 * number.
 */
export const SHEET_CASES: readonly SheetCase[] = [
  {
    id: "W2",
    topic: "pullout of headed bars, 17.6.3",
    kind: "published",
    source: "AISC Design Guide 1, 2nd edition, concrete pullout table",
  },
  {
    id: "W4",
    topic: "development length of a steel bar, 25.4.2",
    kind: "published",
    source: "Design of Reinforced Concrete, read on what-when-how.com, p. 207",
  },
  {
    id: "W5",
    topic: "stress developed by a glass FRP bar, ACI 440.1R",
    kind: "published",
    source: "Reinforced Concrete with FRP Bars, read on what-when-how.com, p. 341-342",
    open: "f'c and C are inferred; alpha is 1.5; the page prints 1.0, which gives 50.5 ksi (also checked)",
  },
  {
    id: "W5b",
    topic: "bend of an FRP bar, ACI 440.1R",
    kind: "published",
    source: "the same book, p. 318",
    open: "the strength of 64 ksi is inferred; with the printed 100 ksi and C_E 0.7 or 0.8, the strength of the bend is 31.5 or 36 ksi (also checked)",
  },
  {
    id: "W5c",
    topic: "environmental factor and creep limit, ACI 440.1R",
    kind: "published",
    source: "the same book, p. 398",
    open: "70 ksi, C_E 0.7 and the factor 0.2 are inferred",
  },
  {
    id: "W7",
    topic: "one-sided tolerance factor",
    kind: "published",
    source: "NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3",
  },
  {
    id: "W9",
    topic: "Grubbs' test, eight values",
    kind: "from memory",
    source: "NIST/SEMATECH e-Handbook, 1.3.5.17.1, from memory",
  },
  {
    id: "W9b",
    topic: "Grubbs' test, ten weights",
    kind: "published",
    source: "a published lecture example",
    open: "searched again and not found: only three of the ten weights are known, so G = 2.37693 cannot be recomputed; the table value and the verdict are checked",
  },
  {
    id: "W13",
    topic: "constants of the test-based resistance factor",
    kind: "from memory",
    source: "AISI S100, from memory",
  },
  {
    id: "W14",
    topic: "concrete capacity means, psi and MPa",
    kind: "from memory",
    source: "Fuchs, Eligehausen, Breen 1995, from memory",
  },
  {
    id: "W15",
    topic: "EN 1990 tables D1 and D2",
    kind: "from memory",
    source: "EN 1990:2002 Annex D, from memory",
  },
  {
    id: "C1",
    topic: "bond, breakout and pryout near an edge, ACI 318-19",
    kind: "constructed",
    source: BEFORE,
  },
  { id: "C2", topic: "edge shear, ACI 318-19", kind: "constructed", source: BEFORE },
  { id: "C4", topic: "combined pull-out and cone, EN 1992-4", kind: "constructed", source: BEFORE },
  {
    id: "C5",
    topic: "development of a No. 5 glass FRP bar by all guides",
    kind: "constructed",
    source: BEFORE,
  },
  { id: "C7", topic: "resistance factors", kind: "constructed", source: BEFORE },
];

/** In how many places the numbers of a case stand, by table. */
export function numbersOf(id: string): Readonly<Record<string, number>> {
  const count = (of: readonly { readonly id: string }[]): number =>
    of.filter((one) => one.id === id).length;
  const capacities = SHEET_CAPACITIES.filter((one) => one.id === id).reduce(
    (sum, { expected }) => sum + Object.keys(expected).length,
    0,
  );
  return Object.fromEntries(
    Object.entries({
      "sheet-capacities.ts": capacities,
      "lengths.ts": count(WORKED_LENGTHS),
      "rules.ts": count(WORKED_RULES),
      "sheet-numbers.ts": count(SHEET_NUMBERS),
    }).filter(([, n]) => n > 0),
  );
}

/** Numbers from formulas that published pages print, beside the examples of the sheet. */
const PRINTED: readonly SheetCase[] = [
  ...PRINTED_CAPACITIES.map((one) => ({ ...one, of: one.provision })),
  ...PRINTED_LENGTHS.map((one) => ({ ...one, of: one.rule })),
].map(({ id, of, kind, source }) => ({ id, topic: of, kind, source }));

/**
 * Every case with where its numbers are checked and what does not meet the printed digits, as
 * Markdown.
 */
export function sheetCaseList(): string {
  const rows = [...SHEET_CASES, ...PRINTED].map(({ id, topic, kind, source, open }) => {
    const where = Object.entries(numbersOf(id))
      .map(([file, n]) => `${n} in ${file}`)
      .join(", ");
    const differs = SHEET_NUMBERS.filter((one) => one.id === id && one.differs).map(
      ({ what, printed, differs: how }) =>
        `${what}: printed ${printed[0]}, here ${how?.ours[0] ?? ""}; ${how?.why ?? ""}`,
    );
    return `| ${[id, topic, kind, source, where, [...(open ? [open] : []), ...differs].join(". ")].map((cell) => cell.replaceAll("|", "\\|").replaceAll("_", "\\_").replaceAll("*", "\\*")).join(" | ")} |`;
  });
  return [
    "# Worked examples",
    'Written by the tests (`npm run derived`). The ids are those in the column "tests that check it" of [the provisions](provisions.md); each number agrees to its printed digits unless the last column says otherwise. Published: printed digits of a publication. Constructed: computed separately from this library. From memory: a value of the source from memory. The files are in `tests/provisions/worked`. Other ids (A1, E8, ...) are cases recomputed in Python independently from the clauses, in `tests/provisions/recomputed`; those from T1 on were written case by case by someone who knew the library.',
    [
      "| id | topic | kind | source | numbers checked | differences and inferred values |",
      "| :--- | :--- | :--- | :--- | :--- | :--- |",
      ...rows,
    ].join("\n"),
  ]
    .join("\n\n")
    .concat("\n");
}
