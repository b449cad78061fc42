/** Narrower than this no table can be read. */
const LEAST = 40;

/**
 * Characters of a line: those of the terminal; where the answer goes to a file or another program,
 * COLUMNS, and 100 where that is not set.
 */
export function terminalWidth(): number {
  const stated = Number(process.env["COLUMNS"]);
  const piped = Number.isInteger(stated) && stated > 0 ? stated : 100;
  return Math.max(LEAST, process.stdout.columns ?? piped);
}
