import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import type { Level, PredictionSettings } from "../../../kernel-lib/src/provisions";

// The first recomputations: three cases a provision by development.py, en1992_4.py and
// mean_models.py, whose printed numbers stand here.
type Row = Partial<TestRowInput>;
const bar = (
  bar_material: "gfrp" | "steel",
  d: number,
  area: number,
  strength: number,
  fc: number,
  cover: number,
  gap: number | null,
  length: number,
  top: boolean,
  bar_surface: "sand_coated" | "ribbed" | "indented",
): Row => ({
  bar_material,
  bar_surface,
  bar_diameter_mm: d,
  bar_area_mm2: area,
  bar_strength_MPa: strength,
  concrete_strength_MPa: fc,
  cover_mm: cover,
  bar_spacing_mm: gap,
  embedment_mm: length,
  casting_position: top ? "top" : "good",
  installation: "cast_in",
  setup: "beam_end",
});
export const EMBEDDED_FRP = [
  bar("gfrp", 15.875, 200, 650, 28, 30, null, 305, false, "sand_coated"),
  bar("gfrp", 25.4, 510, 580, 45, 50, 60, 600, true, "ribbed"),
  bar("gfrp", 9.525, 71, 1400, 60, 15, 40, 250, false, "indented"),
];
export const EMBEDDED_STEEL = [
  bar("steel", 16, 201.1, 600, 25, 32, null, 320, false, "ribbed"),
  bar("steel", 36, 1017.9, 600, 55, 50, 80, 900, true, "ribbed"),
  bar("steel", 12, 113.1, 600, 70, 25, 40, 150, false, "ribbed"),
];

// Force at the embedment, kN, and length for 400 MPa, mm, by development.py (Python).
export const DEVELOPED: readonly (readonly [
  provision: string,
  length: string,
  level: Level,
  rows: readonly Row[],
  forces: readonly number[],
  lengths: readonly number[],
])[] = [
  [
    "aci440.1r-15/10.1",
    "aci440.1r-15",
    "nominal",
    EMBEDDED_FRP,
    [56.873545945, 132.753099, 34.314026478],
    [566.2836483, 1225.3171576, 190.5],
  ],
  [
    "aci440.11-22/25.4.2",
    "aci440.11-22",
    "nominal",
    EMBEDDED_FRP,
    [56.873545945, 132.753099, 34.314026478],
    [566.2836483, 1225.3171576, 304.8],
  ],
  [
    "aashto-gfrp2-2018/2.9.7.4",
    "aashto-gfrp2-2018",
    "nominal",
    EMBEDDED_FRP,
    [56.914539176, 132.848784584, 34.338759292],
    [565.6326466, 1224.0275622, 190.5],
  ],
  [
    "csa-s806-12/9.3.2",
    "csa-s806-12",
    "nominal",
    EMBEDDED_FRP,
    [62.885529891, 108.807134894, 14.917346014],
    [388.0065898, 1124.9262295, 475.9559772],
  ],
  [
    "jsce-1997/development",
    "jsce-1997",
    "nominal",
    EMBEDDED_FRP,
    [49.603938185, 171.338582677, 29.816272966],
    [639.4653562, 838.9186922, 238.125],
  ],
  [
    "aci318-19/25.4.2",
    "aci318-19/25.4.2",
    "nominal",
    EMBEDDED_STEEL,
    [69.5761383, 258.944586649, 35.199172389],
    [369.9659198, 1415.1444706, 304.8],
  ],
  [
    "en1992-1-1-2004/8.4",
    "en1992-1-1-2004",
    "nominal",
    EMBEDDED_STEEL,
    [64.980291058, 454.014271347, 38.785143032],
    [594.0861436, 1210.6514825, 262.4396715],
  ],
  [
    "en1992-1-1-2023/11.4.2",
    "en1992-1-1-2023",
    "design",
    EMBEDDED_STEEL,
    [43.524523463, 193.613997016, 25.721673117],
    [591.4091173, 1892.65242, 263.8242065],
  ],
  [
    "fib-mc2010/6.1.3",
    "fib-mc2010/6.1.3",
    "nominal",
    EMBEDDED_STEEL,
    [28.148670176, 165.780545514, 16.559203455],
    [1371.4285714, 3315.5461575, 614.6889991],
  ],
  [
    "fib-mc2010/6.1.3.3",
    "fib-mc2010/6.1.3.3",
    "expected",
    EMBEDDED_STEEL,
    [73.348938332, 375.265313324, 41.702329908],
    [378.459566, 1043.8898121, 173.93473],
  ],
  [
    "fib-mc2010/6.1.1-splitting",
    "",
    "expected",
    EMBEDDED_STEEL,
    [143.693490369, 542.924478957, 65.175906785],
    [],
  ],
];

