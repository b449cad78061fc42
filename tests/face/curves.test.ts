import { beforeAll, expect, it } from "vitest";
import { openStudy, type Curves, type Study } from "../../kernel-lib/src";
import { bondSlipCurve, fitBondSlip, reduceCurvesOf } from "../../kernel-lib/src/curves";

let study: Study;
let curves: Curves;
beforeAll(async () => {
  study = await openStudy({ data: "datasets/demo", keep: "none" });
  curves = await study.curves({ freeLength_mm: 30 });
});

it("the records of a study are those that the room of curves reduces", async () => {
  const reduced = await reduceCurvesOf(study.data, { freeLength_mm: 30 });
  const table = curves.table();
  expect(table.column("test_id")).toEqual(reduced.curves.map(({ test_id }) => test_id));
  expect(table.column("peak")).toEqual(
    reduced.curves.map(({ reduction }) => reduction.peak_load_kN),
  );
  expect(curves.length).toBeGreaterThan(3);
  expect(curves.answer).toContain(`${curves.length} records reduced`);
  expect(curves.figure("bond-slip").invented).toBe(true);
});

it("a law is fitted to each record, with the numbers of the room", async () => {
  const [first] = (await reduceCurvesOf(study.data, { freeLength_mm: 30 })).curves;
  const id = first!.test_id;
  const one = curves.where({ test_id: id });
  expect(one.length).toBe(1);
  const fits = one.fit("modified_bpe");
  const row = [...study.where({ test_id: id })][0]!;
  const { parameters } = fitBondSlip(
    bondSlipCurve(first!.reduction, row.bar_diameter_mm, row.embedment_mm),
    "modified_bpe",
  );
  const shown = fits.table();
  expect(shown.column("parameter")).toEqual(parameters.map(({ name }) => name));
  const tau = parameters.find(({ name }) => name === "tau1");
  expect(shown.rows.find(({ parameter }) => parameter === "tau1")?.["value"]).toBe(tau!.value);
  expect(fits.figure().data.length).toBeGreaterThan(0);
});

it("no record, and a law that there is not", async () => {
  const none = curves.where("bar_diameter_mm > 1000");
  expect(none.answer).toContain("No load-displacement record (bar_diameter_mm > 1000)");
  expect(none.fit("cmr").table().length).toBe(0);
  expect(none.figure().caption).toBe("No record.");
  expect(() => curves.fit("bpm" as "bpe")).toThrow("bpe");
});
