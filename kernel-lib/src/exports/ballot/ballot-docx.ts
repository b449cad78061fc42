import { ballotClassRow, Table } from "../../tables";
import { className, short, type BallotSheet, type SheetClass } from "../../proposals";
import { documentDocx } from "../document/document-docx";
import type { Block, DocumentModel, Section } from "../document/document";
import type { BallotDocument, BallotPage } from "./ballot-html";
import { lawText, symbolWords } from "./law";
import {
  printedSymbol,
  reasonWords,
  sheetTitle,
  STATUS,
  statusWords,
  verdictWords,
  withdraws,
} from "./sheet-words";

/** The ballot as a document that an editor can work on: the blocks of the sheets, one after another. */
export async function ballotDocx(ballot: BallotDocument): Promise<Uint8Array> {
  return documentDocx(ballotModel(ballot));
}

/** The model of that document, one section a sheet. */
export function ballotModel({ title, stamp, caution, pages }: BallotDocument): DocumentModel {
  return {
    title,
    subtitle: `Ballot: ${pages.length} ${pages.length === 1 ? "sheet" : "sheets"}`,
    caution,
    stamp,
    sheet: true,
    sections: pages.map(sectionOf),
  };
}

function sectionOf(page: BallotPage, k: number): Section {
  const { sheet } = page;
  const { heading, lines } = lawText(page.draft);
  const titled = (title: string): Block => ({ kind: "provision", title, pieces: [] });
  const paragraph = (text: string): Block => ({ kind: "paragraph", text });
  return {
    id: `sheet-${k + 1}`,
    title: sheetTitle(sheet).replace(/_/g, ""),
    blocks: [
      { kind: "caution", text: `${STATUS[sheet.status].words}. ${statusWords(sheet)}` },
      titled(`Change: ${heading}`),
      ...lines.map(({ change, text, number }): Block => ({
        kind: "provision",
        title: "",
        pieces: [
          { text: `${text}${number === "" ? "" : ` (${number})`}`, ...(change ? { change } : {}) },
        ],
      })),
      paragraph(`${withdraws(sheet) ? "Tested range" : "Limits of validity"}: ${limitsOf(sheet)}.`),
      titled("Reason"),
      paragraph(reasonWords(sheet, page.reason).join(" ")),
      ...exampleOf(sheet),
      titled("Evidence"),
      paragraph(`Verdict. ${verdictWords(sheet.classes)}`),
      { kind: "table", table: evidenceTable(sheet, k) },
      titled("Safety and price"),
      { kind: "table", table: priceTable(sheet, k) },
      ...sheet.consequences.map((one) =>
        paragraph(
          `Moves with it: ${one.clause}, ${one.label}: lower bound ${two(one.lowerBefore)}, then ${two(one.lowerAfter)}; mean predicted/test ${two(one.usedBefore)}, then ${two(one.usedAfter)}.`,
        ),
      ),
      titled("What speaks against the change"),
      { kind: "list", items: sheet.against },
      titled("Vote"),
      paragraph(
        "Affirmative  ☐   Affirmative with comment  ☐   Abstain  ☐   Negative with reason  ☐",
      ),
      paragraph("Member ______________________________   Date ______________"),
    ],
  };
}

const two = (value: number | null): string => value?.toFixed(2) ?? "–";

function limitsOf({ scope: { ranges, says } }: BallotSheet): string {
  return [
    ...ranges.map(({ symbol, lower, upper, unit, lowerSi, upperSi, unitSi }) => {
      const own = `${symbolWords(symbol)} ${lower === upper ? short(lower) : `${short(lower)} to ${short(upper)}`}${unit && ` ${unit}`}`;
      return unit === unitSi ? own : `${own} (${short(lowerSi)} to ${short(upperSi)} ${unitSi})`;
    }),
    ...says,
  ].join("; ");
}

function exampleOf(sheet: BallotSheet): Block[] {
  const { example, code } = sheet;
  if (example === null) return [];
  const symbol = printedSymbol(sheet);
  const { words, before, after, phi } = example;
  const force = (value: number | null): string =>
    value === null
      ? "none"
      : `${Math.round(value / code.system.inSi.force).toLocaleString("en-US")} ${code.system.unit.force}${code.system.inSi.force === 1 ? "" : ` (${(value / 1000).toFixed(1)} kN)`}`;
  const times = (value: number | null): number | null =>
    value === null || phi === null ? null : value * phi;
  return [
    { kind: "provision", title: "Worked example", pieces: [] },
    {
      kind: "paragraph",
      text: `${words}: ${symbol} before ${force(before)}, after ${force(after)}${phi === null ? "" : `; ${phi.toFixed(2)} ${symbol} before ${force(times(before))}, after ${force(times(after))}`}.`,
    },
  ];
}

function evidenceTable({ classes }: BallotSheet, k: number): Table {
  const number = (key: string, title: string) =>
    ({ key, title, kind: "number", digits: 3 }) as const;
  const whole = (key: string, title: string) => ({ key, title, kind: "integer" }) as const;
  return new Table({
    id: `evidence-${k + 1}`,
    title:
      "Evidence: 5 % fractile of test/predicted with one-sided 90 % bounds; factors by criterion",
    rowKey: ["class"],
    columns: [
      { key: "class", title: "class", kind: "text" },
      whole("n", "n"),
      whole("series", "series"),
      whole("studies", "studies"),
      number("estimate", "estimate"),
      number("lower", "lower"),
      number("upper", "upper"),
      number("fractile", "fractile"),
      number("as_steel", "as steel"),
      number("reliability", "reliability"),
      { key: "proposed", title: "proposed", kind: "text" },
      { key: "without", title: "without worst study", kind: "text" },
    ],
    rows: classes.map((one: SheetClass) => ({
      class: className(one),
      ...ballotClassRow(one),
      without:
        one.withoutWorst === null
          ? "–"
          : `${one.withoutWorst.factor.toFixed(2)}${one.withoutWorst.adequate ? "" : ", not adequate"}`,
    })),
  });
}

function priceTable({ classes, target }: BallotSheet, k: number): Table {
  const number = (key: string, title: string) =>
    ({ key, title, kind: "number", digits: 3 }) as const;
  return new Table({
    id: `price-${k + 1}`,
    title: `Reliability index (target ${target}) and mean predicted/test, before and after`,
    rowKey: ["class"],
    columns: [
      { key: "class", title: "class", kind: "text" },
      number("phi", "strength reduction"),
      number("index_before", "index before"),
      number("index_after", "index after"),
      number("used_before", "predicted/test before"),
      number("used_after", "predicted/test after"),
    ],
    rows: classes.map((one) => ({
      class: className(one),
      phi: one.phi,
      index_before: one.indexBefore,
      index_after: one.indexAfter,
      used_before: one.usedBefore,
      used_after: one.usedAfter,
    })),
  });
}
