import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import {
  ACI318_DETAIL_CHECKS,
  anchorLightweightFactor,
  ASTM_D7957_PROPERTIES,
  astmD7957Bar,
  barSize,
  bendStrength,
  code,
  concreteInteraction,
  convertStrength,
  detailChecks,
  environmentalFactor,
  lightweightFactor,
  localBondLaw,
  interactionRule,
  meanStrength,
  powerInteraction,
  resultantAt,
  slipAtSplitting,
  Specimens,
  steelInteraction,
  threadedArea,
  trilinearInteraction,
  type BarSystem,
} from "../../../kernel-lib/src/provisions";
import { checkKey } from "../../../kernel-lib/src/tables";
import { inch, squareInch, steps, table } from "../specimens";
import type { CaseKind } from "./case";

/**
 * A value of what is no capacity and no length: an interaction, a placing rule, a lookup. Numbers
 * within `within`, words as they are.
 */
export interface WorkedRule {
  readonly key: string;
  /** Of the sheet's worked examples, where it is one; else empty. */
  readonly id: string;
  readonly kind: CaseKind;
  readonly source: string;
  readonly what: string;
  readonly found: () => number | string;
  readonly expected: number | string;
  readonly within?: number;
}

type Fields = Omit<WorkedRule, "key" | "id" | "kind" | "source">;
const told = (
  key: string,
  kind: CaseKind,
  source: string,
  cases: readonly Fields[],
  id = "",
): WorkedRule[] => cases.map((one) => ({ key, id, kind, source, ...one }));
const PAPER = "on paper, from the printed equation";
const MEMORY = "from memory";
const holds = ({
  value,
  limit,
  holds: kept,
}: {
  readonly value: number;
  readonly limit: number;
  readonly holds: boolean;
}): string => `${Number(value.toFixed(6))} of ${limit}, ${kept ? "holds" : "does not hold"}`;

/** Both printed forms of the edition state the interaction and the placing rules alike. */
const ACI_FORMS = ["aci318-19", "aci318-19m"] as const;

/**
 * Resultant in kN at which the interaction of a form is met, for capacities of 60 kN in tension and
 * 40 kN in shear.
 */
const resultant = (id: string, form: number, angle: number, equation = 0): number => {
  const rule = interactionRule(code(id), { options: { interaction_form: form } });
  return resultantAt(rule!.equations[equation]!, 60_000, 40_000, angle) / 1000;
};
/**
 * What to find, by root finding along the load path rather than from a closed form (Python:
 * scipy.optimize.brentq).
 */
const alongPath = (
  id: string,
  form: number,
  equation: number,
  expected: readonly (readonly [number, number])[],
): Fields[] =>
  expected.map(([angle, kN]) => ({
    what: `resultant of 60 kN tension and 40 kN shear at ${angle} degrees: ${kN} kN (Python: brentq along the load path)`,
    found: () => resultant(id, form, angle, equation),
    expected: kN,
    within: 5e-7,
  }));

