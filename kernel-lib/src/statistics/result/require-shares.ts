/** @throws RangeError for a value that is not between 0 and 1, by the name of its function */
export function requireShares(where: string, shares: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(shares))
    if (!(value > 0 && value < 1))
      throw new RangeError(`${where}: ${name} is ${value}, expected a fraction between 0 and 1`);
}
