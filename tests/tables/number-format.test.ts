import { describe, expect, it } from "vitest";
import {
  NUMBER_FORMATS,
  numberFormat,
} from "../../kernel-lib/src/tables/workbook-file/number-format";

const shown = (value: number): string =>
  NUMBER_FORMATS[numberFormat(value)]!.replace(/^.*far";/, "");

describe("how a workbook shows its numbers", () => {
  it("shows short numbers as they are and long ones to six digits", () => {
    expect([0, 7.5, 1e150, 200, 7.500000000000001].map(shown)).toEqual(
      Array.from({ length: 5 }, () => "General"),
    );
    expect(
      [1087.78303297657, 0.9549823, 63799.4637777421, 1234567.89, 0.00012345678].map(shown),
    ).toEqual(["0.00", "0.000000", "0.0", "0", "0.000000000"]);
    expect(shown(1.23456789e-12)).toBe("0.0E+00");
  });
  it("says far beyond every length", () => {
    expect(NUMBER_FORMATS[0]).toContain('[>=1E+100]"far"');
  });
});
