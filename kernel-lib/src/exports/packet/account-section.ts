import { accountOf } from "../../comparison";
import { accountTable } from "../../tables";
import type { Section } from "../document/document";
import { accountByStudy, stepsOfAccount } from "./cover-tables";
import type { PacketResults } from "./packet-results";
import { paragraph } from "./paragraph";

/** What became of every row read: by step, by study and by reason, and the excluded tests. */
export function accountSection(results: PacketResults): Section {
  const { comparison, studies, rejected = [], excluded } = results;
  const account = accountOf(comparison, rejected);
  return {
    id: "excluded",
    title: "Account of rows and excluded tests",
    blocks: [
      paragraph(
        "Every row is accounted for. The first table goes from the rows read to the rows used; the second gives the same rows by study, the third by reason; the last lists the excluded tests with the reason for each.",
      ),
      { kind: "table", table: stepsOfAccount(account) },
      { kind: "table", table: accountByStudy(comparison, studies) },
      {
        kind: "table",
        table: accountTable(account, { id: "account-of-rows", title: "Account of rows by reason" }),
      },
      { kind: "table", table: excluded },
    ],
  };
}
