const GREEK = new Set(
  "alpha beta gamma delta epsilon zeta eta theta kappa lambda mu nu xi pi rho sigma tau phi chi psi omega Gamma Delta Sigma Phi Psi Omega".split(
    " ",
  ),
);

const GREEK_LETTER: Readonly<Record<string, string>> = {
  alpha: "α",
  beta: "β",
  gamma: "γ",
  delta: "δ",
  epsilon: "ε",
  zeta: "ζ",
  eta: "η",
  theta: "θ",
  kappa: "κ",
  lambda: "λ",
  mu: "μ",
  nu: "ν",
  xi: "ξ",
  pi: "π",
  rho: "ρ",
  sigma: "σ",
  tau: "τ",
  phi: "φ",
  chi: "χ",
  psi: "ψ",
  omega: "ω",
  Gamma: "Γ",
  Delta: "Δ",
  Sigma: "Σ",
  Phi: "Φ",
  Psi: "Ψ",
  Omega: "Ω",
};

/** Symbols that the standards write in a way their plain name cannot show. */
const SPECIAL: Readonly<Record<string, { latex: string; text: string }>> = {
  f_c: { latex: "f'_c", text: "f'c" },
  pi: { latex: "\\pi", text: "π" },
};

function parts(name: string): { base: string; prime: boolean; subscript: string } {
  const [head = name, ...rest] = name.split("_");
  const prime = rest.length > 0 && rest[rest.length - 1] === "prime";
  return { base: head, prime, subscript: (prime ? rest.slice(0, -1) : rest).join(",") };
}

/**
 * A name made of words (`headed_cast_in`), as options and counts have, rather than a letter with a
 * subscript.
 */
function inWords(base: string): boolean {
  return base.length > 2 && !GREEK.has(base);
}

/**
 * A symbol as LaTeX: `psi_ed_N` gives `\psi_{ed,N}`, `h_ef_prime` gives `h'_{ef}`; a name in words
 * stays words.
 */
export function symbolLatex(name: string): string {
  const special = SPECIAL[name];
  if (special) return special.latex;
  const { base, prime, subscript } = parts(name);
  if (inWords(base)) return `\\text{${name.replaceAll("_", " ")}}`;
  const head = GREEK.has(base) ? `\\${base}` : base.length === 1 ? base : `\\mathrm{${base}}`;
  return `${head}${prime ? "'" : ""}${subscript === "" ? "" : `_{\\mathrm{${subscript}}}`}`;
}

/** A symbol as plain text with Greek letters: `psi_ed_N` gives `ψ_ed,N`. */
export function symbolText(name: string): string {
  const special = SPECIAL[name];
  if (special) return special.text;
  const { base, prime, subscript } = parts(name);
  if (inWords(base)) return name;
  return `${GREEK_LETTER[base] ?? base}${prime ? "'" : ""}${subscript === "" ? "" : `_${subscript}`}`;
}
