/**
 * A place within the step where the law of a capacity changes: another branch, a limit, another
 * mode.
 */
export interface NearbySwitch {
  /** Value of the variable there, in the variable's own unit. */
  readonly at: number;
  /** The same relative to the row's value: 0.004 is 0.4 % above. */
  readonly relative: number;
  readonly because: string;
  /** Elasticity just beyond; NaN where the capacity is withheld there. */
  readonly elasticityBeyond: number;
  /** Relative change of the capacity in the switch itself: 0 at a kink, else a jump. */
  readonly jump: number;
}

/** What a capacity is at one place: two places with one `law` lie on one smooth piece. */
export interface PlaceOnLaw {
  readonly law: string;
  /** The limits that do not hold there, as bits. */
  readonly limits: number;
  readonly capacity: number;
  readonly elasticity: number;
}

const MOST_SWITCHES = 8;
const SAME = 1e-7;
const HAIR = 1e-9;

/**
 * The switches between a row and the same row with one variable `within` higher and lower, nearest
 * first. Switches at which neither the capacity nor its elasticity nor any limit changes are left
 * out.
 * @param at what the capacity is when the variable is multiplied by exp(t)
 * @param because words for the change from one law to another
 */
export function nearbySwitches(
  value: number,
  within: number,
  at: (t: number) => PlaceOnLaw,
  because: (before: PlaceOnLaw, beyond: PlaceOnLaw) => string,
): NearbySwitch[] {
  return [Math.log1p(within), Math.log1p(-within)].flatMap((end) => {
    const found: NearbySwitch[] = [];
    const last = at(end);
    let from = 0;
    for (let k = 0; k < MOST_SWITCHES && at(from).law !== last.law; k++) {
      const [inside, beyond] = bracketed(from, end, at);
      // Steps that compare the same two values may switch some bits apart: a hair farther all of
      // them have.
      from = Math.abs(end - beyond) < HAIR ? end : beyond + Math.sign(end) * HAIR;
      const [before, after] = [at(inside), at(from)];
      const jump = after.capacity / before.capacity - 1;
      const smooth = Math.abs(jump) < SAME && Math.abs(after.elasticity - before.elasticity) < SAME;
      if (smooth && before.limits === after.limits) continue;
      found.push({
        at: value * Math.exp(beyond),
        relative: Math.expm1(beyond),
        because: because(before, after),
        elasticityBeyond: after.elasticity,
        jump: Math.abs(jump) < SAME ? 0 : jump,
      });
    }
    return found;
  });
}

/** Halves the way until the law changes between two neighbouring places. */
function bracketed(from: number, end: number, at: (t: number) => PlaceOnLaw): [number, number] {
  const { law } = at(from);
  let [inside, beyond] = [from, end];
  for (let k = 0; k < 200; k++) {
    const middle = (inside + beyond) / 2;
    if (middle === inside || middle === beyond || Math.abs(beyond - inside) < 1e-15) break;
    if (at(middle).law === law) inside = middle;
    else beyond = middle;
  }
  return [inside, beyond];
}
