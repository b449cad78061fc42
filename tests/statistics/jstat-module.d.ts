/** The few parts of jStat used here; the package brings no types. */
declare module "jstat" {
  interface JStat {
    normal: { pdf(x: number, mean: number, sd: number): number };
    stdev(values: readonly number[], sample?: boolean): number;
  }
  const jstat: { jStat: JStat };
  export default jstat;
}
