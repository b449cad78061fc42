import { widestLabel } from "./frame";
import { fontSizes } from "./house-style";
import { plainText, wrapText } from "./text-width";

export interface RowLabels {
  /** Labels for the axis, wrapped, each with its detail in small type below. */
  readonly texts: readonly string[];
  /** Left margin that they need, pixels. */
  readonly left: number;
  /** Height that a row needs, pixels. */
  readonly rowHeight: number;
}

const lineHeight = 14;

/**
 * Labels of a figure with one row a group: no wider than two fifths of the figure, so that the data
 * keep their room.
 */
export function rowLabels(
  rows: readonly { readonly label: string; readonly detail?: string }[],
  figureWidth: number,
  leastRow: number,
): RowLabels {
  const room = 0.38 * figureWidth;
  const wrapped = rows.map((row) => ({
    label: wrapText(row.label, room, fontSizes.text).map(plainText),
    detail: wrapText(row.detail ?? "", room, fontSizes.small).map(
      (line) => `<span style="font-size:${fontSizes.small}px">${plainText(line)}</span>`,
    ),
  }));
  const lines = Math.max(1, ...wrapped.map((row) => row.label.length + row.detail.length));
  const texts = wrapped.map((row) => [...row.label, ...row.detail].join("<br>"));
  return {
    texts,
    left: widestLabel(texts) + 14,
    rowHeight: Math.max(leastRow, lines * lineHeight + 8),
  };
}

/** Narrow figures have no room for words beside the rows: they join the detail under the label. */
export function detailWith(detail: string, remark: string | undefined, narrow: boolean): string {
  return narrow && remark !== undefined && remark !== "" ? `${detail}: ${remark}` : detail;
}
