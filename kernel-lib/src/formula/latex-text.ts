import { symbolRuns } from "./symbol-runs";

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";

const MARKS: Readonly<Record<string, string>> = {
  "\\": "\\textbackslash{}",
  "{": "\\{",
  "}": "\\}",
  $: "\\$",
  "&": "\\&",
  "#": "\\#",
  "%": "\\%",
  _: "\\_\\allowbreak{}",
  "^": "\\textasciicircum{}",
  "~": "\\textasciitilde{}",
  "<": "$<$",
  ">": "$>$",
  "|": "\\textbar{}",
  "`": "\\textasciigrave{}",
  // A row that starts with a bracket would be read as the optional argument of the line end before
  // it.
  "[": "{[}",
  "]": "{]}",
  "−": "$-$",
  "×": "$\\times$",
  "·": "$\\cdot$",
  "±": "$\\pm$",
  "√": "$\\surd$",
  "≥": "$\\ge$",
  "≤": "$\\le$",
  "≠": "$\\ne$",
  "≈": "$\\approx$",
  "∞": "$\\infty$",
  "°": "$^\\circ$",
  "→": "$\\to$",
  "–": "--",
  "—": "---",
  "…": "\\dots{}",
  "‘": "`",
  "’": "'",
  "“": "``",
  "”": "''",
  "\u00a0": "~",
  "\u2009": "\\,",
  "\u202f": "\\,",
};

const GREEK: Readonly<Record<string, string>> = {
  α: "alpha",
  β: "beta",
  γ: "gamma",
  δ: "delta",
  ε: "epsilon",
  ζ: "zeta",
  η: "eta",
  θ: "theta",
  κ: "kappa",
  λ: "lambda",
  μ: "mu",
  µ: "mu",
  ν: "nu",
  ξ: "xi",
  π: "pi",
  ρ: "rho",
  σ: "sigma",
  τ: "tau",
  φ: "phi",
  χ: "chi",
  ψ: "psi",
  ω: "omega",
  Γ: "Gamma",
  Δ: "Delta",
  Θ: "Theta",
  Λ: "Lambda",
  Σ: "Sigma",
  Φ: "Phi",
  Ψ: "Psi",
  Ω: "Omega",
};

/**
 * Text in which every character stands for itself in LaTeX, with the subscripts of its symbols set
 * as such. Greek letters, signs of arithmetic and raised digits become mathematics, so that engines
 * without Unicode fonts set them too; other letters beyond Latin are left as they are and need an
 * engine and a font that have them.
 * @example latexText("β_N of 5 %") // "${\\beta}_{\\mathrm{N}}$ of 5 \\%"
 */
export function latexText(text: string): string {
  return symbolRuns(text)
    .map(({ text: piece, script }) =>
      script === "line"
        ? latexPlain(piece)
        : script === "sub"
          ? `_{\\mathrm{${mathematics(piece)}}}$`
          : `$${mathematics(piece)}`,
    )
    .join("");
}

/**
 * A symbol or its subscript within mathematics; braces keep a Greek letter from running into the
 * next.
 */
function mathematics(piece: string): string {
  return [...piece].map((letter) => (GREEK[letter] ? `{\\${GREEK[letter]}}` : letter)).join("");
}

/**
 * Text in which every character stands for itself, an underscore too: names and values of a table's
 * cells.
 */
export function latexPlain(text: string): string {
  const raised = text.split(/([⁻⁰¹²³⁴-⁹]+)/);
  return raised
    .map((piece, n) =>
      n % 2 === 1
        ? `$^{${[...piece].map((digit) => (digit === "⁻" ? "-" : String(RAISED.indexOf(digit)))).join("")}}$`
        : [...piece].map(character).join(""),
    )
    .join("");
}

function character(letter: string): string {
  return MARKS[letter] ?? (GREEK[letter] ? `$\\${GREEK[letter]}$` : letter);
}
