import { beforeAll, describe, expect, it } from "vitest";
import { compare, groupRatios } from "../../../kernel-lib/src/comparison";
import { sheetRows } from "../../../kernel-lib/src/dataset";
import {
  handCheckSheets,
  handCheckWorkbook,
  handChecksOf,
  liveFormula,
  typicalEvidence,
  type HandCheck,
} from "../../../kernel-lib/src/exports/workbook";
import { parseFormula } from "../../../kernel-lib/src/formula";
import { code, CODES, predict, trace, type Level } from "../../../kernel-lib/src/provisions";
import { workbookBytes, type Cell, type Sheet } from "../../../kernel-lib/src/tables";
import { randomRows, table } from "../../provisions/specimens";
import { allThroughOffice, officeAbsent, throughOffice } from "../recalculated";

const caution = "Research use only.";
const XLSX = "xlsx:Calc MS Excel 2007 XML";
const [VALUE, LIBRARY, READING] = [4, 6, 8];

/**
 * For each provision and level of each code some specimens that it applies to: single bars and
 * groups, materials mixed.
 */
function checksOfEveryCode(): HandCheck[] {
  const tests = table(...randomRows(7, 400).map((row) => ({ ...row, bond_strength_mean_MPa: 12 })));
  return CODES.flatMap((of) =>
    (["expected", "nominal", "design"] as Level[]).flatMap((level) => {
      const prediction = predict(of, tests, { level });
      return prediction.columns.flatMap(({ provision, capacity }) => {
        const applies = Array.from(capacity.keys()).filter(
          (i) => Number.isFinite(capacity[i]) && (capacity[i] ?? 0) > 0,
        );
        const groups = applies.filter(
          (i) => tests.number(i, "group_nx") * tests.number(i, "group_ny") > 2,
        );
        return [...new Set([...applies.slice(0, 1), ...groups.slice(0, 1)])].map((i) => ({
          test: `t${i} ${level}`,
          load: 50,
          trace: trace(of, provision, tests, i, { level }),
        }));
      });
    }),
  );
}

describe("live formulas", () => {
  const cell = (name: string): string => name.toUpperCase();
  it("look only at what decides, and count truth as 1", () => {
    expect(liveFormula(parseFormula("a == 1 || b > 2"), cell)).toBe("IF((A=1),1,IF((B>2),1,0))");
    expect(liveFormula(parseFormula("if(a == 1 && b > 2, 3, pi)"), cell)).toBe(
      "IF(IF((A=1),IF((B>2),1,0),0),3,PI())",
    );
    expect(liveFormula(parseFormula("(a > 1) * 2"), cell)).toBe("(IF((A>1),1,0)*2)");
  });
});

describe("the hand-check workbook", () => {
  const checks = checksOfEveryCode();
  const content = { title: "Hand check", caution, checks };
  it("has a calculation for every code and repeats to the byte", () => {
    expect([...new Set(checks.map((check) => check.trace.code.id))].sort()).toEqual(
      CODES.map(({ id }) => id).sort(),
    );
    expect(
      Buffer.from(handCheckWorkbook(content)).equals(Buffer.from(handCheckWorkbook(content))),
    ).toBe(true);
  });
  it("refuses a test that the provision does not apply to", () => {
    const tests = table({ edge_1_mm: null, bond_strength_char_MPa: null });
    const bond = code("aci318-19").provisions.find(({ id }) => id === "aci318-19/17.6.5")!;
    expect(() =>
      handCheckWorkbook({
        ...content,
        checks: [{ test: "t0", load: 1, trace: trace(code("aci318-19"), bond, tests, 0) }],
      }),
    ).toThrow("gives no capacity for t0");
  });

  describe.skipIf(officeAbsent)("recalculated by LibreOffice", () => {
    const sheets = handCheckSheets(content);
    let bytes: Uint8Array;
    // No saved value is left, so every number that comes back was computed from the formulas.
    beforeAll(() => {
      bytes = throughOffice(workbookBytes("t", sheets.map(withoutSavedValues)), "xlsx", XLSX);
    }, 400_000);
    it.each(
      checks.map(
        (check, n) =>
          [`${check.trace.code.id} ${check.trace.provision.id} ${check.test}`, n] as const,
      ),
    )("%s agrees to 1e-9", (_, n) => {
      const sheet = sheets[n + 1]!;
      const { rows } = sheetRows(bytes, sheet.name);
      const check = checks[n]!;
      const lines = [
        ...check.trace.parts
          .flatMap((part) => [...part.inputs, ...part.steps])
          .map(({ value }) => value),
        check.trace.capacity_N / 1000,
        check.load,
        check.load / (check.trace.capacity_N / 1000),
        1,
        check.trace.capacity_N / 1000,
        check.load / (check.trace.capacity_N / 1000),
      ];
      const states = ["holds", "fails", "not judged"];
      const compared = sheet.rows.flatMap((cells, r) => {
        const library = cells[LIBRARY];
        return r >= 7 && (typeof library === "number" || typeof library === "string") ? [r] : [];
      });
      const limits = compared.filter((r) => states.includes(sheet.rows[r]![LIBRARY] as string));
      const given = compared.filter((r) => !limits.includes(r));
      for (const r of limits)
        expect(rows[r]![VALUE], rows[r]!.join(" | ")).toBe(sheet.rows[r]![LIBRARY]);
      expect(limits).toHaveLength(
        check.trace.parts.reduce((sum, part) => sum + part.limits.length, 0),
      );
      expect(given.length).toBe(lines.length);
      given.forEach((r, k) => {
        const expected = lines[k]!;
        if (!Number.isFinite(expected)) return;
        const found = Number(rows[r]![VALUE]);
        if (Math.abs(expected) > 1e70) expect(found).toBeGreaterThan(1e70);
        else
          expect(
            Math.abs(found - expected),
            `row ${r + 1}: ${rows[r]!.join(" | ")}; expected ${expected}`,
          ).toBeLessThanOrEqual(1e-9 * Math.abs(expected));
        expect(rows[r]![READING]).toBe("agrees");
      });
    });
  });
});