const INTERACTIONS: readonly WorkedRule[] = [
  ...ACI_FORMS.flatMap((form) =>
    told(checkKey(form, "17.8", "function"), "constructed", PAPER, [
      {
        what: "0.7 and 0.5",
        found: () => holds(trilinearInteraction(0.7, 0.5)),
        expected: "1.2 of 1.2, holds",
      },
      {
        what: "0.7 and 0.51",
        found: () => holds(trilinearInteraction(0.7, 0.51)),
        expected: "1.21 of 1.2, does not hold",
      },
      {
        what: "shear of 0.2 leaves the full tension",
        found: () => holds(trilinearInteraction(1, 0.2)),
        expected: "1 of 1, holds",
      },
      {
        what: "tension of 0.2 leaves the full shear",
        found: () => holds(trilinearInteraction(0.2, 1)),
        expected: "1 of 1, holds",
      },
      ...alongPath(form, 0, 0, [
        [30, 44.553755],
        [10, 57.818321],
        [80, 40.617064],
        [45, 40.729351],
      ]),
    ]),
  ),
  ...ACI_FORMS.flatMap((form) =>
    told(checkKey(form, "R17.8", "function"), "constructed", PAPER, [
      {
        what: "equal ratios of 2^(-3/5)",
        found: () => powerInteraction(2 ** -0.6, 2 ** -0.6).value,
        expected: 1,
        within: 1e-12,
      },
      {
        what: "0.8 and 0.3: 0.689419 + 0.134442 (Python: .8**(5/3) + .3**(5/3))",
        found: () => powerInteraction(0.8, 0.3).value,
        expected: 0.823861,
        within: 5e-7,
      },
      ...alongPath(form, 1, 0, [
        [30, 48.906858],
        [10, 57.259213],
      ]),
    ]),
  ),
  ...told(checkKey("en1992-4-2018", "table-7.3-steel", "function"), "constructed", PAPER, [
    {
      what: "0.6 and 0.8: 0.36 + 0.64",
      found: () => holds(steelInteraction(0.6, 0.8)),
      expected: "1 of 1, holds",
    },
    ...alongPath("en1992-4-2018", 0, 0, [
      [30, 52.372294],
      [60, 43.105272],
    ]),
  ]),
  ...told(checkKey("en1992-4-2018", "table-7.3-power", "function"), "constructed", PAPER, [
    {
      what: "0.36 and 0.64: 0.216 + 0.512",
      found: () => concreteInteraction(0.36, 0.64).value,
      expected: 0.728,
      within: 1e-12,
    },
    {
      what: "0.7 and 0.7: 2 x 0.585662",
      found: () => holds(concreteInteraction(0.7, 0.7)),
      expected: "1.171324 of 1, does not hold",
    },
    ...alongPath("en1992-4-2018", 0, 1, [
      [30, 46.718306],
      [45, 42.339727],
    ]),
  ]),
  ...told(checkKey("en1992-4-2018", "table-7.3-straight", "function"), "constructed", PAPER, [
    {
      what: "0.8 and 0.4",
      found: () => holds(concreteInteraction(0.8, 0.4, "straight")),
      expected: "1.2 of 1.2, holds",
    },
    {
      what: "1.1 and 0.05, one above 1",
      found: () => holds(concreteInteraction(1.1, 0.05, "straight")),
      expected: "1.15 of 1.2, does not hold",
    },
    ...alongPath("en1992-4-2018", 1, 1, [
      [30, 44.553755],
      [80, 40.617064],
    ]),
  ]),
];

const CAST: Partial<TestRowInput> = { installation: "cast_in", bar_diameter_mm: inch(0.625) };
const DRILLED: Partial<TestRowInput> = { bar_diameter_mm: inch(0.625), hole_diameter_mm: 20 };
const pair = { group_nx: 2 } as const;

/**
 * A rule at its least value and 0.1 mm below, for a bar of 0.625 in. = 15.875 mm in a hole of 20
 * mm, 6 in. deep.
 */
function placed(
  id: string,
  least: number,
  row: (value: number) => Partial<TestRowInput>,
  options: Readonly<Record<string, number>> = {},
): WorkedRule[] {
  const judged = (form: string, value: number): string => {
    const of = code(form);
    const verdict = detailChecks(
      of,
      ACI318_DETAIL_CHECKS,
      new Specimens(table(row(value)), "nominal"),
      0,
      options,
    ).find(({ check }) => check.id === id);
    return verdict
      ? `${verdict.verdict}, at least ${Number(verdict.least_mm.toFixed(4))} mm`
      : "no such rule";
  };
  const given = Object.entries(options)
    .map(([name, value]) => `, ${name} ${value}`)
    .join("");
  return ACI_FORMS.flatMap((form) =>
    told(
      checkKey(form, id, "placing"),
      "constructed",
      "on paper, from the rule as the card states it",
      [
        {
          what: `at the least${given}`,
          found: () => judged(form, least + 1e-9),
          expected: `kept, at least ${least} mm`,
        },
        {
          what: `0.1 mm below${given}`,
          found: () => judged(form, least - 0.1),
          expected: `not kept, at least ${least} mm`,
        },
      ],
    ),
  );
}

