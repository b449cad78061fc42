import { describe, expect, it } from "vitest";
import { code, CODES, limitRanges, rangesOf, trace } from "../../kernel-lib/src/provisions";
import { randomRows, table } from "./specimens";

const rangesFor = (id: string): ReturnType<typeof limitRanges> => {
  const of = code(id.slice(0, id.indexOf("/")));
  const provision = of.provisions.find((one) => one.id === id);
  if (!provision) throw new Error(id);
  return limitRanges(of, provision);
};

describe("limits as ranges of columns", () => {
  it("are in the columns' units, whatever the edition's", () => {
    // ACI 318-19 17.3.3: 4 to 20 diameters; 26.7.2: 2,500 psi = 17.24 MPa; ACI 440.11-22 25.4.2 and
    // 19.2.1.
    expect(rangesFor("aci318-19/17.6.5")).toEqual([
      {
        clause: "17.3.3",
        symbol: "h_ef",
        column: "embedment_mm",
        per: "bar_diameter_mm",
        lower: 4,
        upper: 20,
        unit: "",
        effect: "outside",
        unless: "post_installed = 0",
      },
      {
        clause: "17.2.2",
        symbol: "f_c",
        column: "concrete_strength_MPa",
        lower: 2500 * 0.006894757293168361,
        upper: Infinity,
        unit: "MPa",
        effect: "outside",
      },
    ]);
    expect(
      rangesFor("aci440.11-22/25.4.2").map(({ column, per, lower, upper, unit }) => [
        column,
        per ?? "",
        Number(lower.toPrecision(6)),
        Number(upper.toPrecision(6)),
        unit,
      ]),
    ).toEqual([
      ["concrete_strength_MPa", "", 20.6843, 68.9476, "MPa"],
      ["embedment_mm", "bar_diameter_mm", 20, Infinity, ""],
      ["embedment_mm", "", 304.8, Infinity, "mm"],
    ]);
  });

  it("leave out what is no bound on a column: words, options, the distance of a remote edge", () => {
    expect(rangesFor("aci318-19/frp-transverse-shear")).toEqual([]);
    expect(rangesFor("aci318-19/17.7.2").map(({ column }) => column)).toEqual(["bar_diameter_mm"]);
  });

  it.each(CODES.map((of) => [of.id, of] as const))(
    "%s: judge random rows as the limits do",
    (_, of) => {
      const alone = {
        group_nx: 1,
        group_ny: 1,
        concrete_strength_basis: "cylinder",
        bar_strength_specified_MPa: null,
      } as const;
      const tests = table(...randomRows(77, 60, 0).map((row) => ({ ...row, ...alone })));
      for (const provision of of.provisions) {
        const ranges = provision.limits.map((limit) => rangesOf(of, provision, limit));
        if (ranges.every(({ length }) => length === 0)) continue;
        for (let i = 0; i < tests.length; i++) {
          const value = (name: string): number => tests.numbers(name)[i] ?? NaN;
          const { limits } = trace(of, provision, tests, i, {
            level: provision.levels[0] ?? "nominal",
          }).parts[0]!;
          limits.forEach(({ holds }, k) => {
            const [limit, bounds] = [provision.limits[k]!, ranges[k]!];
            if (holds === null || bounds.length === 0 || !isWhole(limit.holds)) return;
            const within = bounds.every(({ column, per, lower, upper }) => {
              const x = value(column) / (per === undefined ? 1 : value(per));
              return x >= lower * (1 - 1e-12) && x <= upper * (1 + 1e-12);
            });
            // A row that is exempt holds whatever its value.
            if (bounds.every(({ unless }) => unless === undefined))
              expect(holds, `${provision.id} ${limit.holds} row ${String(i)}`).toBe(within);
            else if (within)
              expect(holds, `${provision.id} ${limit.holds} row ${String(i)}`).toBe(true);
          });
        }
      }
    },
  );
});

/** Conditions that consist of bounds on columns alone: no option and no step beside them. */
function isWhole(holds: string): boolean {
  return !/cover_ratio|K_tr|c_min|f_y_grade/.test(holds);
}
