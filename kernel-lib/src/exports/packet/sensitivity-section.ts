import { valueWords, type RatioGroup } from "../../comparison";
import type { AlternativeOutcome, ReasonableChoices } from "../../proposals";
import { alternativesTable, choicesTable, Table, type TableColumn } from "../../tables";
import type { Block, Section } from "../document/document";
import { paragraph } from "./paragraph";

/** The groups of one code, for the table of several. */
export interface GroupsUnderCode {
  /** Title of the code up to its first comma. */
  readonly code: string;
  readonly groups: readonly RatioGroup[];
}

/** One group by both distributions. */
export interface DistributionOutcome {
  readonly label: string;
  readonly n: number;
  readonly normal: Pick<RatioGroup, "lower" | "upper" | "verdict">;
  readonly lognormal: Pick<RatioGroup, "lower" | "upper" | "verdict">;
}

/** What the answer is compared with. */
export interface SensitivityResults {
  /** The present code first; only this one where no other is named. */
  readonly codes: readonly GroupsUnderCode[];
  readonly alternatives?: readonly AlternativeOutcome[];
  readonly distributions: readonly DistributionOutcome[];
  readonly choices: readonly ReasonableChoices[];
}

/** Other codes, alternatives considered, and what other choices would give. */
export function sensitivitySection(found: SensitivityResults): Section {
  return {
    id: "sensitivity",
    title: "Other codes, alternatives and sensitivity",
    blocks: [
      ...codeBlocks(found),
      ...alternativeBlocks(found),
      ...choiceBlocks(found),
      exclusions(),
    ],
  };
}

function codeBlocks({ codes }: SensitivityResults): Block[] {
  if (codes.length < 2)
    return [paragraph("Other codes. No other code is named in this packet (otherCodes).")];
  const silent = codes.filter(({ groups }) => groups.every(({ n }) => n === 0));
  return [
    ...silent.map(({ code }) => paragraph(`${code} judges none of these tests.`)),
    paragraph(
      "Other codes. The same tests under each code, each judged on the tests within its scope. A value above that of the present code means a more conservative prediction, not a better one.",
    ),
    { kind: "table", table: codesTable(codes) },
  ];
}

/** The characteristic ratio and verdict of the same groups under several codes, one line a group. */
export function codesTable(all: readonly GroupsUnderCode[]): Table {
  const labels = new Map<string, RatioGroup>();
  for (const { groups } of all)
    for (const group of groups) if (group.n > 0) labels.set(group.label, group);
  const codes = all.filter(({ groups }, k) => k === 0 || groups.some(({ n }) => n > 0));
  const columns = codes.flatMap(({ code }, k): TableColumn[] => [
    { key: `n_${k + 1}`, title: `n, ${code}`, kind: "integer" },
    { key: `lower_${k + 1}`, title: `r_k, ${code}`, kind: "number" },
    { key: `verdict_${k + 1}`, title: `verdict, ${code}`, kind: "verdict" },
  ]);
  return new Table({
    id: "other-codes",
    title: "The same groups under other codes",
    rowKey: ["mode", "bar_material"],
    columns: [
      { key: "mode", title: "mode", kind: "text" },
      { key: "bar_material", title: "bars", kind: "text" },
      ...columns,
    ],
    rows: [...labels].sort(byLabel).map(([label, { by }]) => ({
      mode: valueWords(by["mode"] ?? null),
      bar_material: valueWords(by["bar_material"] ?? null),
      ...Object.fromEntries(
        codes.flatMap(({ groups }, k): [string, string | number | null][] => {
          const one = groups.find((group) => group.label === label && group.n > 0);
          return [
            [`n_${k + 1}`, one?.n ?? null],
            [`lower_${k + 1}`, one?.lower ?? null],
            [`verdict_${k + 1}`, one?.verdict ?? "not judged"],
          ];
        }),
      ),
    })),
  });
}

const byLabel = ([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number =>
  a < b ? -1 : 1;

function alternativeBlocks({ alternatives }: SensitivityResults): Block[] {
  if (alternatives === undefined || alternatives.length === 0)
    return [
      paragraph(
        "Alternatives. None was compared in this packet (alternatives); notebook 06 compares them by safety, economy and simplicity.",
      ),
    ];
  return [
    paragraph(
      "Alternatives considered, by safety (lowest characteristic ratio, share of tests below the capacity, lowest reliability index), economy (strength used) and simplicity (numbers and conditions to read).",
    ),
    {
      kind: "table",
      table: alternativesTable(alternatives, {
        id: "alternatives",
        title: "Alternatives by safety, economy and simplicity",
      }),
    },
  ];
}

function choiceBlocks({ distributions, choices }: SensitivityResults): Block[] {
  const moved = distributions.filter(
    ({ normal, lognormal }) => normal.verdict !== lognormal.verdict,
  );
  return [
    ...(distributions.length === 0
      ? []
      : [
          paragraph(
            `Distribution. The verdict depends on it in ${moved.length} of ${distributions.length} groups${moved.length === 0 ? "" : `: ${moved.map(({ label }) => label).join("; ")}`}.`,
          ),
          { kind: "table", table: distributionsTable(distributions) } as Block,
        ]),
    ...(choices.length === 0
      ? [paragraph("Choices. No factor is derived by the criterion fractile or as steel.")]
      : [
          paragraph(
            "Outliers and choices. The factor under every combination of confidence, outliers kept or omitted and lower bounds used or omitted; by the fractile criterion also distribution and series effect.",
          ),
          {
            kind: "table",
            table: choicesTable(choices, {
              id: "choices",
              title: "Factors under every combination of reasonable choices",
            }),
          } as Block,
        ]),
  ];
}

/** The characteristic ratio by both distributions. */
export function distributionsTable(found: readonly DistributionOutcome[]): Table {
  return new Table({
    id: "distributions",
    title: "Characteristic ratio by the normal and the lognormal distribution",
    rowKey: ["group"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "n", title: "n", kind: "integer" },
      { key: "normal", title: "r_k, normal", kind: "number" },
      { key: "verdict_normal", title: "verdict, normal", kind: "verdict" },
      { key: "lognormal", title: "r_k, lognormal", kind: "number" },
      { key: "verdict_lognormal", title: "verdict, lognormal", kind: "verdict" },
    ],
    rows: found.map(({ label, n, normal, lognormal }) => ({
      group: label,
      n,
      normal: normal.lower,
      verdict_normal: normal.verdict,
      lognormal: lognormal.lower,
      verdict_lognormal: lognormal.verdict,
    })),
  });
}

function exclusions(): Block {
  return {
    kind: "list",
    items: [
      "Sustained load: not tested. Nothing here supports or replaces a factor for sustained tension.",
      "Fire and elevated temperature: not tested. Bond of adhesive and resin softens with temperature; the factors apply at the temperature of the tests only.",
      "Seismic and other repeated load: not tested. No factor here applies to anchors that must resist it.",
      "Moisture, alkali and aging of bar and adhesive: not tested.",
    ],
  };
}