const PLACING: readonly WorkedRule[] = [
  ...placed("spacing-cast-in", 63.5, (s) => ({ ...CAST, ...pair, spacing_x_mm: s })),
  ...placed("spacing-torqued", 95.25, (s) => ({ ...CAST, ...pair, spacing_x_mm: s }), {
    torqued: 1,
  }),
  // Cover is clear: half a bar lies between it and the edge distance.
  ...placed("edge-cast-in", 50, (c) => ({ ...CAST, edge_1_mm: c + 7.9375 }), {
    cover_required: 50,
  }),
  ...placed("edge-torqued", 95.25, (c) => ({ ...CAST, edge_3_mm: c }), { torqued: 1 }),
  ...placed("spacing-adhesive", 95.25, (s) => ({ ...DRILLED, group_ny: 2, spacing_y_mm: s })),
  ...placed("spacing-adhesive", 80, (s) => ({ ...DRILLED, group_ny: 2, spacing_y_mm: s }), {
    product_spacing: 80,
  }),
  ...placed("edge-adhesive", 95.25, (c) => ({ ...DRILLED, edge_4_mm: c })),
  ...placed("edge-adhesive", 60, (c) => ({ ...DRILLED, edge_4_mm: c }), { product_edge: 60 }),
  ...placed("edge-aggregate", 40, (c) => ({ ...DRILLED, edge_2_mm: c }), { aggregate: 20 }),
  ...placed("edge-cover", 50, (c) => ({ ...DRILLED, edge_1_mm: c + 7.9375 }), {
    cover_required: 50,
  }),
  ...placed("thickness-adhesive", 192.4, (h) => ({ ...DRILLED, member_thickness_mm: h })),
  ...placed("thickness-adhesive", 200, (h) => ({ ...DRILLED, member_thickness_mm: h }), {
    product_thickness: 200,
  }),
];

const US = ["3", "4", "5", "6", "7", "8", "9", "10", "11"].map((number) => `No. ${number}`);
const TWINS = ["M10", "M13", "M16", "M19", "M22", "M25", "M29", "M32", "M36"];
const sizes = (
  system: BarSystem,
  of: readonly string[],
  write: (size: ReturnType<typeof barSize>) => string,
): string => of.map((name) => write(barSize(system, name))).join(" ");
const both = ({ diameter_mm, area_mm2 }: ReturnType<typeof barSize>): string =>
  `${diameter_mm}/${area_mm2}`;
const D7957 = [2, 3, 4, 5, 6, 7, 8, 9, 10].map((number) => astmD7957Bar(number));
const least = (name: string): number =>
  ASTM_D7957_PROPERTIES.find((one) => one.name === name)?.value ?? NaN;
const SPRINGER = "table of reinforcing bars (Springer), read on a public page";
const light = (
  installation: "post_installed" | "cast_in",
  clause: string,
  symbol: string,
  options = {},
): number =>
  steps(
    code("aci318-19"),
    `aci318-19/${clause}`,
    { installation, concrete_type: "lightweight", lightweight_factor: 0.85 },
    { options },
  )[symbol] ?? NaN;

