import type { createRandom } from "../../kernel-lib/src/statistics";

export const SYMBOLS = ["a", "b", "c", "d"];

/** Random formulas over four symbols, deep enough to meet every operator and function. */
export function randomFormula(random: ReturnType<typeof createRandom>, depth: number): string {
  const pick = <T>(of: readonly T[]): T => of[Math.floor(random.uniform() * of.length)] as T;
  const inner = (): string => randomFormula(random, depth - 1);
  if (depth === 0)
    return random.uniform() < 0.5 ? pick(SYMBOLS) : pick(["0.7", "2", "3", "1.5", "17", "0.3"]);
  return pick([
    () =>
      `(${inner()} ${pick(["+", "-", "*", "/", "<", "<=", ">", ">=", "==", "!=", "&&", "||"])} ${inner()})`,
    () => `(1 * ${inner()}) ^ ${pick(["2", "3", "1.5", "0.5", "0.2", "(5 / 3)", "a", "b"])}`,
    () => `${pick(["min", "max"])}(${inner()}, ${inner()}, ${inner()})`,
    () => `if(${inner()}, ${inner()}, ${inner()})`,
    () => `${pick(["sqrt", "abs", "exp", "ln", "sin", "cos"])}(${inner()})`,
    () => `(-(${inner()}))`,
    () => `(!(${inner()}))`,
  ])();
}
