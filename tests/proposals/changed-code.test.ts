import { describe, expect, it } from "vitest";
import {
  applyProposal,
  applyProposals,
  codeBeforeChange,
  FRP_MODES_ACI318,
  oneFactorPerMode,
  proposedJointly,
  usesOfResult,
  type Addition,
  type DerivedFactor,
  type FactorsOfMode,
  type Proposal,
  type Restriction,
} from "../../kernel-lib/src/proposals";
import { code, predict, reasonsAt, step } from "../../kernel-lib/src/provisions";
import { column, randomRows, table } from "../provisions/specimens";

// ACI 318-19, 17.7.3.1: V_cp = k_cp N_cp, where N_cp of adhesive anchors is the lesser of N_a by
// 17.6.5.1 and N_cb by 17.6.2.1 (from memory). EN 1992-4:2018, 7.2.2.4: V_Rk,cp = k_8 min(N_Rk,c,
// N_Rk,p) for bonded anchors (from memory).
const present = code("aci318-19");
// Every other row with a strong adhesive, so that breakout is the lesser as well.
const tests = table(
  ...randomRows(11, 400).map((row, k) =>
    k % 2 === 0
      ? row
      : { ...row, bond_strength_char_MPa: 90, bond_strength_uncracked_char_MPa: 95 },
  ),
);
const factor = (changes: string, value: string, symbol = "psi_new"): Proposal => ({
  id: symbol,
  title: "Trial",
  changes,
  symbol,
  where: "frp == 1",
  factor: value,
  says: `${value} for FRP`,
  rationale: "r",
  derivation: "d",
  evidence: "e",
});
const bond = factor("aci318-19/17.6.5", "0.5", "psi_bond");
const ids = (found: readonly { readonly id: string }[]): string[] => found.map(({ id }) => id);
const provision = (id: string, of = present) => of.provisions.find((one) => one.id === id)!;

describe("a provision that uses the result of another uses the changed one", () => {
  it("names the uses of a code, and takes an alternative form for none", () => {
    const users = (id: string, of = present): string[] => ids(usesOfResult(of, provision(id, of)));
    expect(users("aci318-19/17.6.5")).toEqual(["aci318-19/17.7.3"]);
    expect(users("aci318-19/17.6.2")).toEqual(["aci318-19/17.7.3"]);
    expect(users("aci318-19/17.7.2")).toEqual([]);
    const en = code("en1992-4-2018");
    expect(users("en1992-4-2018/7.2.1.6", en)).toEqual([
      "en1992-4-2018/7.2.1.7-factors",
      "en1992-4-2018/7.2.2.4",
    ]);
  });

  it("bond by a factor: pryout of single bars is k_cp times the lesser of the changed N_a and N_cb", () => {
    const [before, after] = [present, applyProposal(present, bond)].map((one) =>
      predict(one, tests, { level: "nominal" }),
    );
    const of = (id: string, side = before!): Float64Array =>
      column(side, `aci318-19/${id}`).capacity;
    const [n_a, n_cb, old, now] = [of("17.6.5"), of("17.6.2"), of("17.7.3"), of("17.7.3", after)];
    const [material, installation, h_ef] = [
      tests.texts("bar_material"),
      tests.texts("installation"),
      tests.numbers("embedment_mm"),
    ];
    const counts = { changed: 0, breakout: 0, steel: 0 };
    old.forEach((value, i) => {
      if (Number.isNaN(value)) return;
      const { group_nx, group_ny } = tests.row(i);
      if ((group_nx ?? 1) * (group_ny ?? 1) > 1) return;
      const k_cp = (h_ef[i] ?? NaN) < 2.5 * 25.4 ? 1 : 2;
      const bonded = installation[i] === "post_installed";
      const frp = material[i] !== "steel";
      const drawn = bonded ? Math.min((frp ? 0.5 : 1) * n_a[i]!, n_cb[i]!) : n_cb[i]!;
      expect(now[i]! / (k_cp * drawn)).toBeCloseTo(1, 12);
      if (!frp) counts.steel += 1;
      else if (now[i] === value) counts.breakout += 1;
      else counts.changed += 1;
      if (!frp || !bonded) expect(now[i]).toBe(value);
    });
    for (const count of Object.values(counts)) expect(count).toBeGreaterThan(5);
  });

  it("two factors: that of pryout is on what the changed bond gives, in either order", () => {
    const pryout = factor("aci318-19/17.7.3", "0.8", "psi_pry");
    const of = (changes: readonly Proposal[]): Float64Array =>
      column(predict(applyProposals(present, changes), tests), "aci318-19/17.7.3").capacity;
    const [alone, both, turned] = [of([bond]), of([bond, pryout]), of([pryout, bond])];
    const material = tests.texts("bar_material");
    alone.forEach((value, i) => {
      if (Number.isNaN(value)) return;
      expect(both[i]! / value).toBeCloseTo(material[i] === "steel" ? 1 : 0.8, 12);
      expect(Object.is(both[i], turned[i])).toBe(true);
    });
    const base = codeBeforeChange(present, [bond, pryout], 1);
    expect(column(predict(base, tests), "aci318-19/17.7.3").capacity).toEqual(alone);
    expect(codeBeforeChange(present, [bond, pryout], 0)).toBe(present);
  });

  it("one symbol and value in both: each equation holds it once", () => {
    const both = [bond, { ...factor("aci318-19/17.7.3", "0.5", "psi_bond"), id: "second" }];
    const { steps } = provision("aci318-19/17.7.3", applyProposals(present, both));
    expect(steps.filter(({ symbol }) => symbol === "psi_bond")).toHaveLength(1);
    expect(steps.filter(({ formula }) => formula.includes("psi_bond"))).toHaveLength(2);
    expect(() => applyProposals(present, [bond, { ...bond, id: "again" }])).toThrow(
      'introduces the symbol "psi_bond", which aci318-19/17.6.5 already uses',
    );
  });

  it("withdrawn: pryout has no value where it reads the bond strength, and says why", () => {
    const withdrawn: Restriction = {
      kind: "restriction",
      id: "no-frp",
      title: "No FRP",
      changes: "aci318-19/17.6.5",
      where: "frp == 1",
      says: "no FRP bars",
      rationale: "r",
      evidence: "e",
    };
    const after = predict(applyProposal(present, withdrawn), tests);
    const [old, now] = [
      column(predict(present, tests), "aci318-19/17.7.3"),
      column(after, "aci318-19/17.7.3"),
    ];
    const counts = { withheld: 0, kept: 0 };
    old.capacity.forEach((value, i) => {
      if (Number.isNaN(value)) return;
      const { bar_material, installation } = tests.row(i);
      if (bar_material !== "steel" && installation === "post_installed") {
        expect(now.capacity[i]).toBeNaN();
        expect(reasonsAt(after, now, i).map(({ says }) => says)).toContain(
          "it uses N_ag of 17.6.5: no FRP bars",
        );
        counts.withheld += 1;
      } else {
        expect(Object.is(now.capacity[i], value)).toBe(true);
        counts.kept += 1;
      }
    });
    expect(Math.min(counts.withheld, counts.kept)).toBeGreaterThan(10);
  });

  it("a factor that reads a step of its provision takes the step with it", () => {
    const target = provision("aci318-19/17.6.5");
    const slender = step("slender", "h_ef / d_a", "number", "new", "embedment in diameters");
    const own = { ...target, steps: [slender, ...target.steps] };
    const withSlender = {
      ...present,
      provisions: present.provisions.map((one) => (one === target ? own : one)),
    };
    const changed = applyProposal(withSlender, factor(target.id, "if(slender > 8, 0.5, 0.6)"));
    const direct = applyProposal(present, factor(target.id, "if(h_ef / d_a > 8, 0.5, 0.6)"));
    const [found, same] = [changed, direct].map(
      (one) => column(predict(one, tests), "aci318-19/17.7.3").capacity,
    );
    expect(found).toEqual(same);
    expect(
      ids(provision("aci318-19/17.7.3", changed).steps.map(({ symbol }) => ({ id: symbol }))),
    ).toContain("slender");
  });

  it("an added provision uses the changed result too, in whatever order they are named", () => {
    const steps = provision("aci318-19/17.6.5").steps;
    const added: Addition = {
      kind: "addition",
      id: "half",
      title: "Half of bond",
      says: "half",
      rationale: "r",
      evidence: "e",
      provision: {
        ...provision("aci318-19/17.6.5"),
        id: "aci318-19/half",
        steps: [
          ...steps,
          step("N_half", "0.5 * N_ag", "force", "new", "half of the bond strength"),
        ],
        capacity: "N_half",
      },
    };
    for (const order of [
      [added, bond],
      [bond, added],
    ]) {
      const found = predict(applyProposals(present, order), tests);
      const [half, whole] = [column(found, "aci318-19/half"), column(found, "aci318-19/17.6.5")];
      half.capacity.forEach((value, i) => {
        if (!Number.isNaN(value)) expect(value / whole.capacity[i]!).toBeCloseTo(0.5, 12);
      });
    }
  });
});