const LOOKUPS: readonly WorkedRule[] = [
  ...told(checkKey("lookup", "bar-sizes"), "published", SPRINGER, [
    {
      what: "US diameters, in.",
      found: () => sizes("us", US, ({ diameter_mm }) => (diameter_mm / 25.4).toFixed(3)),
      expected: "0.375 0.500 0.625 0.750 0.875 1.000 1.128 1.270 1.410",
    },
    {
      what: "US areas, in.²",
      found: () => sizes("us", US, ({ area_mm2 }) => (area_mm2 / squareInch(1)).toFixed(2)),
      expected: "0.11 0.20 0.31 0.44 0.60 0.79 1.00 1.27 1.56",
    },
    {
      what: "metric twins, mm and mm²",
      found: () => sizes("us_metric", TWINS, both),
      expected: "9.5/71 12.7/129 15.9/199 19.1/284 22.2/387 25.4/510 28.7/645 32.3/819 35.8/1006",
    },
  ]),
  ...told(checkKey("lookup", "bar-sizes"), "from memory", MEMORY, [
    {
      what: "CSA steel, mm and mm²",
      found: () => sizes("csa_steel", ["10M", "15M", "20M", "25M", "30M", "35M"], both),
      expected: "11.3/100 16/200 19.5/300 25.2/500 29.9/700 35.7/1000",
    },
  ]),
  ...told(checkKey("lookup", "bar-sizes"), "constructed", "area of the circle, to 0.1 mm²", [
    {
      what: "EN areas, mm²",
      found: () =>
        sizes("en", ["6", "8", "10", "12", "14", "16", "20", "25", "28", "32"], ({ area_mm2 }) =>
          area_mm2.toFixed(1),
        ),
      expected: [6, 8, 10, 12, 14, 16, 20, 25, 28, 32]
        .map((d) => ((Math.PI / 4) * d * d).toFixed(1))
        .join(" "),
    },
  ]),
  ...told(checkKey("lookup", "csa-frp-sizes"), "from memory", MEMORY, [
    {
      what: "mm and mm²",
      found: () => sizes("csa_frp", ["10M", "13M", "15M", "20M", "22M", "25M", "30M"], both),
      expected: "9.5/71 12.7/129 15.9/199 19.1/284 22.2/387 25.4/510 28.7/645",
    },
  ]),
  ...told(
    checkKey("lookup", "astm-d7957-forces"),
    "from memory",
    "Table 3 of the specification, from memory",
    [
      {
        what: "force over area, ksi, No. 2 to 4",
        found: () =>
          D7957.slice(0, 3)
            .map((bar) => (bar.guaranteedStrength_MPa / 6.894757).toFixed(0))
            .join(" "),
        expected: "124 120 108",
      },
      {
        what: "force over area, ksi, No. 5 to 10",
        found: () =>
          D7957.slice(3)
            .map((bar) => (bar.guaranteedStrength_MPa / 6.894757).toFixed(1))
            .join(" "),
        expected: "93.9 93.0 90.2 84.6 82.0 77.3",
      },
      // The metric column prints 130 kN for No. 5, where 29.1 kip is 129.4.
      {
        what: "force, kN (No. 5 printed as 130)",
        found: () => D7957.map((bar) => (bar.guaranteedForce_N / 1000).toFixed(0)).join(" "),
        expected: "27 59 96 129 182 241 297 365 437",
      },
    ],
  ),
  ...told(
    checkKey("lookup", "astm-d7957-least"),
    "published",
    "public abstracts of the specification, in its inch-pound units",
    [
      {
        what: "modulus, 6,500 ksi",
        found: () => least("mean tensile modulus of elasticity") / 6.894757,
        expected: 6.5,
        within: 0.005,
      },
      {
        what: "transverse shear, 19 ksi",
        found: () => least("guaranteed transverse shear strength") / 6.894757,
        expected: 19,
        within: 0.05,
      },
      {
        what: "bond, 1,100 psi",
        found: () => (least("guaranteed bond strength") / 6.894757) * 1000,
        expected: 1100,
        within: 5,
      },
      {
        what: "strain, fibre content, alkali retention, bent portion, %",
        found: () =>
          [
            "mean ultimate tensile strain",
            "fibre mass content",
            "alkali tensile capacity retention",
            "force of bent portion",
          ]
            .map(least)
            .join(" "),
        expected: "1.1 70 80 60",
      },
    ],
  ),
  ...told(checkKey("lookup", "environmental-factors"), "from memory", MEMORY, [
    {
      what: "ACI 440.1R-15: glass, carbon, aramid; interior and exterior",
      found: () =>
        ["glass", "carbon", "aramid"]
          .flatMap((fibre) =>
            ["interior", "exterior"].map(
              (where) => environmentalFactor("aci440.1r-15", fibre, where).C_E,
            ),
          )
          .join(" "),
      expected: "0.8 0.7 1 0.9 0.9 0.8",
    },
    {
      what: "ACI 440.11-22 and AASHTO, glass",
      found: () =>
        ["aci440.11-22", "aashto-gfrp2-2018"]
          .flatMap((guide) =>
            ["interior", "exterior"].map((where) => environmentalFactor(guide, "glass", where).C_E),
          )
          .join(" "),
      expected: "0.85 0.85 0.8 0.7",
    },
  ]),
  ...told(checkKey("lookup", "anchor-lightweight"), "constructed", PAPER, [
    {
      what: "0.6 x 0.85, adhesive bond",
      found: () => anchorLightweightFactor("adhesive_bond", 0.85, true),
      expected: 0.51,
      within: 1e-12,
    },
    {
      what: "0.8 x 0.85, adhesive concrete",
      found: () => anchorLightweightFactor("expansion_screw_adhesive_concrete", 0.85, true),
      expected: 0.68,
      within: 1e-12,
    },
    {
      what: "1.0 x 0.85, cast-in and undercut",
      found: () =>
        anchorLightweightFactor("cast_in_concrete", 0.85, true) +
        anchorLightweightFactor("undercut_concrete", 0.85, true),
      expected: 1.7,
      within: 1e-12,
    },
    {
      what: "1 in normal-weight concrete",
      found: () => anchorLightweightFactor("adhesive_bond", 0.85, false),
      expected: 1,
    },
    {
      what: "lambda_a in bond, 17.6.5",
      found: () => light("post_installed", "17.6.5", "lambda_a_bond"),
      expected: 0.51,
      within: 1e-12,
    },
    {
      what: "lambda_a in breakout, 17.6.2, drilled in",
      found: () => light("post_installed", "17.6.2", "lambda_a"),
      expected: 0.68,
      within: 1e-12,
    },
    {
      what: "lambda_a in breakout, 17.6.2, cast in",
      found: () => light("cast_in", "17.6.2", "lambda_a", { headed_cast_in: 1 }),
      expected: 0.85,
      within: 1e-12,
    },
  ]),
  ...told(
    checkKey("lookup", "lightweight-density"),
    "from memory",
    "ACI 318-19 Table 19.2.4.1(a), from memory",
    [
      {
        what: "100, 120 and 145 lb/ft³",
        found: () =>
          [100, 120, 145]
            .map((density) => lightweightFactor(density * 16.018463).toFixed(4))
            .join(" "),
        expected: "0.7500 0.9000 1.0000",
      },
    ],
  ),
  ...told(
    checkKey("lookup", "concrete-strength"),
    "published",
    "EN 206 classes: cylinder and 150 mm cube, whose ratio is 0.80 to 0.833",
    [
      {
        what: "C30/37 from its cube, within the 6 % that the rule states",
        found: () => convertStrength(37, "cube_150", "cylinder").strength_MPa / 30,
        expected: 1,
        within: 0.06,
      },
      {
        what: "C50/60",
        found: () => convertStrength(60, "cube_150", "cylinder").strength_MPa / 50,
        expected: 1,
        within: 0.06,
      },
    ],
  ),
  ...told(
    checkKey("lookup", "concrete-strength"),
    "constructed",
    "f'c = 0.85 f_cc,200, by which both printed forms of the 1995 paper agree",
    [
      {
        what: "34 MPa cylinder, 200 mm cube",
        found: () => convertStrength(34, "cylinder", "cube_200").strength_MPa,
        expected: 40,
        within: 1e-12,
      },
    ],
  ),
  ...told(
    checkKey("lookup", "mean-strength"),
    "from memory",
    "EN 1992-1-1 Table 3.1, from memory",
    [{ what: "f_ck 25 MPa", found: () => meanStrength(25), expected: 33 }],
  ),
  ...told(
    checkKey("lookup", "threaded-area"),
    "from memory",
    "widely printed table of unified coarse threads, from memory",
    [
      {
        what: "3/4 in., 10 threads, in.²",
        found: () => threadedArea(19.05, 10) / squareInch(1),
        expected: 0.334,
        within: 5e-4,
      },
      {
        what: "1 in., 8 threads, in.²",
        found: () => threadedArea(25.4, 8) / squareInch(1),
        expected: 0.606,
        within: 5e-4,
      },
    ],
  ),
];

