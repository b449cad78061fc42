import { className, proposedWords, type BallotSheet, type SheetClass } from "../proposals";
import type { TableRow } from "./column";
import { Table } from "./table";
import type { TableText } from "./table-text";

/** The classes of ballot sheets, one a line: evidence, factors, index and price before and after. */
export function ballotTable(sheets: readonly BallotSheet[], text: TableText): Table {
  const number = (key: string, title: string, digits = 3) =>
    ({ key, title, kind: "number", digits }) as const;
  const whole = (key: string, title: string) => ({ key, title, kind: "integer" }) as const;
  const words = (key: string, title: string) => ({ key, title, kind: "text" }) as const;
  return new Table({
    ...text,
    rowKey: ["provision", "class"],
    columns: [
      words("provision", "provision"),
      words("class", "class"),
      words("status", "status"),
      whole("n", "n"),
      whole("series", "series"),
      whole("studies", "studies"),
      number("estimate", "5 % fractile"),
      number("lower", "lower bound"),
      number("upper", "upper bound"),
      number("fractile", "factor, fractile"),
      number("as_steel", "factor, as steel"),
      number("reliability", "factor, reliability"),
      words("proposed", "proposed"),
      number("without_worst", "without worst study"),
      number("index_before", "index before"),
      number("index_after", "index after"),
      number("phi", "strength reduction"),
      number("used_before", "mean predicted/test before"),
      number("used_after", "mean predicted/test after"),
    ],
    rows: sheets.flatMap(({ provision, status, classes }) =>
      classes.map((one) => ({
        provision: provision.id,
        class: className(one),
        status: one.steel ? "for comparison" : status,
        ...ballotClassRow(one),
        without_worst: one.withoutWorst?.factor ?? null,
        index_before: one.indexBefore,
        index_after: one.indexAfter,
        phi: one.phi,
        used_before: one.usedBefore,
        used_after: one.usedAfter,
      })),
    ),
  });
}

/** Evidence and factors of a class, as every table of a ballot sheet has them. */
export function ballotClassRow(one: SheetClass): TableRow {
  return {
    n: one.n,
    series: one.series,
    studies: one.studies,
    estimate: one.estimate,
    lower: one.lower,
    upper: one.upper,
    fractile: one.factors.fractile,
    as_steel: one.factors["as steel"],
    reliability: one.factors.reliability,
    proposed: one.steel ? "none" : proposedWords(one),
  };
}
