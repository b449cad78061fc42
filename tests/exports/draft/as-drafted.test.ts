import { describe, expect, it } from "vitest";
import { compare } from "../../../kernel-lib/src/comparison";
import { evaluate, holds, parseFormula, symbolsOf } from "../../../kernel-lib/src/formula";
import { draftText } from "../../../kernel-lib/src/exports/draft";
import {
  applyProposals,
  changedProvisions,
  type ProposedChange,
} from "../../../kernel-lib/src/proposals";
import { predict, trace, type ProvisionDefinition } from "../../../kernel-lib/src/provisions";
import { draftedEquations, draftedFactor, type DraftedEquation } from "./drafted-equations";
import { addition, bond, present, provision, shapes, tests } from "./drafted-shapes";

// The law of this file: who reads the printed text and computes by hand what it says gets the
// capacities that the proposal was evaluated with, to the last bit. The reader below knows the
// present code and the text, and nothing of how a proposal is applied.

/** What a draft of each changed provision says. */
interface Drafted {
  readonly equations: readonly DraftedEquation[];
  readonly text: string;
  readonly changes: readonly ProposedChange[];
}

function draftsOf(changes: readonly ProposedChange[]): Drafted[] {
  const ids = [...new Set(changes.map((one) => changedProvisions(one)[0]))];
  return ids.map((id) => {
    const own = changes.filter((one) => changedProvisions(one)[0] === id);
    const text = draftText(own, { code: present }).toText();
    const names = [
      ...present.provisions.flatMap(({ steps }) => steps.map(({ symbol }) => symbol)),
      ...addition.provision.steps.flatMap(({ symbol, formula }) => [
        symbol,
        ...symbolsOf(parseFormula(formula)),
      ]),
      ...changes.flatMap((one) => ("symbol" in one ? [one.symbol] : [])),
      ...["d_a", "h_ef", "k_cp", "N_a", "N_cb", "V_cb", "V_cp", "N_cp"],
    ];
    return { equations: draftedEquations(text, names), text, changes: own };
  });
}

/**
 * The capacity by the texts, in N, of a row: the steps of the present provision by hand, in which an
 * equation that a text prints new replaces the present one wherever its result stands.
 */
function byHand(target: ProvisionDefinition, drafts: readonly Drafted[], row: number): number {
  const equations = new Map(
    drafts.flatMap((one) =>
      one.equations.map(({ symbol, expression }) => [symbol, expression] as const),
    ),
  );
  const factors = drafts.flatMap(({ changes, text }) =>
    changes.flatMap((one) => ("symbol" in one ? [{ ...one, text }] : [])),
  );
  const parts = trace(present, target, tests, row).parts;
  let sum = 0;
  for (const { inputs, steps } of parts) {
    const values = new Map(inputs.map(({ symbol, value }) => [symbol, value]));
    const read = (name: string): number =>
      name === "pi" ? Math.PI : (values.get(name) ?? inputOf(name, row));
    for (const { symbol, expression, value } of steps) {
      const drafted = equations.get(symbol);
      if (drafted && expression) {
        for (const one of factors) {
          const applies = holds(evaluate(parseFormula(one.where), read));
          const printed = equations.get(one.symbol);
          const number = printed ? evaluate(printed, read) : draftedFactor(one.text, one.symbol)!;
          values.set(one.symbol, applies ? number : 1);
        }
        values.set(symbol, evaluate(drafted, read));
      } else if (expression && drafts.some(({ equations: some }) => some.length > 0))
        values.set(symbol, evaluate(expression, read));
      else values.set(symbol, value);
    }
    sum += values.get(target.capacity) ?? NaN;
  }
  // 17.7.2.1(c), from memory: twice the value by equation (a) or (b).
  const times = target.id.includes("17.7.2.1(c)") ? 2 : 1;
  return times * sum * present.system.inSi.force;
}

/** Inputs that only a condition reads, from the row itself. */
function inputOf(name: string, row: number): number {
  const material = tests.text(row, "bar_material");
  if (name === "frp") return material === "steel" ? 0 : 1;
  if (name === "gfrp" || name === "bfrp") return material === name ? 1 : 0;
  if (name === "d_a") return (tests.numbers("bar_diameter_mm")[row] ?? NaN) / 25.4;
  if (name === "f_v")
    return (
      (tests.numbers("bar_shear_strength_specified_MPa")[row] ?? NaN) / present.system.inSi.stress
    );
  throw new Error(`The reader does not know ${name}.`);
}