const FUNCTIONS: readonly WorkedRule[] = [
  ...told(
    checkKey("aci440.1r-15", "bend", "function"),
    "published",
    "Reinforced Concrete with FRP Bars, read on what-when-how.com, p. 318: 28.8 ksi at 3 diameters; the strength of 64 ksi is inferred",
    [{ what: "0.45 x 64 ksi", found: () => bendStrength(3, 64), expected: 28.8, within: 0.05 }],
    "W5b",
  ),
  ...told(checkKey("aci440.1r-15", "bend", "function"), "constructed", PAPER, [
    {
      what: "not above the strength: 20 diameters",
      found: () => bendStrength(20, 64),
      expected: 64,
    },
  ]),
  ...told(
    checkKey("fib-mc2010", "local-law", "function"),
    "constructed",
    "on paper, from Table 6.1-1 from memory",
    [
      {
        what: "f_cm 36 MPa, good conditions: 2.5 x 6 MPa",
        found: () =>
          JSON.stringify(localBondLaw({ f_cm: 36, goodConditions: true, clearRibSpacing_mm: 10 })),
        expected: '{"tau1":15,"s1":1,"s2":2,"s3":10,"tau3":6,"alpha":0.4}',
      },
      {
        what: "f_cm 36 MPa, other conditions: 1.25 x 6 MPa",
        found: () =>
          JSON.stringify(localBondLaw({ f_cm: 36, goodConditions: false, clearRibSpacing_mm: 10 })),
        expected: '{"tau1":7.5,"s1":1.8,"s2":3.6,"s3":10,"tau3":3,"alpha":0.4}',
      },
    ],
  ),
  ...told(checkKey("fib-mc2010", "slip-at-splitting", "function"), "constructed", PAPER, [
    {
      what: "half the strength: 0.5^2.5 mm",
      found: () => slipAtSplitting(7.5, { tau1: 15, s1: 1, alpha: 0.4 }),
      expected: 0.176777,
      within: 5e-7,
    },
  ]),
];

/**
 * Interactions, placing rules, lookups and what else has a function of its own, with worked values.
 */
export const WORKED_RULES: readonly WorkedRule[] = [
  ...INTERACTIONS,
  ...PLACING,
  ...LOOKUPS,
  ...FUNCTIONS,
];
