/**
 * Number of correct significant digits (log relative error); absolute when the certified value is
 * 0; 15 at most.
 */
export function correctDigits(value: number, certified: number): number {
  if (!Number.isFinite(value)) return 0;
  const error =
    certified === 0 ? Math.abs(value) : Math.abs(value - certified) / Math.abs(certified);
  return error === 0 ? 15 : Math.min(15, -Math.log10(error));
}
