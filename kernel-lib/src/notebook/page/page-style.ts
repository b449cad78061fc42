/** What the live page adds to the report's style. */
export const PAGE_STYLE = `
header { position: sticky; top: 0; z-index: 2; background: var(--paper); border-bottom: 2px solid var(--line); padding: .4rem 0; margin: 0 -1.25rem; padding-inline: 1.25rem; }
header h1 { font-size: 1.1rem; margin: 0 0 .3rem; }
.toolbar { display: flex; flex-wrap: wrap; gap: .4rem .6rem; align-items: center; }
button, input, textarea { font: inherit; } button { padding: .2rem .7rem; border: 1px solid var(--line); border-radius: .25rem; background: var(--soft); cursor: pointer; }
button { color: var(--ink); } button:hover { border-color: var(--ink); } button[disabled] { color: var(--faint); cursor: default; }
input { padding: .15rem .4rem; border: 1px solid var(--line); border-radius: .2rem; }
kbd { font: .8rem ui-monospace, monospace; border: 1px solid var(--line); border-radius: .2rem; padding: 0 .25rem; background: var(--paper); }
.second { display: flex; flex-wrap: wrap; gap: .2rem 2rem; align-items: center; margin-top: .35rem; } .where { margin: 0; max-width: none; } progress { width: 10rem; height: .8rem; vertical-align: middle; accent-color: var(--focus); }
.look { font-size: .9rem; } h2:first-child { margin-top: 0; } #looked { font-family: ui-monospace, monospace; white-space: pre-wrap; overflow-wrap: anywhere; } #looked:not(:empty) { display: block; max-height: 10rem; overflow: auto; background: var(--soft); padding: .25rem .5rem; margin-top: .25rem; }
nav ol { padding-left: 1.5rem; margin: .5rem 0; columns: 22rem; } .outcome { font-size: .875rem; color: var(--faint); } nav [aria-current] { font-weight: 700; }
a { color: var(--focus); } .prose { max-width: 75ch; margin: 1.5rem 0 .5rem; }
section.cell { scroll-margin-top: var(--head, 9rem); } section.cell.current { box-shadow: 0 0 0 3px var(--focus); } section.cell:focus { outline: none; }
section.cell[data-verdict="waiting"] { border-color: var(--hair); } section.cell { position: relative; } .runto { position: absolute; top: .6rem; right: 1rem; margin: 0; font-size: .875rem; } section.cell[data-verdict="waiting"] .cell-heading { padding-right: 12rem; } section.cell:not([data-verdict="waiting"]) .runto { display: none; }
section.cell[data-verdict="running"] .verdict { font-style: italic; }
.comment { border-top: 1px solid var(--hair); margin-top: .75rem; padding-top: .5rem; display: flex; flex-wrap: wrap; gap: .5rem 1.5rem; align-items: flex-start; }
fieldset.opinion { border: 0; padding: 0; margin: 0; font-size: .9rem; } .opinion legend { font-weight: 600; padding: 0; } .opinion label { margin-right: .75rem; }
.remarked { flex: 1 1 24rem; font-size: .9rem; font-weight: 600; } textarea { display: block; width: 100%; font-weight: 400; font-size: 1rem; border: 1px solid var(--line); }
.closing { border-top: 2px solid var(--line); margin-top: 2rem; } #told { color: var(--alert); }
dialog { max-width: 44rem; border: 2px solid var(--line); border-radius: .4rem; } dialog::backdrop { background: rgb(0 0 0 / .35); }
@media (max-width: 30rem) { header { position: static; margin-inline: -.6rem; padding-inline: .6rem; } header h1 { font-size: 1rem; } .toolbar kbd, .look kbd { display: none; } progress { width: 5rem; } #expression { width: 100%; } section.cell { scroll-margin-top: .5rem; } .runto { position: static; } section.cell[data-verdict="waiting"] .cell-heading { padding-right: 0; } }
@media (max-height: 40rem) { header { position: static; } section.cell { scroll-margin-top: 1rem; } }
@media print { header { position: static; border: 0; } .toolbar, .look, #bar, #running, .runto, .closing form, .closing button, nav, dialog, .closing p { display: none; } textarea { border: 0; resize: none; } .comment:has(textarea:placeholder-shown):has(input[value=""]:checked) { display: none; } .opinion label:not(:has(:checked)) { display: none; } .opinion input { display: none; } }
`;
