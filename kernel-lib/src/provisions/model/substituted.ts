import type { TestColumns } from "../inputs/prepare";
import { capacityAt, rowEvaluator } from "./evaluate-row";
import type { Level } from "./levels";
import { rowArguments, type CodePrediction, type ProvisionColumn } from "./predict";
import { symbolsRead } from "./provision-symbols";

/** A value that the library puts in the place of one that the row does not state. */
interface Substitution {
  readonly inputs: readonly string[];
  readonly says: (level: Level) => string;
  /** Rows in which it was made, found once for a table. */
  readonly made: (tests: TestColumns, level: Level) => (i: number) => boolean;
  /** What the value not stated may be, as multiples of the one used. */
  readonly range: readonly number[];
}

function blankIn(tests: TestColumns, column: string): (i: number) => boolean {
  const values = tests.has(column) ? tests.numbers(column) : null;
  return (i) => values === null || Number.isNaN(values[i] ?? NaN);
}

/**
 * The specified strength of a bar in place of the measured one at the expected level, the measured
 * one in its place at the others.
 */
function strengthOfLevel(
  measured: string,
  specified: string,
): Pick<Substitution, "says" | "made" | "range"> {
  return {
    says: (level) =>
      level === "expected"
        ? `${measured} is blank: the specified strength was used`
        : `${specified} is blank: the measured strength was used`,
    made: (tests, level) => {
      const [asked, other] = level === "expected" ? [measured, specified] : [specified, measured];
      const [isBlank, otherBlank] = [blankIn(tests, asked), blankIn(tests, other)];
      return (i) => isBlank(i) && !otherBlank(i);
    },
    range: [0.8, 1.25],
  };
}

const SUBSTITUTIONS: readonly Substitution[] = [
  {
    inputs: ["f_u", "f_u_cap"],
    ...strengthOfLevel("bar_strength_MPa", "bar_strength_specified_MPa"),
  },
  {
    inputs: ["f_v"],
    ...strengthOfLevel("bar_shear_strength_MPa", "bar_shear_strength_specified_MPa"),
  },
];

/**
 * What the library put in the place of an input that a row does not state, where that moves the
 * capacity of a provision; null where nothing was replaced or it moves nothing, such as a bar
 * strength that caps nothing. What the data contract defines for a blank (a remote edge, one bar,
 * normal-weight concrete, the area of the nominal diameter) replaces nothing, and what a user
 * stated by name (`cylinder_assumed`, an option) is the user's choice: see `assumedAt`.
 * @returns the finding for a row of the prediction
 */
export function substitutionFinder(
  prediction: CodePrediction,
  { provision }: Pick<ProvisionColumn, "provision">,
): (i: number) => string | null {
  const { code, level, specimens, settings } = prediction;
  const read = new Set(symbolsRead(code, provision).map(({ name }) => name));
  const possible = SUBSTITUTIONS.filter(({ inputs }) => inputs.some((name) => read.has(name))).map(
    (one) => ({ ...one, made: one.made(specimens.tests, level) }),
  );
  if (possible.length === 0) return () => null;
  const evaluator = rowEvaluator(code, provision);
  const values = new Float64Array(evaluator.symbols.length + 1);
  const design = level === "design";
  const capacityOf = (args: readonly number[]): number => {
    evaluator.evaluate(args, values, design);
    return capacityAt(evaluator, provision, values, design);
  };
  return (i) => {
    for (const { inputs, says, made, range } of possible) {
      if (!made(i)) continue;
      const args = rowArguments(code, evaluator, specimens, settings, i);
      const own = capacityOf(args);
      const moved = range.some(
        (times) =>
          Math.abs(
            capacityOf(
              args.map((value, k) =>
                inputs.includes(evaluator.reads[k]?.name ?? "") ? value * times : value,
              ),
            ) /
              own -
              1,
          ) > 1e-9,
      );
      if (moved) return says(level);
    }
    return null;
  };
}

/** What a capacity rests on that the user assumed by name: judged, and counted beside the rest. */
export function assumedAt(
  prediction: CodePrediction,
  { provision }: Pick<ProvisionColumn, "provision">,
  i: number,
): string[] {
  const {
    code,
    specimens: { tests },
    settings,
  } = prediction;
  const read = new Set(symbolsRead(code, provision).map(({ name }) => name));
  const word = (column: string): string | null =>
    tests.has(column) ? (tests.texts(column)[i] ?? null) : null;
  const basis = word("concrete_strength_basis");
  const found: string[] = [];
  if (read.has("f_c") && basis === "cylinder_assumed")
    found.push("concrete strength treated as a cylinder strength (cylinder_assumed)");
  if (
    read.has("f_c") &&
    basis === "unknown" &&
    settings.readings?.unknownStrengthBasis === "as_cylinder"
  )
    found.push(
      "concrete strength of an unknown specimen treated as a cylinder strength (as_cylinder)",
    );
  if (
    read.has("tau_uncr") &&
    settings.readings?.blankUncrackedBond === "as_cracked" &&
    word("cracked") === "yes" &&
    blankIn(tests, "bond_strength_uncracked_char_MPa")(i)
  ) {
    found.push("bond stress in uncracked concrete taken as that in cracked concrete (as_cracked)");
  }
  if (
    read.has("bond_table") &&
    (settings.options?.["bond_table"] ?? code.options["bond_table"]?.value ?? 0) !== 0
  )
    found.push("table bond stress (option bond_table)");
  return found;
}
