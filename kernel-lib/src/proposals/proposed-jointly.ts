import type { CodeDefinition } from "../provisions";
import { applyProposals, provisionOf } from "./apply-proposal";
import type { FactorPlace } from "./one-factor-per-mode";
import type { FactorsOfMode } from "./pooling";
import type { Proposal } from "./proposal";
import { usesOfResult } from "./uses-of-result";

/** Derives the factors of one mode on a code that has changed; null where it gives none. */
export type DeriveOn = (mode: string, changed: CodeDefinition) => FactorsOfMode | null;

/** What a joint derivation rests on. */
export interface JointDerivation {
  /** The factors of each mode on the present code. */
  readonly derived: readonly FactorsOfMode[];
  readonly places: Readonly<Record<string, FactorPlace>>;
  readonly code: CodeDefinition;
  readonly deriveOn: DeriveOn;
}

/**
 * Proposals of several modes, derived in the order of the references: a provision that uses the
 * result of another gets the factor that it requires beside the other's. With a factor on bond (ACI
 * 318-19, 17.6.5) in the code, pryout (17.7.3) requires less of its own, or none.
 *
 * A mode whose provision no earlier proposal reaches keeps the factor of the present code.
 * @param propose the proposals of given modes, such as `oneFactorPerMode`
 * @example
 * const { derived, deriveOn, present } = found;
 * const joint = { derived, deriveOn, code: present, places: FRP_MODES_ACI318 };
 * proposedJointly(joint, (some) => oneFactorPerMode(some, FRP_MODES_ACI318, tests))
 */
export function proposedJointly(
  { derived, places, code, deriveOn }: JointDerivation,
  propose: (derived: readonly FactorsOfMode[]) => readonly Proposal[],
): Proposal[] {
  let changed = code;
  const found = new Map<string, readonly Proposal[]>();
  for (const mode of inOrderOfReferences(Object.keys(places), places, code)) {
    const ids = idsOf(places[mode]);
    const reached = ids.some((id) => provisionOf(changed, id) !== provisionOf(code, id));
    const own = reached ? deriveOn(mode, changed) : derived.find((one) => one.mode === mode);
    if (!own) continue;
    const proposals = propose([own]).map((one) => (reached ? onChangedCode(one, found) : one));
    changed = applyProposals(changed, proposals);
    found.set(mode, proposals);
  }
  return Object.keys(places).flatMap((mode) => found.get(mode) ?? []);
}

/** A mode whose provision uses the result of another's stands after it; all else as named. */
function inOrderOfReferences(
  modes: readonly string[],
  places: Readonly<Record<string, FactorPlace>>,
  code: CodeDefinition,
): string[] {
  const usersOf = new Map(
    modes.map((mode) => [
      mode,
      new Set(
        idsOf(places[mode]).flatMap((id) => {
          const target = provisionOf(code, id);
          return target ? usesOfResult(code, target).map((one) => one.id) : [];
        }),
      ),
    ]),
  );
  const uses = (mode: string, other: string): boolean =>
    mode !== other && idsOf(places[mode]).some((id) => usersOf.get(other)?.has(id));
  const order: string[] = [];
  const place = (mode: string, above: readonly string[]): void => {
    if (order.includes(mode) || above.includes(mode)) return;
    for (const other of modes) if (uses(mode, other)) place(other, [...above, mode]);
    order.push(mode);
  };
  for (const mode of modes) place(mode, []);
  return order;
}

function idsOf(place: FactorPlace | undefined): readonly string[] {
  return place === undefined ? [] : [place.changes, ...(place.alsoChanges ?? [])];
}

function onChangedCode(one: Proposal, found: ReadonlyMap<string, readonly Proposal[]>): Proposal {
  const others = [...found.values()].flat().map(({ symbol, factor }) => `${symbol} = ${factor}`);
  return {
    ...one,
    derivation: `${one.derivation} Derived on the changed code (${others.join(", ")}), whose result the provision uses.`,
  };
}
