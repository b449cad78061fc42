import type { ErrorTerms } from "./error-terms";
import type { Resistances } from "./resistances";
import type { VariationBudget } from "./variation-budget";

/** One line of the hand calculation; null where there is no value. */
export interface CalibrationLine {
  readonly symbol: string;
  readonly formula: string;
  readonly value: number | null;
  readonly clause: string;
}

/** The calculation of EN 1990:2002 Annex D.8 line by line, with g_rt(X_m) = 1. */
export function calibrationTrace(
  terms: ErrorTerms,
  budget: VariationBudget,
  found: Resistances,
  nominal: number,
  method: "least squares" | "censored maximum likelihood",
): CalibrationLine[] {
  const line = (
    symbol: string,
    formula: string,
    value: number | null,
    clause: string,
  ): CalibrationLine => ({ symbol, formula, value, clause });
  const { characteristic, design, form } = found;
  const ratio = (a: number | null, b: number | null): number | null =>
    a === null || b === null ? null : a / b;
  const exponent = (k: string, n: string): string =>
    form === "large" ? `b exp(−${k} Q − 0.5 Q²)` : `b exp(−${k} α_rt Q_rt − ${n} α_δ Q_δ − 0.5 Q²)`;
  const plain = method === "least squares";
  return [
    plain
      ? line("b", "Σ r_e r_t / Σ r_t²", terms.b, "D.8.2.2.3")
      : line(
          "b",
          "Σ r̂_e r_t / Σ r_t², a lower bound at its expected value by maximum likelihood",
          terms.b,
          "extension of D.8.2.2.3",
        ),
    line(
      "mean ratio",
      plain ? "Σ (r_e / r_t) / n" : "Σ (r_e / r_t) / n, failures only",
      terms.meanRatio,
      "beside b",
    ),
    plain
      ? line(
          "s_Δ",
          "√(Σ(Δ_i − Δ̄)² / (n − 1)), Δ_i = ln(r_e,i / (b r_t,i))",
          terms.sdLog,
          "D.8.2.2.4",
        )
      : line(
          "s_Δ",
          "σ √(m / (m − 1)), σ by the same likelihood, m failures",
          terms.sdLog,
          "extension of D.8.2.2.4",
        ),
    line("V_δ", "√(exp s_Δ² − 1)", terms.cov, "D.8.2.2.4"),
    ...budget.parts.map(({ name, elasticity, cov, contribution }) =>
      line(
        `V_${name}`,
        `|${Number(elasticity.toPrecision(4))}| × ${cov}`,
        contribution,
        "D.8.2.2.6",
      ),
    ),
    line("V_rt", "√(Π(V_Xi² + 1) − 1)", budget.cov, "D.8.2.2.6"),
    line("V_r", "√((V_δ² + 1)(V_rt² + 1) − 1)", found.totalCov, "D.8.2.2.6"),
    line("Q_rt", "√ln(V_rt² + 1)", found.qModel, "D.8.2.2.7"),
    line("Q_δ", "√ln(V_δ² + 1)", found.qError, "D.8.2.2.7"),
    line("Q", "√ln(V_r² + 1)", found.q, "D.8.2.2.7"),
    line("α_rt", "Q_rt / Q", found.alphaModel, "D.8.2.2.7"),
    line("α_δ", "Q_δ / Q", found.alphaError, "D.8.2.2.7"),
    line("k_n", "Table D1", found.kn, "Table D1"),
    line("k_d,n", "Table D2", found.kdn, "Table D2"),
    line("r_k / g_rt(X_m)", exponent("k_∞", "k_n"), characteristic, "D.8.2.2.7"),
    line("r_d / g_rt(X_m)", exponent("k_d,∞", "k_d,n"), design, "D.8.3"),
    line("γ_M", "r_k / r_d", ratio(characteristic, design), "D.8.3"),
    line("r_n / g_rt(X_m)", "nominal over mean", nominal, "input"),
    line(
      "r_n / r_d",
      "partial factor on the nominal resistance (k_c)",
      ratio(nominal, design),
      "D.8.3, to be checked against a licensed copy",
    ),
    line(
      "r_k / r_n",
      "factor on the nominal resistance, 5 % value",
      ratio(characteristic, nominal),
      "D.8.3",
    ),
  ];
}
