import type { CodeDefinition } from "../provisions";
import { Table } from "./table";

/** Every provision of the codes given: id, what it predicts, at which levels, its limits and how sure its equation is. */
export function provisionTable(codes: readonly CodeDefinition[]): Table {
  return new Table({
    id: "provisions",
    title: "Provisions",
    rowKey: ["code", "id"],
    columns: [
      { key: "code", title: "code", kind: "text" },
      { key: "id", title: "provision", kind: "text" },
      { key: "title", title: "title", kind: "text" },
      { key: "action", title: "action", kind: "text" },
      { key: "modes", title: "modes", kind: "text" },
      { key: "levels", title: "levels", kind: "text" },
      { key: "confidence", title: "confidence", kind: "text", note: "H: as known; M: to be checked against a licensed copy" },
      { key: "limits", title: "limits", kind: "text" },
    ],
    rows: codes.flatMap((code) => code.provisions.map((provision) => ({
      code: code.id, id: provision.id, title: provision.title, action: provision.action, modes: provision.modes.map((mode) => mode.replaceAll("_", " ")).join(", "), levels: provision.levels.join(", "),
      confidence: provision.confidence, limits: provision.limits.map(({ clause, says, effect }) => `${clause}: ${says}${effect === "outside" ? " (reported only)" : ""}`).join("; "),
    }))),
    notes: codes.flatMap((code) => code.gaps.map((gap) => `${code.id}, not coded: ${gap}`)),
  });
}
