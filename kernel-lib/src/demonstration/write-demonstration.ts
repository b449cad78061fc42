import { describePackage, TestTable, testsCsv, writeDataset } from "../dataset";
import { demonstrationCard } from "./card";
import { demonstrationCurves } from "./curves";
import { generateDemonstration } from "./generate";
import { type Demonstration } from "./demonstration";

/** The seed of the campaign that the project's notebooks show. */
export const DEMONSTRATION_SEED = 2026;

/**
 * Generates the invented campaign and writes it as a data set: tests, studies, card with the truth,
 * descriptor.
 */
export async function writeDemonstration(
  folder: string,
  seed: number = DEMONSTRATION_SEED,
): Promise<Demonstration> {
  const demonstration = generateDemonstration(seed);
  const curves = demonstrationCurves(demonstration.tests, seed);
  const fileOf = new Map(curves.map(({ test_id, file }) => [test_id, file]));
  const tests = TestTable.fromRows(
    demonstration.tests.map((test) => ({
      ...test,
      extra: { ...test.extra, curve: fileOf.get(test.test_id) ?? null },
    })),
  );
  const descriptor = describePackage({
    name: "demonstration-breakwater-parapet",
    title: "Breakwater parapet campaign (invented)",
    description:
      "INVENTED tests of bars bonded into and cast into concrete, generated from a truth stated in the card. They prove nothing about real bars.",
    licence: "free to use; invented",
    columns: testsCsv(tests).split("\n", 1)[0]?.split(",") ?? [],
    extraFields: [
      { name: "bar_family", type: "string", description: "letter of the invented kind of bar" },
      {
        name: "layout",
        type: "string",
        description:
          "where the bars stand: field, one_edge, corner, pair, four, pair_at_edge, bond_specimen",
      },
      {
        name: "curve",
        type: "string",
        description: "load-displacement record of the test, a file of this data set",
      },
    ],
  });
  await writeDataset(folder, {
    tests,
    studies: demonstration.studies,
    card: demonstrationCard(demonstration),
    descriptor,
    further: Object.fromEntries(curves.map(({ file, csv }) => [file, csv])),
  });
  return demonstration;
}
