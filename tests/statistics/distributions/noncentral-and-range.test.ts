import { describe, expect, it } from "vitest";
import {
  noncentralT,
  studentT,
  studentizedRange,
} from "../../../kernel-lib/src/statistics/distributions";
import { expectRelative } from "../closeness";

describe("noncentral t", () => {
  it("agrees with scipy.stats.nct.cdf, sf", () => {
    for (const [v, d, x, cdf, sf] of [
      [4, 3.678, 7.6, 0.8999073888793191, 0.10009261112068087],
      [9, 5.2, 8.1, 0.8987237779899947, 0.10127622201000534],
      [2, 2.85, 9.2, 0.8999440445205306, 0.1000559554794694],
      [19, -1.5, 0.4, 0.9706791416752998, 0.029320858324700216],
      [49, 11.6, 13.9, 0.9034856831718725, 0.09651431682812753],
      [4, 0, 1.5, 0.896, 0.104],
      [199, 1, -1, 0.022953656172871706, 0.9770463438271283],
    ] as const) {
      expectRelative(noncentralT(v, d).cdf(x), cdf, 1e-11, `${v} ${d} ${x}`); // scipy's own noise is 1e-12
      expectRelative(noncentralT(v, d).upperTail(x), sf, 1e-11, `${v} ${d} ${x}`);
    }
  });
  it("agrees with scipy.stats.nct.ppf", () => {
    for (const [v, d, p, q] of [
      [4, 3.678004, 0.9, 7.6022588855885935],
      [9, 5.201484, 0.75, 6.652381039789179],
      [2, 2.848971, 0.95, 13.260411973831207],
      [29, 9.0093, 0.9, 11.391703546743411],
    ] as const)
      expectRelative(noncentralT(v, d).quantile(p), q, 1e-10, `${v} ${d} ${p}`);
  });
  it("is Student's t where the noncentrality is zero, far into the tail", () => {
    for (const v of [1, 2.5, 6, 40]) {
      for (const t of [-60, -5, 0.3, 12])
        expectRelative(noncentralT(v, 0).cdf(t), studentT(v).cdf(t), 3e-11, `${v} ${t}`);
    }
  });
});

describe("studentised range", () => {
  it("agrees with scipy.stats.studentized_range.sf", () => {
    // scipy integrates to about 1e-11; R's ptukey(20, 5, 2) is 0.9 % off and not used.
    for (const [k, v, q, sf] of [
      [3, 10, 3.8776766, 0.049947978792991954],
      [5, 2, 20, 0.015211926316532898],
      [4, 30, 5, 0.006966833686719909],
      [6, 4.3, 8, 0.02315151608063193],
      [2, 5.5, 4, 0.03302994954249505],
    ] as const)
      expectRelative(studentizedRange(k, v).upperTail(q), sf, 1e-9, `${k} ${v} ${q}`);
  });
  it("is √2 |t| for two groups", () => {
    for (const [v, q] of [
      [5, 4],
      [30, 8],
      [100, 14],
      [7.3, 20],
      [2, 30],
    ] as const) {
      expectRelative(
        studentizedRange(2, v).upperTail(q),
        2 * studentT(v).upperTail(q / Math.SQRT2),
        1e-9,
        `${v} ${q}`,
      );
    }
  });
  it("has the table value q(0.95; 3, 10) = 3.88 (common handbook table)", () => {
    expect(studentizedRange(3, 10).quantile(0.95).toFixed(2)).toBe("3.88");
    expectRelative(
      studentizedRange(3, 1).upperTail(1e3),
      studentizedRange(3, 1).upperTail(1e2) / 10,
      1e-2,
    );
  });
});