describe("factors are derived in the order of the references", () => {
  const derivedOf = (mode: string, rounded: number): FactorsOfMode =>
    ({
      mode,
      criterion: "fractile",
      classes: [],
      perClass: [],
      chosen: { rounded, supported: true } as DerivedFactor,
      reading: `${mode}.`,
    }) as unknown as FactorsOfMode;
  const asked: string[] = [];
  const derive = (derived: readonly FactorsOfMode[]): Proposal[] =>
    proposedJointly(
      {
        derived,
        places: {
          pryout: FRP_MODES_ACI318["pryout"]!,
          bond: FRP_MODES_ACI318["bond"]!,
          concrete_edge_breakout: FRP_MODES_ACI318["concrete_edge_breakout"]!,
        },
        code: present,
        deriveOn: (mode, changed) => {
          asked.push(`${mode} on ${changed.title}`);
          return derivedOf(mode, 0.9);
        },
      },
      (some) => oneFactorPerMode(some, FRP_MODES_ACI318),
    );
  it("bond first, then pryout on the changed code; the others keep the present one", () => {
    const found = derive([
      derivedOf("pryout", 0.6),
      derivedOf("bond", 0.7),
      derivedOf("concrete_edge_breakout", 0.65),
    ]);
    expect(found.map(({ changes, factor: value }) => [changes, value])).toEqual([
      ["aci318-19/17.7.3", "0.9"],
      ["aci318-19/17.6.5", "0.7"],
      ["aci318-19/17.7.2", "0.65"],
    ]);
    expect(asked).toEqual([expect.stringMatching(/^pryout on .*with proposal frp-bond$/)]);
    expect(found[0]!.derivation).toMatch(/changed code \(psi_FRP_Na = 0\.7\)/);
  });
  it("without a factor on bond, pryout keeps that of the present code", () => {
    asked.length = 0;
    const found = derive([derivedOf("pryout", 0.6), derivedOf("bond", 1)]);
    expect(found.map(({ factor: value }) => value)).toEqual(["0.6"]);
    expect(asked).toEqual([]);
  });
});
