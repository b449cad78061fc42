/** Style of the report and of the review page: no outside resource, readable in print and without colour. */
export const REPORT_STYLE = `
:root { color-scheme: light; --ink: #1a1a1a; --line: #767676; --soft: #f3f3f3; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 90rem; padding: 1rem; color: var(--ink); background: #fff; font: 16px/1.5 system-ui, sans-serif; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.25rem; margin-top: 2rem; } h3 { font-size: 1.05rem; margin: 0; }
table { border-collapse: collapse; } th, td { border: 1px solid var(--line); padding: .15rem .5rem; text-align: left; vertical-align: top; }
caption { text-align: left; font-weight: 600; padding: .25rem 0; }
pre { background: var(--soft); padding: .5rem; overflow: auto; max-height: 30rem; white-space: pre-wrap; overflow-wrap: anywhere; margin: .25rem 0; }
section.cell { border: 1px solid var(--line); border-left-width: .5rem; padding: .75rem; margin: 1rem 0; scroll-margin-top: 7rem; }
section.cell:focus-within, section.cell.current { outline: 3px solid #0b5cad; outline-offset: 2px; }
section.cell[data-verdict="changed"], section.cell[data-verdict="failed"] { border-left-color: #a11; border-left-style: double; }
section.cell[data-verdict="not_recorded"] { border-left-style: dashed; }
.verdict { display: inline-block; border: 1px solid currentColor; padding: 0 .4rem; font-weight: 600; }
.beside { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 1rem; }
.beside > div { overflow-x: auto; min-width: 0; } .beside h4 { margin: .5rem 0 .25rem; }
.beside svg, .beside img { max-width: 100%; height: auto; }
.overlaid { grid-template-columns: 1fr; } .overlaid > div { grid-area: 1 / 1; } .overlaid > div + div { opacity: .5; }
.channel, .none { color: #555; font-size: .875rem; margin: .25rem 0; }
.remark { display: block; margin-top: .5rem; } textarea { width: 100%; font: inherit; min-height: 3rem; }
nav.progress { position: sticky; top: 0; background: #fff; border-bottom: 1px solid var(--line); padding: .5rem 0; z-index: 1; }
button, input { font: inherit; padding: .25rem .75rem; }
@media (max-width: 50rem) { .beside { grid-template-columns: 1fr; } }
@media print { nav.progress, form, button { display: none; } section.cell { break-inside: avoid; } pre { max-height: none; } body { max-width: none; } }
`;