describe.skipIf(officeAbsent)("groups recomputed by LibreOffice", () => {
  const tests = table(
    ...[48, 55, 61, 44, 52, 58].map((peak_load_kN) => ({ peak_load_kN })),
    { peak_load_kN: 70, bar_material: "cfrp" as const },
    { peak_load_kN: 77, bar_material: "cfrp" as const },
  );
  const all = compare(tests, code("aci318-19"), {});
  const comparison = { ...all, evidence: all.evidence.filter(({ mode }) => mode === "bond") };
  const distributions = ["normal", "lognormal"] as const;
  const groupsBy = (distribution: (typeof distributions)[number]) =>
    groupRatios(comparison, ["bar_material"], { distribution });
  let groupSheets: (readonly (readonly string[])[])[];
  // One start of LibreOffice for both.
  beforeAll(() => {
    const workbooks = distributions.map((distribution) => {
      const of = groupsBy(distribution);
      const sheets = handCheckSheets({
        title: "t",
        caution,
        checks: handChecksOf(comparison, typicalEvidence(of)),
        groups: { comparison, of },
      });
      return workbookBytes("t", sheets.map(withoutSavedValues));
    });
    groupSheets = allThroughOffice(workbooks, "xlsx", XLSX).map((bytes) =>
      sheetRows(bytes, "Groups").rows.map((row) => [...row]),
    );
  }, 120_000);
  for (const [n, distribution] of distributions.entries()) {
    it(`mean, SD, K and characteristic ratio agree with the library, ${distribution}`, () => {
      const of = groupsBy(distribution);
      const rows = groupSheets[n] ?? [];
      const values = (name: string): number[] =>
        rows.filter((row) => row[1] === name).map((row) => Number(row[4]));
      const gfrp = of.find(({ by }) => by["bar_material"] === "gfrp")!;
      const cfrp = of.find(({ by }) => by["bar_material"] === "cfrp")!;
      expect(values("n")).toEqual([2, 6]);
      for (const [name, two, six] of [
        ["mean", cfrp.mean, gfrp.mean],
        ["SD", cfrp.sd, gfrp.sd],
        ["mean − 3 SD", cfrp.meanMinus3Sd, gfrp.meanMinus3Sd],
      ] as const) {
        expect(Math.abs(values(name)[0]! / two! - 1)).toBeLessThan(1e-9);
        expect(Math.abs(values(name)[1]! / six! - 1)).toBeLessThan(1e-9);
      }
      // Natrella (1963), Table A-7, and Owen (1963): K for n = 6, 95 % above at 90 % confidence is
      // 3.091 (from memory; scipy nct.ppf(0.9, 5, z*sqrt(6))/sqrt(6) = 3.0919).
      expect(values("K at 90 %, from the table")[0]).toBeCloseTo(3.092, 2);
      // R: qt(c(0.5, 0.1), 5, qnorm(0.95) * sqrt(6)) / sqrt(6) = 1.750462 and 1.028219
      expect(values("K at 50 %, from the table")[0]).toBeCloseTo(1.750462, 5);
      expect(values("K at 10 %, from the table")[0]).toBeCloseTo(1.028219, 5);
      for (const [name, value] of [
        ["r_k, as tested (lower bound of the 5 % fractile)", gfrp.asTested.lower],
        ["5 % fractile, as tested (median estimate)", gfrp.asTested.fractile],
        ["upper bound, as tested", gfrp.asTested.upper],
      ] as const) {
        expect(values(name)).toHaveLength(1);
        expect(Math.abs(values(name)[0]! / value! - 1)).toBeLessThan(1e-9);
      }
      expect(
        rows
          .filter((row) => row[1] === "verdict, as tested")
          .map((row) => [row[4], row[5], row[6]]),
      ).toEqual([[gfrp.asTested.verdict, gfrp.asTested.verdict, "agrees"]]);
      // The verdict in general stands beside it in words of the library, and says that no formula
      // gives it.
      expect(
        rows.filter((row) =>
          row[1]?.startsWith(`Verdict in general, from the library: ${gfrp.verdict}; `),
        ),
      ).toHaveLength(of.filter(({ verdict }) => verdict === gfrp.verdict).length);
    });
  }

  it("the verdict as tested follows the ratios: meets, falls short and undecided", () => {
    const base = groupRatios(comparison, ["bar_material"]).find(
      ({ by }) => by["bar_material"] === "gfrp",
    )!;
    const of = [2, 0.9, 1.25].map((target) => {
      const evidence = base.evidence.map((one) => ({
        ...one,
        load: (one.load * target) / base.mean!,
        ratio: (one.ratio * target) / base.mean!,
      }));
      return groupRatios({ ...comparison, evidence }, ["bar_material"])[0]!;
    });
    const sheets = handCheckSheets({ title: "t", caution, checks: [], groups: { comparison, of } });
    const { rows } = sheetRows(
      throughOffice(
        workbookBytes("t", sheets.map(withoutSavedValues)),
        "xlsx",
        "xlsx:Calc MS Excel 2007 XML",
      ),
      "Groups",
    );
    const words = rows
      .filter((cells) => cells[1] === "verdict, as tested")
      .map((cells) => cells[4]);
    expect(words).toEqual(of.map(({ asTested }) => asTested.verdict));
    expect(words).toEqual(["meets", "falls short", "undecided"]);
  });

  it("a changed input moves the steps, the ratio and its group", () => {
    const of = groupRatios(comparison, ["bar_material"]);
    const [evidence] = typicalEvidence(of.filter(({ by }) => by["bar_material"] === "gfrp"));
    const sheets = handCheckSheets({
      title: "t",
      caution,
      checks: handChecksOf(comparison, [evidence!]),
      groups: { comparison, of },
    });
    const last = sheets.length - 1;
    // Bond strength is proportional to the bonded length when no edge is near: 20 % more of it, 20
    // % more capacity.
    const changed = sheets.map((sheet, n) =>
      n === last
        ? {
            ...sheet,
            rows: sheet.rows.map((cells) =>
              cells[0] === "h_ef"
                ? cells.map((cell, c) =>
                    c === VALUE
                      ? {
                          value: Number((cell as { value: number }).value) * 1.2,
                          look: "input" as const,
                        }
                      : cell,
                  )
                : cells,
            ),
          }
        : sheet,
    );
    const read = (bytes: Uint8Array): { ratio: number; group: number; reading: string } => {
      const result = sheetRows(bytes, sheets[last]!.name).rows.find((row) => row[0] === "ratio")!;
      const groups = sheetRows(bytes, "Groups").rows;
      const at = groups.findIndex((row) => row[0]?.toLowerCase() === "gfrp");
      return {
        ratio: Number(result[VALUE]),
        group: Number(groups.slice(at).find((row) => row[1] === "mean")![VALUE]),
        reading: result[READING]!,
      };
    };
    const both = [sheets, changed].map((all) => workbookBytes("t", all.map(withoutSavedValues)));
    const [before, after] = allThroughOffice(both, "xlsx", XLSX).map(read) as [
      ReturnType<typeof read>,
      ReturnType<typeof read>,
    ];
    expect(before.reading).toBe("agrees");
    expect(after.reading).toBe("differs");
    expect(after.ratio * 1.2).toBeCloseTo(before.ratio, 9);
    expect(before.group - after.group).toBeCloseTo((before.ratio - after.ratio) / 6, 9);
  });
});

function withoutSavedValues(sheet: Sheet): Sheet {
  const bare = (cell: Cell): Cell =>
    typeof cell === "object" && cell !== null && cell.formula !== undefined
      ? { ...cell, value: null }
      : cell;
  return { ...sheet, rows: sheet.rows.map((cells) => cells.map(bare)) };
}
