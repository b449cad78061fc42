import { short, type BallotSheet } from "../../proposals";
import type { Table } from "../../tables";
import { escapeText } from "../document/document-html";
import type { Draft } from "../draft";
import { evidenceHtml, priceHtml, section } from "./ballot-tables";
import { lawText, running, symbolWords } from "./law";
import {
  printedSymbol,
  reasonWords,
  sheetTitle,
  STATUS,
  statusWords,
  withdraws,
} from "./sheet-words";
import { BALLOT_STYLE } from "./style";

/** One sheet with the draft of its text. */
export interface BallotPage {
  readonly sheet: BallotSheet;
  readonly draft: Draft;
  /** The middle sentence of the reason, the researcher's. */
  readonly reason: string;
}

/** The page before the sheets: the answer, every change, every other mode, and the rows behind. */
export interface BallotCover {
  readonly title: string;
  readonly question: string;
  readonly answer: string;
  readonly changes: Table;
  /** One paragraph a change. */
  readonly statements: readonly string[];
  readonly modes: Table;
  readonly evidence: string;
}

/** What all pages of a ballot have in common. */
export interface BallotDocument {
  readonly title: string;
  /** What stands at the foot of each page, such as that data are invented. */
  readonly stamp: string;
  readonly caution: string;
  readonly cover?: BallotCover;
  readonly pages: readonly BallotPage[];
}

/**
 * The ballot as one HTML file that works offline, one printed page a sheet: status, change, reason,
 * worked example, limits, evidence by class, safety and price, what speaks against it, vote.
 */
export function ballotHtml({ title, stamp, caution, pages, cover }: BallotDocument): string {
  const foot = `<b>${escapeText(stamp)}</b> ${escapeText(caution)}`;
  const all = pages.map((page, k) => pageHtml(page, title, foot, `${k + 1} of ${pages.length}`));
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeText(title)}</title>
<style>${BALLOT_STYLE}</style>
</head>
<body>
${[...(cover ? [coverHtml(cover, foot)] : []), ...all].join("\n")}
</body>
</html>
`;
}

function coverHtml(cover: BallotCover, foot: string): string {
  const { title, question, answer, changes, statements, modes, evidence } = cover;
  return `<section class="page cover" aria-label="Cover">
<div class="head"><b>${escapeText(title)}</b><span>Ballot: cover</span></div>
<p>${running(question)}</p>
<p class="answer">${running(answer)}</p>
${changes.toHtml()}
<ul>${statements.map((one) => `<li>${running(one)}</li>`).join("")}</ul>
${modes.toHtml()}
<p>${running(evidence)}</p>
<div class="foot"><span>${foot}</span><span>Cover</span></div>
</section>`;
}

function pageHtml(page: BallotPage, title: string, foot: string, number: string): string {
  const { sheet } = page;
  const { words, frame } = STATUS[sheet.status];
  return `<main class="page">