describe("what is drafted is what is evaluated, bit for bit", () => {
  it.each(shapes)("%s", (_, changes, concerned) => {
    const changed = applyProposals(present, changes);
    const [before, after] = [present, changed].map((one) => predict(one, tests));
    const drafts = draftsOf(changes);
    const counts = { moved: 0, same: 0 };
    for (const { provision: target, capacity } of after!.columns) {
      const old = before!.columns.find((one) => one.provision.id === target.id)?.capacity;
      const clause = target.id.slice("aci318-19/".length);
      if (!concerned.includes(clause)) {
        // Nothing else moves by a bit.
        expect(capacity, clause).toEqual(old);
        continue;
      }
      for (let row = 0; row < tests.length; row++) {
        const was = old?.[row] ?? NaN;
        if (old && Number.isNaN(was)) {
          expect(capacity[row]).toBeNaN();
          continue;
        }
        const said = old
          ? saidOf(provision(clause), drafts, row)
          : saidOfNew(drafts, row, capacity[row]!);
        if (!Object.is(said, capacity[row]))
          expect.fail(`${clause}, row ${row}: text ${said}, evaluated ${capacity[row]}`);
        if (Object.is(said, was) || Number.isNaN(said)) counts.same += 1;
        else counts.moved += 1;
      }
    }
    expect(counts.same).toBeGreaterThan(50);
    if (!changes.some((one) => "kind" in one && one.kind === "restriction"))
      expect(counts.moved).toBeGreaterThan(50);
  });

  /** The capacity by the texts; none where a text withdraws it or a result it reads. */
  function saidOf(target: ProvisionDefinition, drafts: readonly Drafted[], row: number): number {
    for (const { changes, text } of drafts) {
      const [one] = changes;
      if (!one || !("kind" in one) || one.kind !== "restriction") continue;
      expect(text).toMatch(/shall not be used where the bar is basalt FRP/);
      const withdrawn = tests.text(row, "bar_material") === "bfrp";
      const reads =
        target.id === one.changes || tests.text(row, "installation") === "post_installed";
      if (withdrawn && reads) return NaN;
    }
    return byHand(target, drafts, row);
  }

  /** Of a new provision the text is all there is. */
  function saidOfNew(drafts: readonly Drafted[], row: number, evaluated: number): number {
    if (tests.text(row, "bar_material") === "steel") return NaN;
    const values = new Map<string, number>();
    const { group_nx, group_ny, bar_area_mm2 } = tests.row(row);
    const given: Readonly<Record<string, number>> = {
      n_x: group_nx ?? 1,
      n_y: group_ny ?? 1,
      A_b: (bar_area_mm2 ?? NaN) / present.system.inSi.area,
    };
    for (const { symbol, expression } of drafts[0]!.equations)
      values.set(
        symbol,
        evaluate(expression, (name) => values.get(name) ?? given[name] ?? inputOf(name, row)),
      );
    // A test in tension has no capacity in shear.
    return Number.isNaN(evaluated) ? NaN : values.get("V_FRP")! * present.system.inSi.force;
  }

  it("single bars: the equation for a single anchor gives the same as that for a group", () => {
    const drafts = draftsOf([bond]);
    const { equations, text } = drafts[0]!;
    expect(equations.map(({ number, symbol }) => [number, symbol])).toEqual([
      ["17.6.5.1a", "N_a"],
      ["17.6.5.1b", "N_ag"],
    ]);
    const target = provision("17.6.5");
    const after = predict(applyProposals(present, [bond]), tests).columns.find(
      (one) => one.provision.id === target.id,
    )!.capacity;
    let seen = 0;
    after.forEach((value, row) => {
      const { group_nx, group_ny, bar_material } = tests.row(row);
      if (Number.isNaN(value) || (group_nx ?? 1) * (group_ny ?? 1) > 1) return;
      const { inputs, steps } = trace(present, target, tests, row).parts[0]!;
      const values = new Map([...inputs, ...steps].map((one) => [one.symbol, one.value]));
      values.set("psi_FRP_Na", bar_material === "steel" ? 1 : draftedFactor(text, "psi_FRP_Na")!);
      const said = evaluate(equations[0]!.expression, (name) => values.get(name) ?? NaN);
      expect(Object.is(said * present.system.inSi.force, value)).toBe(true);
      seen += 1;
    });
    expect(seen).toBeGreaterThan(200);
  });

  it("the comparison of the packet is with that code", () => {
    const pairs = compare(tests, applyProposals(present, [bond]));
    const pryout = pairs.evidence.filter(({ mode }) => mode === "pryout");
    const drafts = draftsOf([bond]);
    let seen = 0;
    for (const { row, ratio } of pryout) {
      const load = (tests.numbers("peak_load_kN")[row] ?? NaN) * 1000;
      expect(load / byHand(provision("17.7.3"), drafts, row)).toBeCloseTo(ratio, 12);
      seen += 1;
    }
    expect(seen).toBeGreaterThan(50);
  });
});
