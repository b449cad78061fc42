import type { EmbedmentForMode, RowElasticities } from "../provisions";
import { clauseOf, variableWords } from "../provisions";
import type { TableText } from "./table-text";
import { Table } from "./table";

/**
 * Elasticities of one row: a line for each number that some capacity follows, a column for each
 * capacity, the governing one marked. Switches nearby and what does not apply stand in the notes.
 */
export function elasticityTable(all: RowElasticities, text: TableText): Table {
  const followed = all.variables.filter((variable) =>
    all.capacities.some(({ by }) =>
      by.some(
        (one) => one.variable === variable && (one.elasticity !== 0 || one.switches.length > 0),
      ),
    ),
  );
  const unmoved = all.variables
    .filter((variable) => !followed.includes(variable))
    .map(({ name }) => variableWords(name));
  const percent = 100 * all.within;
  const capacities = all.capacities.map((one) =>
    one.provision === all.governing?.provision ? all.governing : one,
  );
  return new Table({
    ...text,
    rowKey: ["variable"],
    columns: [
      { key: "variable", title: "input of the row", kind: "text" },
      { key: "value", title: "value", kind: "text", align: "right" },
      ...capacities.map(({ provision, governs }) => ({
        key: provision.id,
        title: `${provision.modes[0].replaceAll("_", " ")}, ${clauseOf(provision.id)}${governs ? " (governs)" : ""}`,
        kind: "number" as const,
        limit: null,
      })),
    ],
    rows: [
      ...followed.map((variable) => ({
        variable: variableWords(variable.name),
        value:
          `${Number(variable.value.toPrecision(6))} ${variable.unit.replace("mm2", "mm²")}`.trim(),
        ...Object.fromEntries(
          capacities.map(({ provision, by }) => [
            provision.id,
            by.find((one) => one.variable === variable)?.elasticity ?? 0,
          ]),
        ),
      })),
      {
        variable: "capacity (kN)",
        value: null,
        ...Object.fromEntries(
          capacities.map(({ provision, capacity_N }) => [provision.id, capacity_N / 1000]),
        ),
      },
    ],
    notes: [
      "Percent change in capacity per 1 % change in the input, all other inputs unchanged; exact derivatives of the equations.",
      ...switchNotes(capacities, percent),
      ...(unmoved.length > 0 ? [`No effect on any capacity: ${unmoved.join("; ")}.`] : []),
      ...all.withheld.map(
        ({ provision, reasons }) =>
          `Does not apply: ${provision.title} (${clauseOf(provision.id)}): ${reasons.map(({ says }) => says).join("; ")}.`,
      ),
      ...(text.notes ?? []),
    ],
  });
}

function switchNotes(capacities: RowElasticities["capacities"], percent: number): string[] {
  const notes = capacities.flatMap(({ provision, by }) =>
    by.flatMap(({ variable, switches }) =>
      switches.map(({ at, relative, because, elasticityBeyond, jump }) => {
        const beyond = Number.isNaN(elasticityBeyond)
          ? "no capacity beyond"
          : `elasticity beyond ${Number(elasticityBeyond.toPrecision(3))}`;
        return `${clauseOf(provision.id)} by ${variableWords(variable.name)}: at ${Number(at.toPrecision(5))} ${variable.unit} (${(100 * relative).toFixed(2)} %), ${because}; ${beyond}${jump === 0 || Number.isNaN(jump) ? "" : `; the capacity jumps by ${(100 * jump).toFixed(1)} %`}.`;
      }),
    ),
  );
  return notes.length === 0 ? [`No change of branch within ${percent} % of any input.`] : notes;
}

/**
 * The embedments that give a wanted mode, one interval a row; without any, the nearest miss stands
 * in the notes.
 */
export function embedmentTable(answer: EmbedmentForMode, text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["from"],
    columns: [
      { key: "from", title: "embedment from", kind: "number", unit: "mm", digits: 4 },
      { key: "to", title: "to", kind: "number", unit: "mm", digits: 4 },
      { key: "from_because", title: "lower end", kind: "text" },
      { key: "to_because", title: "upper end", kind: "text" },
    ],
    rows: answer.intervals.map((one) => ({
      from: one.from,
      to: one.to,
      from_because: one.fromBecause,
      to_because: one.toBecause,
    })),
    notes: [
      answer.reading,
      "Point predictions: a margin is not a probability, and scatter of either load can reverse the order.",
      ...(text.notes ?? []),
    ],
  });
}
