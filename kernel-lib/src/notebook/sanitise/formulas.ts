/** A LaTeX formula as MathML; undefined where it cannot be read as one. */
export type FormulaWriter = (latex: string, display: boolean) => string | undefined;

/** Longer than any formula in prose; what is longer is shown as it is written. */
const LONGEST = 2000;

/** Prepares the writing of formulas. What it writes is still to be sanitised. */
export async function createFormulaWriter(): Promise<FormulaWriter> {
  const { default: temml } = await import("temml");
  return (latex, display) => {
    if (latex.length > LONGEST) return undefined;
    try {
      return temml.renderToString(latex, { displayMode: display, throwOnError: true });
    } catch {
      return undefined;
    }
  };
}