const FASTENED_BAR = {
  bar_strength_specified_MPa: null,
  concrete_strength_basis: "cylinder",
  concrete_type: "normal",
  installation: "post_installed",
} as const;
const FASTENED_A: Partial<TestRowInput> = {
  ...FASTENED_BAR,
  bar_diameter_mm: 16,
  bar_area_mm2: 201.06,
  bar_strength_MPa: 900,
  embedment_mm: 125,
  concrete_strength_MPa: 25,
  bond_strength_char_MPa: 8,
  bond_strength_uncracked_char_MPa: 12,
  cracked: "yes",
  edge_1_mm: 120,
  member_thickness_mm: 300,
};
const FASTENED_B: Partial<TestRowInput> = {
  ...FASTENED_BAR,
  bar_diameter_mm: 20,
  bar_area_mm2: 314.16,
  bar_strength_MPa: 700,
  embedment_mm: 170,
  concrete_strength_MPa: 35,
  bond_strength_char_MPa: 11,
  bond_strength_uncracked_char_MPa: 13,
  cracked: "no",
  edge_1_mm: 150,
  edge_2_mm: 200,
  group_nx: 2,
  group_ny: 2,
  spacing_x_mm: 100,
  spacing_y_mm: 120,
  eccentricity_x_mm: 20,
  eccentricity_y_mm: 10,
  member_thickness_mm: 220,
};
const FASTENED_C: Partial<TestRowInput> = {
  ...FASTENED_BAR,
  bar_diameter_mm: 12,
  bar_area_mm2: 113.1,
  bar_strength_MPa: 1000,
  embedment_mm: 95,
  concrete_strength_MPa: 30,
  bond_strength_char_MPa: 9,
  bond_strength_uncracked_char_MPa: 14,
  cracked: "yes",
  edge_1_mm: 130,
  edge_2_mm: 110,
  edge_4_mm: 140,
  group_nx: 1,
  group_ny: 3,
  spacing_y_mm: 90,
  member_thickness_mm: 160,
};

export const FASTENED_ROWS: Readonly<Record<"A" | "B" | "C", Row>> = {
  A: FASTENED_A,
  B: FASTENED_B,
  C: FASTENED_C,
};
const SPLITTING = { c_cr_sp_ratio: 2, h_min: 150 };
export const FASTENED_SETTINGS = {
  plain: { options: SPLITTING },
  dense: { options: { ...SPLITTING, dense_reinforcement: 1, sustained_share: 0.75 } },
  turned: { options: { load_angle: 30 } },
} satisfies Record<string, PredictionSettings>;

// kN, by en1992_4.py (Python, from the printed equations); the last of each with the load 30
// degrees off the edge's normal.
const FASTENED_KN = {
  A: [
    FASTENED_SETTINGS.plain,
    {
      "7.2.1.3": 180.954,
      "7.2.1.4": 39.355411323,
      "7.2.1.6": 36.766184489,
      "7.2.1.7": 49.834566581,
      "7.2.2.5": 20.475170521,
      "7.2.2.4": 73.532368977,
    },
    22.715162211,
  ],
  B: [
    FASTENED_SETTINGS.plain,
    {
      "7.2.1.3": 879.648,
      "7.2.1.4": 125.938379323,
      "7.2.1.6": 117.134754974,
      "7.2.1.7": 97.539835456,
      "7.2.2.5": 56.059514524,
      "7.2.2.4": 234.269509947,
    },
    62.192447413,
  ],
  C: [
    FASTENED_SETTINGS.dense,
    {
      "7.2.1.3": 339.3,
      "7.2.1.4": 51.377213981,
      "7.2.1.6": 38.778666878,
      "7.2.1.7": 23.217332357,
      "7.2.2.5": 21.19458807,
      "7.2.2.4": 91.243922066,
    },
    23.513284323,
  ],
} as const satisfies Readonly<
  Record<string, readonly [PredictionSettings, Readonly<Record<string, number>>, number]>
>;

/** Case, provision, row, settings, kN. */
export const FASTENED: readonly (readonly [
  name: string,
  provision: string,
  row: Row,
  settings: PredictionSettings,
  kilonewtons: number,
])[] = (["A", "B", "C"] as const).flatMap((name) => {
  const [settings, forces, turned] = FASTENED_KN[name];
  return [
    ...Object.entries(forces).map(
      ([clause, force]) =>
        [name, `en1992-4-2018/${clause}`, FASTENED_ROWS[name], settings, force] as const,
    ),
    [
      `${name}, load turned`,
      "en1992-4-2018/7.2.2.5",
      FASTENED_ROWS[name],
      FASTENED_SETTINGS.turned,
      turned,
    ] as const,
  ];
});

