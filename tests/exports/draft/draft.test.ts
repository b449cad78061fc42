import { describe, expect, it } from "vitest";
import { conditionWords, draftText } from "../../../kernel-lib/src/exports/draft";
import { type Addition, type Restriction } from "../../../kernel-lib/src/proposals";
import { step } from "../../../kernel-lib/src/provisions";
import { expectCaution, expectLine } from "../../says";
import { change, draft, present, proposal, tests } from "./drafted-case";

describe("conditionWords", () => {
  const provision = present.provisions.find(({ id }) => id === proposal.changes)!;
  it.each([
    ["frp == 1", "the bar is FRP of any fiber"],
    ["d_a <= 0.75", "the bar diameter d_a is at most 0.75 in."],
    [
      "gfrp == 1 && (ribbed == 1 || plain == 1)",
      "the bar is glass FRP and either the surface is ribbed or the surface is plain",
    ],
    ["cracked == 0", "it is not so that the concrete was cracked"],
    ["h_ef / d_a > 10", "h_ef / d_a > 10"],
  ])("%s", (condition, expected) => {
    expect(conditionWords(condition, present, provision)).toBe(expected);
  });
});

describe("draftText", () => {
  const text = draft.toText();
  it("strikes the present equation and underlines the new one with the factor", () => {
    expect(text).toMatch(/\[-N_ag = [^\]]*N_ba-\]/);
    expect(text).toMatch(/\[\+N_ag = ψ_FRP,Na × [^\]]*N_ba\+\]/);
    expect(text).toContain(
      "[+ψ_FRP,Na shall be taken as 0.6 where the bar is FRP of any fiber and the bar diameter d_a is at most 0.75 in. and as 1.0 otherwise.+]",
    );
    expectLine(text, "bar diameter", "10", "19 mm");
    expectLine(text, /^\W*ψ_FRP,Na =/, "FRP", "bond", "new");
    expectCaution(text);
  });
  it("is text that an editor can take over: clause, both equations, sub-clause, units beside", () => {
    expect(text).toMatch(/^17\.6\.5  Bond strength of adhesive anchors in tension$/m);
    expect(text.match(/Equation \([\w.]+\)/g)).toEqual([
      "Equation (17.6.5.1a)",
      "Equation (17.6.5.1b)",
    ]);
    // A single anchor has no eccentricity; the order of the factors is that of the edition.
    expect(text).toMatch(/\[\+N_a = ψ_FRP,Na × \(A_Na \/ A_Nao\) × ψ_ed,Na × ψ_cp,Na × N_ba\+\]/);
    expect(text).toContain("[+17.6.5.6 Factor ψ_FRP,Na+]");
    expectLine(text, "Metric edition", "diameter", "at most 19.05 mm");
    expectLine(text, "use the changed one", "17.7.3");
    // 0.75 in. is 19.05 mm, exactly.
    expect(text).not.toMatch(/\brows\b|equation given here|removed from/);
    for (const clause of text.match(/^\d[\d.]+\d(?=  )/gm) ?? [])
      expect(text.split(`\n${clause}  `).length, clause).toBeLessThanOrEqual(2);
  });
  it("edge breakout: the equation of the edition, no option of the library, each clause once", () => {
    const edge = draftText(
      {
        ...proposal,
        changes: "aci318-19/17.7.2",
        alsoChanges: ["aci318-19/17.7.2.1(c)-edge2", "aci318-19/17.7.2.1(c)-edge4"],
        symbol: "psi_FRP_V",
      },
      { code: present },
    ).toText();
    expect(edge).toContain(
      "[+V_cbg = ψ_FRP,V × (A_Vc / A_Vco) × ψ_ec,V × ψ_ed,V × ψ_c,V × ψ_h,V × V_b+]",
    );
    expect(edge).not.toMatch(/rows|V_row/);
    expect(edge.match(/17\.7\.2\.1\(c\)/g)).toHaveLength(1);
  });
  it("limits are what the tests cover, in the units of the edition with the metric ones beside", () => {
    const limits = draftText(proposal, { code: present, change, tests }).values["limits"]!;
    const { bar_diameter_mm: d, concrete_strength_MPa: f } = tests.row(0);
    expect(limits).toContain(
      `d_a ${Number((d / 25.4).toPrecision(3))} in. (${Number(d.toPrecision(3))} mm)`,
    );
    // 1 MPa = 145.0377 psi.
    expect(limits).toContain(
      `f'c ${Number((f * 145.0377).toPrecision(3)).toLocaleString("en-US")} psi`,
    );
    for (const words of ["h_ef / d_a", "single bars only", "concrete only"])
      expect(limits).toContain(words);
  });
  it("a factor for each class of one clause is one text", () => {
    const both = draftText(
      [
        { ...proposal, symbol: "psi_gfrp", where: "gfrp == 1" },
        { ...proposal, symbol: "psi_bfrp", where: "bfrp == 1", factor: "0.5" },
      ],
      { code: present, change },
    ).toText();
    expect(both.match(/\[\+N_ag = /g)).toHaveLength(1);
    expect(both).toMatch(/ψ_gfrp shall be taken as 0\.6 .* ψ_bfrp shall be taken as 0\.5 /);
    expect(() =>
      draftText([proposal, { ...proposal, changes: "aci318-19/17.7.3" }], { code: present }),
    ).toThrow("A draft is of one provision");
  });
  it("takes the numbers of the commentary from the comparison", () => {
    const glass = change.groups.find(
      ({ by }) => by["mode"] === "bond" && by["bar_material"] === "gfrp",
    )!;
    expect(draft.values).toMatchObject({
      groups: "1",
      n: "5",
      least_before: glass.before.lower!.toFixed(3),
      least_after: glass.after.lower!.toFixed(3),
      mean_after: glass.after.mean!.toFixed(2),
      factor: "0.6",
    });
    expect(text).toContain(glass.after.lower!.toFixed(3));
    expect(text).not.toContain("steel  ");
  });
  it("says by which criterion a factor is proposed, and marks one that its own tests do not support", () => {
    const of = (supported: boolean): string =>
      draftText(
        { ...proposal, criterion: "as steel", supported },
        { code: present, change },
      ).toText();
    expectLine(of(true), /criterion/i, "as steel");
    expectLine(of(true), /supported/i, "own tests", "yes");
    expectLine(of(false), /supported/i, "own tests", "no");
    expect(text).not.toMatch(/supported|own tests/i);
  });
  it("lets a paragraph be written anew, with numbers by placeholder only, and never the caution", () => {
    const edited = draft.replace("commentary", "We saw {n} bars slip; hence {symbol} is {factor}.");
    expect(edited.toText()).toContain("We saw 5 bars slip; hence ψ_FRP,Na is 0.6.");
    expect(draft.toText()).not.toContain("bars slip");
    expect(() => draft.replace("commentary", "It is 0.6.")).toThrow(
      'holds the typed number "0.6."',
    );
    expect(() => draft.replace("commentary", "It is {wrong}.")).toThrow(
      "The placeholder {wrong} is not known",
    );
    expect(() => draft.replace("commentary", " ")).toThrow("is empty");
    expect(() => draft.replace("caution" as "commentary", "None.")).toThrow(
      "The caution cannot be changed",
    );
  });
  it("drafts a restriction, an addition and a factor that is a formula", () => {
    const restriction: Restriction = {
      kind: "restriction",
      id: "r",
      title: "No FRP",
      changes: "aci318-19/17.6.5",
      where: "frp == 1",
      says: "no tests were made",
      rationale: "No tests.",
      evidence: "no tests",
    };
    expect(draftText(restriction, { code: present }).toText()).toMatch(
      /\[\+[^\]]*shall not [^\]]*the bar is FRP of any fiber[^\]]*no tests were made\.?\+\]/,
    );
    const addition: Addition = {
      kind: "addition",
      id: "a",
      title: "Bar shear",
      says: "The strength of a bar across its fibres.",
      rationale: "Missing.",
      evidence: "5 tests",
      provision: {
        id: "aci318-19/new",
        title: "Bar shear of FRP",
        action: "shear",
        modes: ["bar_shear"],
        confidence: "M",
        levels: ["nominal"],
        limits: [],
        steps: [step("V_b", "A_b * f_v", "force", "proposed", "strength across the fibres")],
        capacity: "V_b",
      },
    };
    expect(draftText(addition, { code: present }).toText()).toMatch(
      /New section: Bar shear of FRP.*\[\+V_b = A_b × f_v\+\]/s,
    );
    expect(
      draftText({ ...proposal, factor: "min(1, 0.9 - 0.2 * d_a)" }, { code: present }).toText(),
    ).toContain("[+ψ_FRP,Na = min(1; 0.9 − 0.2 × d_a)+]");
    expect(() => draftText({ ...proposal, changes: "aci318-19/99" }, { code: present })).toThrow(
      'changes "aci318-19/99"',
    );
  });
});
