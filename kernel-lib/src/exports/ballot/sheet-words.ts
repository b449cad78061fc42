import { listed, capitalised } from "../../statistics/reading";
import { symbolText } from "../../formula";
import { clauseForm } from "../draft/clause-forms";
import {
  className,
  proposedWords,
  type BallotSheet,
  type SheetClass,
  type SheetStatus,
} from "../../proposals";

/** The words of a status, and the class of its frame. */
export const STATUS: Readonly<
  Record<SheetStatus, { readonly words: string; readonly frame: string }>
> = {
  supported: { words: "Supported by its own evidence", frame: "" },
  "stands by statement": { words: "Stands by statement", frame: "stands" },
  "not supported": { words: "Not supported by its own evidence", frame: "against" },
};

/** What stands beside the status: why, and the researcher's statement or that there is none. */
export function statusWords({ doubts, statement, classes, target }: BallotSheet): string {
  if (doubts.length === 0)
    return `Every class misses the target index ${target} without the change, and its factor remains adequate without any one of ${Math.max(0, ...classes.map(({ studies }) => studies))} studies.`;
  const text = doubts.map((one) => `${capitalised(one)}.`).join(" ");
  return `${text} ${statement === null ? "No statement of the researcher is on file." : `The researcher: ${statement}`}`;
}

/** The clause of the sheet with its title. */
export function sheetClause({ provision }: Pick<BallotSheet, "provision">): string {
  const clause = provision.id.slice(provision.id.indexOf("/") + 1);
  const heading = clauseForm(provision.id)?.heading ?? provision.title;
  return /^\d/.test(clause) ? `${clause} ${heading}` : heading;
}

/** Title of the sheet: the clause, and what changes. */
export function sheetTitle(sheet: BallotSheet): string {
  const { changes, classes } = sheet;
  const [first] = changes;
  const frp = classes.filter(({ steel, applied }) => !steel && applied !== null);
  const kind =
    first !== undefined && "kind" in first
      ? first.kind === "addition"
        ? "new provision"
        : "not permitted for some bars"
      : new Set(frp.map(proposedWords)).size === 1
        ? `factor ${proposedWords(frp[0]!)}`
        : `factors ${listed(frp.map((one) => `${proposedWords(one)} (${className(one)})`))}`;
  return `${sheetClause(sheet)}: ${kind}`;
}

/** The reason in three sentences; the middle one is the researcher's. */
export function reasonWords(sheet: BallotSheet, reason: string): readonly string[] {
  const frp = sheet.classes.filter(({ steel }) => !steel);
  const steel = sheet.classes.find((one) => one.steel);
  const bounds = (key: "lower" | "lowerAfter"): string => {
    const known = frp.filter((one) => one[key] !== null);
    return known.length === 0
      ? "cannot be estimated"
      : `${key === "lower" ? "is" : "to"} ${listed(known.map((one) => `${one[key]!.toFixed(2)} for ${className(one)}`))}`;
  };
  const beside =
    steel === undefined || steel.lower === null ? "" : `, and ${steel.lower.toFixed(2)} for steel`;
  const [first] = sheet.changes;
  const last =
    first !== undefined && "kind" in first
      ? first.kind === "addition"
        ? "The new provision gives these bars a strength that can be checked."
        : "Where it is withdrawn, no strength may be taken from this clause."
      : `The change raises it ${bounds("lowerAfter")}, measured by the changed strength.`;
  return [
    `The lower bound of the 5 % fractile of test/predicted ${bounds("lower")}${beside}.`,
    reason,
    last,
  ];
}

/** A verdict of each class, in general and as tested. */
export function verdictWords(classes: readonly SheetClass[]): string {
  const of = (key: "verdict" | "asTested"): string =>
    classes.map((one) => `${className(one)} ${one[key]}`).join(", ");
  return `In general: ${of("verdict")}. As tested: ${of("asTested")}.`;
}

/** The strength of the worked example, a single anchor, as the edition writes it. */
export function printedSymbol({ provision, example }: BallotSheet): string {
  return symbolText(clauseForm(provision.id)?.forms[0]?.symbol ?? example?.symbol ?? "");
}

/** Whether the clause is withdrawn for some bars. */
export function withdraws({ changes: [first] }: Pick<BallotSheet, "changes">): boolean {
  return first !== undefined && "kind" in first && first.kind === "restriction";
}