export const bonded = (
  d: number,
  length: number,
  fc: number,
  tau: number,
  edge: number | null,
): Row => ({
  bar_diameter_mm: d,
  bar_area_mm2: null,
  embedment_mm: length,
  concrete_strength_MPa: fc,
  edge_1_mm: edge,
  bond_strength_mean_MPa: tau,
});
export const BONDED = [
  bonded(16, 125, 25, 12, null),
  bonded(20, 240, 40, 15, 90),
  bonded(12, 60, 20, 25, null),
];
const embedded = (
  bar_material: "gfrp" | "steel",
  d: number,
  area: number,
  fc: number,
  cover: number,
  gap: number | null,
  length: number,
  top: boolean,
): Row => ({
  bar_material,
  bar_surface: "ribbed",
  bar_diameter_mm: d,
  bar_area_mm2: area,
  concrete_strength_MPa: fc,
  cover_mm: cover,
  bar_spacing_mm: gap,
  embedment_mm: length,
  casting_position: top ? "top" : "good",
  installation: "cast_in",
  setup: "beam_end",
});
export const MEAN_FRP = [
  embedded("gfrp", 15.875, 200, 28, 30, null, 305, false),
  embedded("gfrp", 25.4, 510, 45, 50, 60, 600, true),
  embedded("gfrp", 9.525, 71, 60, 15, 40, 250, false),
];
export const MEAN_STEEL = [
  embedded("steel", 16, 201.1, 25, 32, null, 320, false),
  embedded("steel", 36, 1017.9, 55, 50, 80, 900, true),
  embedded("steel", 12, 113.1, 70, 25, 40, 150, false),
];
const sheared = { installation: "post_installed", action: "shear", setup: "direct_shear" } as const;
export const MEAN_SHEAR: readonly Row[] = [
  {
    ...sheared,
    bar_diameter_mm: 16,
    embedment_mm: 125,
    concrete_strength_MPa: 25,
    cracked: "yes",
    edge_1_mm: 120,
    member_thickness_mm: 300,
  },
  {
    ...sheared,
    bar_diameter_mm: 20,
    embedment_mm: 170,
    concrete_strength_MPa: 35,
    cracked: "no",
    edge_1_mm: 150,
    edge_2_mm: 200,
    group_nx: 2,
    group_ny: 2,
    spacing_x_mm: 100,
    spacing_y_mm: 120,
    eccentricity_y_mm: 10,
    member_thickness_mm: 220,
  },
  {
    ...sheared,
    bar_diameter_mm: 12,
    embedment_mm: 95,
    concrete_strength_MPa: 30,
    cracked: "yes",
    edge_1_mm: 130,
    edge_2_mm: 110,
    edge_4_mm: 140,
    group_ny: 3,
    spacing_y_mm: 90,
    member_thickness_mm: 160,
  },
];

// kN, by mean_models.py and, for edge shear, en1992_4.py (Python). The cone-and-bond loads come
// from a search for the least
// load there, so they agree to the search's own 1e-9 only.
export const MEANS: readonly (readonly [
  provision: string,
  rows: readonly Row[],
  kilonewtons: readonly number[],
])[] = [
  ["uniform-bond-1998/bond", BONDED, [75.398223686, 125.303191457, 56.548667765]],
  ["cone-bond-1993/tension", BONDED, [55.624685825, 188.029743666, 14.811714283]],
  ["combined-cone-bond/tension", BONDED, [69.297184546, 211.648660231, 30.345530149]],
  ["wambeke-shield-2006/bond", MEAN_FRP, [66.31236027, 233.021466092, 40.573576399]],
  ["orangun-1977/bond", MEAN_STEEL, [64.777034745, 409.515680528, 40.071081225]],
  ["aci408r-03/bond", MEAN_STEEL, [66.84390859, 362.923283943, 34.954099859]],
  ["edge-shear-2005/shear", MEAN_SHEAR, [27.433956005, 76.006350942, 28.397878106]],
];

/** What each of these numbers checks: provision ids, and lengths by code and definition. */
export function olderChecks(): {
  readonly code: string;
  readonly provision: string;
  readonly kind: "capacity" | "length";
  readonly id: string;
}[] {
  const of = (id: string): string => id.slice(0, id.indexOf("/"));
  const developed = DEVELOPED.flatMap(([provision, length, , rows, , lengths]) =>
    rows.flatMap((_, i) => [
      { code: of(provision), provision, kind: "capacity" as const, id: `development ${i}` },
      ...(lengths[i] === undefined
        ? []
        : [
            {
              code: length.includes("/") ? of(length) : length,
              provision: length,
              kind: "length" as const,
              id: `development ${i}`,
            },
          ]),
    ]),
  );
  const fastened = FASTENED.map(([name, provision]) => ({
    code: of(provision),
    provision,
    kind: "capacity" as const,
    id: `fastened ${name}`,
  }));
  const means = MEANS.flatMap(([provision, rows]) =>
    rows.map((_, i) => ({
      code: of(provision),
      provision,
      kind: "capacity" as const,
      id: `mean ${i}`,
    })),
  );
  return [...developed, ...fastened, ...means];
}
