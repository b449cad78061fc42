/**
 * Style of the report and of the review page: no outside resource, readable in print and without
 * colour.
 */
export const REPORT_STYLE = `
:root { color-scheme: light dark; --paper: #fff; --mark: #fff0b3; --faint: #555; --ink: #1a1a1a; --line: #767676; --hair: #c8c8c8; --soft: #f4f4f2; --alert: #9c1c1c; --focus: #0b5cad; }
@media (prefers-color-scheme: dark) { :root { --paper: #17181a; --mark: #5c4a00; --faint: #b4b4b4; --ink: #ececec; --line: #8d8d8d; --hair: #4a4b4e; --soft: #25272a; --alert: #ff9b93; --focus: #7ab8ff; } .markup svg, .half img { background: #fff; color: #1a1a1a; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 96rem; padding: 0 1.25rem 4rem; color: var(--ink); background: var(--paper); font: 16px/1.5 system-ui, sans-serif; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.25rem; margin: 2rem 0 .5rem; } h3, .cell-heading { font-size: 1.05rem; margin: 0 0 .25rem; }
p { margin: .4rem 0; max-width: 75ch; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; } td[data-column^=verdict] { white-space: nowrap; } th, td { border: 1px solid var(--hair); padding: .15rem .5rem; text-align: left; vertical-align: top; }
thead th { background: var(--soft); } tbody th { font-weight: 400; }
caption { text-align: left; font-weight: 600; padding: .25rem 0; }
pre { background: var(--soft); padding: .5rem; overflow: auto; max-height: 30rem; white-space: pre-wrap; overflow-wrap: anywhere; margin: .25rem 0; font-size: .875rem; }
:focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; }
.hash { font-size: .8rem; overflow-wrap: anywhere; }
section.cell { border: 1px solid var(--line); border-left-width: .5rem; padding: .75rem 1rem; margin: 1rem 0; }
section.cell[data-verdict="changed"], section.cell[data-verdict="failed"] { border-left-color: var(--alert); border-left-style: double; }
section.cell[data-verdict="not_recorded"] { border-left-style: dashed; }
.verdict { display: inline-block; border: 1px solid currentColor; padding: 0 .4rem; font-weight: 600; font-size: .9rem; margin-left: .25rem; }
[data-verdict="changed"] .verdict, [data-verdict="failed"] .verdict { color: var(--alert); border-width: 2px; }
.differences, .summary, .markup { overflow-x: auto; }
.differences { max-height: 24rem; overflow-y: auto; margin: .5rem 0; } .differences table { font-size: .875rem; line-height: 1.4; } .differences tbody th, .differences td { overflow-wrap: anywhere; min-width: 12.5em; } .differences td:nth-child(n+4) { overflow-wrap: normal; min-width: 0; }
details.code { margin: .25rem 0; } summary { cursor: pointer; }
.pair { border-top: 1px solid var(--hair); margin-top: .5rem; padding-top: .25rem; }
.halves { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 0 1.25rem; }
.wide .halves { grid-template-columns: minmax(0, 1fr); } .half { min-width: 0; } .side { font-size: .8rem; font-weight: 600; color: var(--faint); margin: .25rem 0; }
.markup svg, .half img { max-width: 100%; height: auto; }
.markup table { font-size: .8rem; line-height: 1.35; } .markup th, .markup td { padding: .1rem .35rem; }
.differs { color: var(--alert); font-weight: 700; } .markup .differs { display: block; max-width: 11rem; white-space: normal; } mark { background: var(--mark); color: inherit; text-decoration: underline; }
fieldset.view { border: 0; margin: .25rem 0; padding: 0; font-size: .875rem; } fieldset.view legend { float: left; margin-right: .75rem; font-weight: 600; padding: 0; } fieldset.view label { margin-right: .9rem; white-space: nowrap; }
.pictures:not(:has(input[value="beside"]:checked)) .halves { grid-template-columns: minmax(0, 1fr); max-width: 60rem; }
.pictures:not(:has(input[value="beside"]:checked)) .half { grid-area: 1 / 1; }
.pictures:has(input[value="overlaid"]:checked) .rerun { opacity: .5; } .pictures:has(input[value="overlaid"]:checked) .side { visibility: hidden; }
.pictures:has(input[value="recorded"]:checked) .rerun, .pictures:has(input[value="rerun"]:checked) .recorded { visibility: hidden; }
.written p, .written li { font-size: .9rem; max-width: 60ch; } blockquote { margin: .5rem 0; border-left: 3px solid var(--line); padding-left: .75rem; }
.channel, .none { color: var(--faint); font-size: .875rem; margin: .25rem 0; }
.remark { display: block; margin-top: .5rem; border-left: 3px solid var(--line); padding-left: .5rem; white-space: pre-wrap; }
@media (max-width: 60rem) { .pictures .halves { grid-template-columns: minmax(0, 1fr); } }
@media (max-width: 46rem) { .halves { grid-template-columns: minmax(0, 1fr); } }
@media (max-width: 30rem) { body { padding-inline: .6rem; } section.cell { padding: .5rem .6rem; border-left-width: .3rem; } h2, .explanation, .hash, .remark, li { overflow-wrap: anywhere; } .markup .differs { max-width: 9rem; overflow-wrap: anywhere; } .differences tbody th, .differences td { min-width: 7em; } }
@page { margin: 14mm; }
@media print {
  :root { color-scheme: light; --paper: #fff; --mark: #fff0b3; --faint: #555; --ink: #1a1a1a; --line: #767676; --hair: #c8c8c8; --soft: #f4f4f2; --alert: #9c1c1c; }
  body { max-width: none; font-size: 10pt; padding: 0; } fieldset.view, details.code:not([open]) { display: none; }
  pre, .differences { max-height: none; overflow: visible; } .markup { overflow: visible; } .markup table { font-size: 7pt; } .markup th, .markup td { padding: .05rem .2rem; overflow-wrap: break-word; } .differences table { font-size: 8pt; }
  section.cell { padding: .4rem .6rem; } h2, h3, .side, caption { break-after: avoid; } tr, .pictures, .markup svg { break-inside: avoid; }
}
`;
