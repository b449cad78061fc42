/** Characters of a line on the terminal; 100 where the answer goes to a file or another program. */
export function terminalWidth(): number {
  return Math.max(60, process.stdout.columns ?? 100);
}