<div class="head"><b>${escapeText(title)}</b><span>Ballot sheet ${number}</span></div>
<h1>${running(sheetTitle(sheet))}</h1>
<div class="status ${frame}"><strong>${words}</strong><p>${running(statusWords(sheet))}</p></div>
<div class="row">
${changeHtml(page)}
<div class="stack">
${section(2, "Reason", `<p>${reasonWords(sheet, page.reason).map(running).join(" ")}</p>`)}
${exampleHtml(sheet)}
</div>
${limitsHtml(sheet)}
</div>
${evidenceHtml(sheet)}
${priceHtml(sheet)}
<div class="row">
${section(6, "What speaks against the change", `<ul>${sheet.against.map((one) => `<li>${running(one)}</li>`).join("")}</ul>`)}
${section(7, "Vote", `<ul class="vote"><li>Affirmative</li><li>Affirmative with comment</li><li>Abstain</li><li>Negative with reason</li></ul><div class="sign"><span>Member</span><span>Date</span></div>`)}
</div>
<div class="foot"><span>${foot}</span><span>Sheet ${number}</span></div>
</main>`;
}

function changeHtml({ sheet, draft }: BallotPage): string {
  const { heading, lines } = lawText(draft);
  const words = { inserted: "New", deleted: "Removed" } as const;
  const tags = { inserted: "ins", deleted: "del" } as const;
  const items = lines.map(({ change, text, number }) => {
    const body = change ? `<${tags[change]}>${running(text)}</${tags[change]}>` : running(text);
    const after = number === "" ? "" : ` &nbsp;(${escapeText(number)})`;
    return `<dt>${change ? words[change] : "Note"}</dt><dd>${body}${after}</dd>`;
  });
  const family = draft.values["family"];
  const note = [
    ...(family
      ? [
          `${family} ${family.includes(" and ") ? "use" : "uses"} the changed strength; no other text changes.`,
        ]
      : []),
    ...(sheet.code.system.name === "N, mm, MPa" || "metric" in draft.values
      ? []
      : ["Metric edition: same text."]),
    ...(sheet.beside.length > 0
      ? [`Judged beside ${sheet.beside.join(", ")}, whose result it uses.`]
      : []),
  ];
  return section(
    1,
    "The change",
    `<div class="law"><p class="clause">${running(heading)}</p><dl>${items.join("\n")}</dl>${note.length === 0 ? "" : `<p class="note">${running(note.join(" "))}</p>`}</div>`,
    `${escapeText(
      sheet.code.edition
        .replace(/\(.*\)/, "")
        .replace(/^\d{4}, /, "")
        .trim(),
    )}; <del>struck</del>: removed, <ins>underlined</ins>: new`,
  );
}

function exampleHtml(sheet: BallotSheet): string {
  const { example, code } = sheet;
  if (example === null)
    return section(3, "Worked example", "<p>No single bar of these tests has a capacity.</p>");
  const { words, phi, before, after } = example;
  const symbol = printedSymbol(sheet);
  const edition = code.system.unit.force;
  const metric = code.system.inSi.force === 1;
  const cell = (force: number | null, size: number, kN: boolean): string =>
    `<td class="num">${force === null ? "none" : kN ? (force / 1000).toFixed(1) : Math.round(force / size).toLocaleString("en-US")}</td>`;
  const row = (head: string, times: number): string =>
    `<tr><th scope="row">${head}</th>${[
      ...(metric
        ? []
        : [before, after].map((one) => cell(scaled(one, times), code.system.inSi.force, false))),
      ...[before, after].map((one) => cell(scaled(one, times), 1000, true)),
    ].join("")}</tr>`;
  const heads = [...(metric ? [] : [edition]), "kN"].flatMap((unit) => [
    `<th scope="col" class="num">before<br>${unit}</th>`,
    `<th scope="col" class="num">after<br>${unit}</th>`,
  ]);
  return section(
    3,
    "Worked example",
    `<p>${running(words)}.</p>
<table><thead><tr><th scope="col">Strength</th>${heads.join("")}</tr></thead><tbody>
${row(running(symbol), 1)}
${phi === null ? "" : row(`<b>${phi.toFixed(2)} ${running(symbol)}</b>`, phi)}
</tbody></table>`,
  );
}

function scaled(force: number | null, times: number): number | null {
  return force === null ? null : force * times;
}

function limitsHtml(sheet: BallotSheet): string {
  const { ranges, says } = sheet.scope;
  const known = withdraws(sheet);
  if (ranges.length === 0) return "";
  const mark = (text: string): string => (known ? text : `<ins>${text}</ins>`);
  const cell = (a: number, b: number): string =>
    `<td class="num">${mark(a === b ? short(a) : `${short(a)} to ${short(b)}`)}</td>`;
  const units = [...new Set(ranges.map(({ unit }) => unit).filter(Boolean))].join(", ");
  const unitsSi = [...new Set(ranges.map(({ unitSi }) => unitSi).filter(Boolean))].join(", ");
  const shown = (symbol: string): string =>
    symbol === "s" ? "<i>s</i>" : running(symbolWords(symbol));
  return `<div class="wide"><table><caption>${known ? "<b>Tested range:</b> " : "<b>New</b> "}${mark(`${known ? "" : "Limits of validity: "}${escapeText(says.join("; "))}`)}</caption>
<thead><tr><th scope="col">Units</th>${ranges.map(({ symbol }) => `<th scope="col" class="num">${shown(symbol)}</th>`).join("")}</tr></thead><tbody>
<tr><th scope="row">${units}</th>${ranges.map(({ lower, upper }) => cell(lower, upper)).join("")}</tr>
${units === unitsSi ? "" : `<tr><th scope="row">${unitsSi}</th>${ranges.map(({ lowerSi, upperSi }) => cell(lowerSi, upperSi)).join("")}</tr>`}
</tbody></table></div>`;
}
