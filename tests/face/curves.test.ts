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

it("a summary tells how parameters scatter from record to record", () => {
  const few = curves.where({ bar_material: "steel", adhesive: "P", cracked: "no" });
  expect(few.length).toBeGreaterThan(3);
  const fits = few.fit("modified_bpe");
  const values = fits
    .table()
    .rows.filter(({ parameter }) => parameter === "tau1")
    .map(({ value }) => value as number);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const sd = Math.sqrt(
    values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1),
  );
  const tau = fits.table("summary").rows.find(({ parameter }) => parameter === "tau1")!;
  expect(tau["records"]).toBe(few.length);
  expect(tau["cov"]).toBeCloseTo(sd / mean, 12);
  expect(tau["highest"]).toBe(Math.max(...values));
});

it("a parameter that a record does not determine has no value and one reason", () => {
  const rows = curves.where({ test_id: "NM-009-1" }).fit("bpe").table().rows;
  const open = rows.filter(({ remark }) => remark !== null && remark !== undefined);
  expect(open.length).toBeGreaterThan(1);
  expect(open.every(({ value }) => value === null)).toBe(true);
  expect(open.filter(({ remark }) => String(remark).includes("no plateau")).length).toBe(1);
});

it("remarks stand once with the records that have them, and go with the records", () => {
  const flagged = curves.findings().text.split("\n").slice(1);
  expect(flagged.length).toBeGreaterThan(0);
  expect(flagged[0]).toContain("1 unloading loop was taken out");
  const clean = curves.where({ test_id: "NM-001-1" });
  expect(clean.answer).toContain("1 record reduced (test NM-001-1), 0 of them with a remark.");
  expect([...clean.findings()].length).toBe(1);
  expect(clean.figure("bond-slip").id).toBe("curves-nm-001-1-bond-slip");
  expect(curves.where({ bar_diameter_mm: { to: 13 } }).name).toContain(
    "curves-bar-diameter-at-most-13-mm",
  );
});

it("a known drift is tried on the first record", async () => {
  const { test_id, reduction } = (await reduceCurvesOf(study.data, { freeLength_mm: 30 }))
    .curves[0]!;
  const trial = await curves.driftTrial();
  expect(trial.answer).toContain(`peak load of ${test_id}`);
  const [left, off] = trial.table().rows;
  expect(left!["peak"]).toBeGreaterThan(1.01 * reduction.peak_load_kN);
  expect(Math.abs(Number(off!["peak"]) / reduction.peak_load_kN - 1)).toBeLessThan(0.005);
  const none = await curves.where("bar_diameter_mm > 1000").driftTrial();
  expect(none.answer).toContain("No load-displacement record");
  expect(none.table().length).toBe(0);
});

it("no record, and a law that there is not", async () => {
  const none = curves.where("bar_diameter_mm > 1000");
  expect(none.answer).toContain("No load-displacement record (bar_diameter_mm > 1000)");
  expect(none.fit("cmr").table().length).toBe(0);
  expect(none.fit("cmr").table("summary").length).toBe(0);
  expect(none.fit("cmr").answer).toContain("no record to fit");
  expect(none.figure().caption).toBe("No record.");
  expect(() => curves.fit("bpm" as "bpe")).toThrow("bpe");
});
