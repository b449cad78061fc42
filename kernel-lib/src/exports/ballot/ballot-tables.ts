import { className, proposedWords, type BallotSheet, type SheetClass } from "../../proposals";
import { escapeText } from "../document/document-html";
import { fractileDrawing, indexDrawing, scaleDrawing, scaleFor } from "./drawings";
import { verdictWords } from "./sheet-words";

/** A numbered block of a sheet. */
export function section(no: number, title: string, content: string, small = ""): string {
  return `<section><h2><span class="no">${no}</span>${title}${small === "" ? "" : ` <small>(${small})</small>`}</h2>
${content}</section>`;
}

const two = (value: number | null): string => value?.toFixed(2) ?? "–";
const num = (text: string, more = ""): string => `<td class="num${more}">${text}</td>`;

/** Block 4: the tests by class, and the factor by each criterion. */
export function evidenceHtml({ classes }: BallotSheet): string {
  const scale = scaleFor(
    [
      1,
      ...classes.flatMap((one) => [
        one.lower,
        one.upper,
        one.applied?.least ?? null,
        one.withoutWorst?.factor ?? null,
      ]),
    ],
    0.1,
  );
  const row = (one: SheetClass): string => {
    const { factors, withoutWorst, applied } = one;
    return `<tr><th scope="row">${escapeText(className(one))}</th>${num(`${one.n}${one.lowerBounds > 0 ? ` + ${one.lowerBounds}` : ""}`)}${num(String(one.series))}${num(String(one.studies))}${num(two(one.estimate))}${num(two(one.lower))}${num(two(one.upper))}<td class="plot">${fractileDrawing(
      scale,
      {
        label: className(one),
        estimate: one.estimate,
        lower: one.lower,
        upper: one.upper,
        proposed: applied?.least ?? null,
        withoutWorst: withoutWorst?.factor ?? null,
      },
    )}</td>${num(two(factors.fractile))}${num(two(factors["as steel"]))}${num(two(factors.reliability))}${num(one.steel ? "none" : proposedWords(one), " prop")}${num(withoutWorst === null ? "–" : `${withoutWorst.factor.toFixed(2)}${withoutWorst.adequate ? "" : " ✕"}`)}</tr>`;
  };
  const criteria = [
    ...new Set(classes.filter(({ steel }) => !steel).map(({ criterion }) => criterion)),
  ];
  return section(
    4,
    "Evidence",
    `<p><b>Verdict.</b> ${escapeText(verdictWords(classes))}</p>
<table><thead>
<tr><th rowspan="2" scope="col">Class</th><th rowspan="2" scope="col" class="num">Tests<br><i>n</i></th><th rowspan="2" scope="col" class="num">Series</th><th rowspan="2" scope="col" class="num">Studies</th><th colspan="4" scope="colgroup" class="span">5 % fractile, one-sided 90 % bounds (–)</th><th colspan="3" scope="colgroup" class="span">Factor by criterion (–)</th><th rowspan="2" scope="col" class="num">Pro-<br>posed</th><th rowspan="2" scope="col" class="num">Without<br>worst<br>study</th></tr>
<tr><th scope="col" class="num">Est.</th><th scope="col" class="num">Lower</th><th scope="col" class="num">Upper</th><th scope="col" class="span" style="width:40mm">Drawn</th><th scope="col" class="num">Fractile</th><th scope="col" class="num">As<br>steel</th><th scope="col" class="num">Relia-<br>bility</th></tr>
</thead><tbody>
${classes.map(row).join("\n")}
<tr><td colspan="7"></td><td class="plot">${scaleDrawing(scale, "fractile and factor", 1)}</td><td colspan="5" class="key">Dot: estimate; bar: bounds; dashed: proposed; ✕: without the worst study.</td></tr>
</tbody></table>
<p class="note"><b>✕ left of the dashed line: the factor does not remain adequate.</b> Proposed by the criterion ${criteria.map((one) => `“${one}”`).join(", ")}. n + lower bounds. Series effect included, of the layout that decides.</p>`,
    "test/predicted at the nominal level; tests that failed in this mode",
  );
}

/** Block 5: index and strength used before and after. */
export function priceHtml({ classes, consequences, target, loads }: BallotSheet): string {
  const scale = scaleFor(
    [target, ...classes.flatMap((one) => [one.indexBefore, one.indexAfter])],
    0.5,
  );
  const percent = (value: number | null): string =>
    value === null ? "–" : (100 * value).toFixed(0);
  const phis = [...new Set(classes.flatMap(({ phi }) => (phi === null ? [] : [phi.toFixed(2)])))];
  const row = (one: SheetClass): string =>
    `<tr><th scope="row">${escapeText(className(one))}</th>${num(two(one.indexBefore))}${num(two(one.indexAfter))}<td class="plot">${indexDrawing(scale, className(one), one.indexBefore, one.indexAfter, target)}</td>${num(two(one.usedBefore))}${num(two(one.usedAfter))}${num(percent(one.usedBefore === null ? null : 1 - one.usedBefore))}${num(percent(one.usedAfter === null ? null : 1 - one.usedAfter))}${num(percent(one.belowBefore))}${num(percent(one.belowAfter))}</tr>`;
  const also = consequences.map(
    ({ clause, label, lowerBefore, lowerAfter, usedBefore, usedAfter }) =>
      `${clause}, ${label}: ${lowerBefore === null ? "" : `lower bound ${two(lowerBefore)}, then ${two(lowerAfter)}; `}predicted/test ${two(usedBefore)}, then ${two(usedAfter)}`,
  );
  return section(
    5,
    "Safety and price",
    `<table><thead>
<tr><th rowspan="2" scope="col">Class</th><th colspan="3" scope="colgroup" class="span">Reliability index <i>β</i> (–)</th><th colspan="2" scope="colgroup" class="span">Mean predicted/test (–)</th><th colspan="2" scope="colgroup" class="span">Strength not used (%)</th><th colspan="2" scope="colgroup" class="span">Tests below 1 (%)</th></tr>
<tr><th scope="col" class="num">before</th><th scope="col" class="num">after</th><th scope="col" class="span" style="width:40mm">Drawn</th><th scope="col" class="num">before</th><th scope="col" class="num">after</th><th scope="col" class="num">before</th><th scope="col" class="num">after</th><th scope="col" class="num">before</th><th scope="col" class="num">after</th></tr>
</thead><tbody>
${classes.map(row).join("\n")}
<tr><td colspan="3"></td><td class="plot">${scaleDrawing(scale, "reliability index", scale.ticks.every(Number.isInteger) ? 0 : 1)}</td><td colspan="6" class="key">Open circle: before; full circle: after; dashed line: target.</td></tr>
</tbody></table>
<p class="note">Least index over load ratios 0.3 to 0.7, ${escapeText(loads.split(",")[0] ?? loads)}. ${also.length === 0 ? "" : `<b>Moves with it:</b> ${escapeText(also.join(". "))}.`}</p>`,
    `target index ${target}; present strength reduction <i>ϕ</i> = ${phis.length === 0 ? "not stated" : phis.join(" and ")}`,
  );
}
