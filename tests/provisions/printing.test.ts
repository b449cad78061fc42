import { describe, expect, it } from "vitest";
import {
  CALCULATION_CAUTION,
  calculation,
  CODES,
  handCalculationText,
  inputKey,
} from "../../kernel-lib/src/provisions";
import { inch } from "./specimens";
import { expectCaution, expectLine, expectSaid } from "../says";
import { traced } from "./traced";

describe("hand calculation as text", () => {
  const text = handCalculationText(traced("aci318-19/17.6.2", { edge_1_mm: inch(4) }), {
    test: "t0",
    governing: "Governing: bond.",
  });

  it("shows each step as symbol, formula, numbers and value in both units, with clause and meaning", () => {
    expect(text).toMatch(
      /^Concrete breakout strength in tension: test t0\n=+\nACI 318-19 Chapter 17/,
    );
    expect(text).toMatch(/h_ef +=\s6 in\. \(152\.4 mm\) {3}embedment depth/);
    expect(text).toMatch(/c_2 += ∞ in\. {3}distance to edge 2/);
    expect(text.replace(/\n +/g, " ")).toMatch(
      /ψ_ed,N += 0\.7 \+ 0\.3 × c_a,min \/ \(1\.5 × h'_ef\) = 0\.7 \+ 0\.3 × 4 \/ \(1\.5 × 6\) = 0\.833333 +\[17\.6\.2\.4\.1\] edge factor, since c_a,min < 1\.5 × h'_ef/,
    );
    expect(text).toMatch(
      /= 9510\.33 lb \(42\.304 kN\) {3}\[17\.6\.2\.1\] nominal breakout strength/,
    );
    expect(text).toContain("Capacity: 9510.33 lb (42.304 kN).");
  });

  it("shows the case that was taken and nothing of the others", () => {
    expect(text).toMatch(/f_c,used += min\(f'c; 8000\) = min\(4000; 8000\) = 4000 psi/);
    expect(text).toMatch(/k_c += 17 +\[17\.6\.2\.2\.1\]/);
    expect(text).not.toMatch(/\belse\b|10000|product_k_c >/);
    // The largest of the near edges and the 5/3-power form concern other rows.
    expect(text).not.toMatch(/c_far|\bdeep\b +=/);
    const corner = handCalculationText(
      traced("aci318-19/17.6.2", { edge_1_mm: inch(4), edge_2_mm: inch(4), edge_3_mm: inch(5) }),
    );
    expect(corner).toMatch(/c_far +=/);
    // An input that is missing decides nothing, so both cases stay.
    const undecided = handCalculationText(traced("aci318-19/17.6.2", { cracked: null }));
    expect(undecided.replace(/\n +/g, " ")).toMatch(
      /ψ_c,N += 1 if cracked = 1, else 1\.4 = 1 if missing = 1, else 1\.4/,
    );
    for (const words of [text, undecided])
      for (const line of words.split("\n")) expect(line.length, line).toBeLessThanOrEqual(112);
  });

  it("shows the bond stress of the table only where it is used", () => {
    const own = handCalculationText(traced("aci318-19/17.6.5", { edge_1_mm: inch(4) }));
    expect(own).not.toMatch(/table bond stress|seismic|s_cr,Na/);
    expect(own).toMatch(/Options at their defaults: .*bond_table = 0/);
    const ofTable = handCalculationText(
      traced("aci318-19/17.6.5", { edge_1_mm: inch(4) }, { options: { bond_table: 1 } }),
    );
    expect(ofTable).toMatch(/τ_cr,table +=/);
    expect(ofTable).not.toMatch(/^ +τ_k +=/m);
    // Bars of a group act together up to the critical spacing, which then belongs on the sheet.
    expect(
      handCalculationText(traced("aci318-19/17.6.5", { group_ny: 2, spacing_y_mm: inch(4) })),
    ).toMatch(/s_cr,Na +=/);
  });

  it("writes one symbol in formula and meaning, also for the edges beside the load", () => {
    const beside = CODES.flatMap(({ provisions }) =>
      provisions
        .filter(({ id }) => id.endsWith("edge2"))
        .flatMap(({ steps }) => steps.filter(({ meaning }) => /1\.5 c_\d/.test(meaning))),
    );
    expect(beside).not.toHaveLength(0);
    for (const { formula, meaning } of beside) {
      expect(formula).toContain("1.5 * c_2");
      expect(meaning).toContain("1.5 c_2");
    }
    // Every symbol with a number or side in a meaning stands in the formula it explains, or names a
    // result by it.
    for (const each of CODES)
      for (const { id, steps } of each.provisions)
        for (const { symbol, formula, meaning } of steps) {
          for (const [named] of meaning.matchAll(/\bc_[1-4]\b/g))
            expect(`${symbol} ${formula}`, `${id} ${symbol}`).toContain(named);
        }
  });

  it("writes symbols in its sentences as in its formulas", () => {
    expect(
      handCalculationText(traced("aci318-19/17.6.2", {}, { options: { product_k_c: 20 } })).replace(
        /\n +/g,
        " ",
      ),
    ).toContain("ψ_c,N is then 1");
    expect(text).not.toMatch(/\b(?:psi|lambda)_/);
  });

  it("lists the limits with a verdict, what governs, and the caution", () => {
    expectLine(
      text.replace(/\n +/g, " "),
      /\bholds: /,
      "h_ef ≥ 4 × d_a and h_ef ≤ 20 × d_a",
      /17\.3\.3/,
    );
    expect(text).toContain("Governing: bond.");
    expect(text.replace(/\s+/g, " ").endsWith(` ${CALCULATION_CAUTION}`)).toBe(true);
    expectCaution(CALCULATION_CAUTION);
    expectSaid(CALCULATION_CAUTION, /research use only/i, /\bno design\b|\bnot (for )?design\b/i);
    const withheld = handCalculationText(traced("aci318-19/17.6.2", { installation: "cast_in" }));
    expectLine(
      withheld.replace(/\n +/g, " "),
      /\bdoes not hold: /,
      /straight cast-in bar/,
      "post_installed = 1 or headed_cast_in = 1",
    );
    expectSaid(withheld, /no capacity/i);
  });

  it("writes a condition as 1 or 0 with its answer in words, and leaves out what only the design value needs", () => {
    const thin = handCalculationText(
      traced("aci318-19/17.7.2", {
        action: "shear",
        setup: "direct_shear",
        edge_1_mm: inch(5),
        edge_2_mm: inch(6),
        member_thickness_mm: inch(6),
      }),
    );
    expect(thin.replace(/\n +/g, " ")).toMatch(
      /thin_and_narrow += 1 if c_2 < 1\.5 × c_1 and .*, else 0 = .* = no \S*/,
    );
    expect(thin).toMatch(/cracked += yes {3}the concrete was cracked/);
    expect(text).not.toContain("installation_category");
    expect(handCalculationText(traced("aci318-19/17.6.2", {}, { level: "design" }))).toContain(
      "installation_category = 1",
    );
  });

  it("lists an input of several calculations once, and the caution where it is wanted", () => {
    const first = calculation(traced("aci318-19/17.6.2", { edge_1_mm: inch(4) }));
    const listed = new Set(first.parts.flatMap(({ inputs }) => inputs.map(inputKey)));
    const [second] = calculation(traced("aci318-19/17.6.5", { edge_1_mm: inch(4) }), {
      listed,
      caution: false,
    }).parts;
    expect(second?.inputs.map(({ symbol }) => symbol)).toEqual(["τ_k", "τ_uncr,stated", "τ_uncr"]);
    expect(second?.asAbove).toContain("c_1");
    const short = handCalculationText(traced("aci318-19/17.6.5", { edge_1_mm: inch(4) }), {
      listed,
      caution: false,
    });
    expect(short).toMatch(/Inputs as above: .*h_ef/);
    expect(short.replace(/\s+/g, " ")).not.toContain(CALCULATION_CAUTION);
    // Another value of the same input is listed again.
    expect(
      calculation(traced("aci318-19/17.6.5", { edge_1_mm: inch(3) }), {
        listed,
      }).parts[0]?.inputs.map(({ symbol }) => symbol),
    ).toContain("c_1");
  });

  it("shows the parts of a group that does not act together, and their sum", () => {
    const group = handCalculationText(
      traced("aci318-19/17.6.2", { group_ny: 2, spacing_y_mm: inch(20) }),
    );
    expect(group).toContain("Part 2 of 2: row 2 along");
    expectLine(group, "sum", "2 parts", "31603.5 lb");
  });

  it("shows the reduction at design level", () => {
    const design = handCalculationText(
      traced("aci318-19/17.6.2", { edge_1_mm: inch(4) }, { level: "design" }),
    );
    expect(design).toMatch(/φ × N_cbg = 0\.65 × 9510\.33/);
    expect(design).toContain("Design capacity: 6181.71 lb");
  });
});
