/** Tells of several works that go on at the same time as if they went on one after the other. */
export interface InOrder<Told> {
  /**
   * Takes what one work tells: passed on at once when it is that work's turn, held until then
   * otherwise.
   */
  readonly of: (index: number) => (told: Told) => void;
  /** Says that a work has ended; the turn passes to the next that has not. */
  readonly finish: (index: number) => void;
}

/** Passes on, in the order of their numbers, what `count` works tell. */
export function inOrder<Told>(count: number, pass: (told: Told) => void): InOrder<Told> {
  const held: Told[][] = Array.from({ length: count }, () => []);
  const finished = new Set<number>();
  let current = 0;
  return {
    of: (index) => (told) => (index === current ? pass(told) : void held[index]?.push(told)),
    finish: (index) => {
      finished.add(index);
      while (finished.has(current)) {
        current += 1;
        for (const told of held[current]?.splice(0) ?? []) pass(told);
      }
    },
  };
}

/**
 * Works through the numbers below `count`, `jobs` at a time, in their order, until `stopped` says
 * so.
 */
export async function severalAtATime(
  count: number,
  jobs: number,
  work: (index: number) => Promise<void>,
  stopped: () => boolean = () => false,
): Promise<void> {
  let next = 0;
  const worker = async (): Promise<void> => {
    for (let index = next++; index < count && !stopped(); index = next++) await work(index);
  };
  await Promise.all(Array.from({ length: Math.max(1, Math.min(jobs, count)) }, worker));
}
