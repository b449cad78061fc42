import { describe, expect, it } from "vitest";
import { code, predict } from "../../kernel-lib/src/provisions";
import { withOptions } from "../../kernel-lib/src/provisions/model/with-options";
import { table } from "./specimens";

describe("a code with other values of its options", () => {
  it("predicts as the code with these options stated, and leaves the code as it is", () => {
    const aci = code("aci318-19");
    const tests = table({ test_id: "a" }, { test_id: "b", bar_material: "steel" });
    for (const values of [{ supplementary_reinforcement: 1 }, { ductile: 1 }, {}])
      for (const level of ["nominal", "design"] as const) {
        const capacities = (prediction: ReturnType<typeof predict>) =>
          prediction.columns.map(({ capacity }) => [...capacity]);
        expect(capacities(predict(withOptions(aci, values), tests, { level }))).toEqual(
          capacities(predict(aci, tests, { level, options: values })),
        );
      }
    // 17.5.3: the reduction of a brittle steel element is below that of a ductile one.
    const design = (ductile: number) =>
      predict(withOptions(aci, { ductile }), tests, { level: "design" }).columns.map(
        ({ capacity }) => [...capacity],
      );
    expect(design(0)).not.toEqual(design(1));
    expect(aci.options["supplementary_reinforcement"]?.value).toBe(0);
  });
  it("refuses an option that the code does not offer, with the nearest", () => {
    expect(() => withOptions(code("aci318-19"), { ductil: 1 })).toThrow(/did you mean ductile\?/);
  });
});
