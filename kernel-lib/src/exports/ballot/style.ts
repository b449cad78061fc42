/**
 * One style for ballot sheets: black on white, nothing below 8 pt but subscripts. No size of paper
 * is set, so that A4 and letter print from one file.
 */
export const BALLOT_STYLE = `:root{--text:8.5pt;--table:8pt;--rule:.5pt solid #000;--hair:.4pt solid #8a8a8a;--pad:.28mm;color-scheme:light}
*{box-sizing:border-box}@page{margin:8mm 13mm 7mm}html{background:#e9e9e9}
body{margin:0;color:#000;font:var(--text)/1.2 "DejaVu Sans Condensed","Liberation Sans",Arial,"DejaVu Sans",sans-serif;font-variant-numeric:tabular-nums lining-nums}
.page{width:210mm;min-height:297mm;margin:6mm auto;padding:8mm 13mm 7mm;background:#fff;display:flex;flex-direction:column;justify-content:space-between;gap:1.1mm}
.head,.foot{display:flex;justify-content:space-between;gap:6mm}.head{border-bottom:1.5pt solid #000;padding-bottom:.7mm}.foot{border-top:var(--rule);padding-top:.7mm}
.head span,.foot span:last-child{white-space:nowrap}
h1{font-size:14pt;line-height:1.2;margin:0}h2{font-size:10pt;line-height:1.15;margin:0 0 .5mm;padding-top:.5mm;border-top:1pt solid #000;break-after:avoid}
h2 .no{display:inline-block;min-width:1.4em}h2 small{font-size:var(--text);font-weight:normal}
p{margin:0 0 .5mm}p:last-child{margin-bottom:0}.note{margin-top:.5mm}ul{margin:0;padding-left:4mm}li{margin-bottom:.1mm}
sub,sup{font-size:80%;line-height:0;vertical-align:-.25em}sup{vertical-align:.4em}.key{padding-left:4mm}
.row{display:grid;grid-template-columns:15fr 10fr;column-gap:5mm;row-gap:1mm}.wide{grid-column:span 2}.stack{display:flex;flex-direction:column;gap:1.2mm}
section{break-inside:avoid}
.status{display:grid;grid-template-columns:auto 1fr;column-gap:3mm;align-items:center;padding:.8mm 2.5mm;border:.8pt solid #000}
.status strong{font-size:10.5pt;line-height:1.2;width:36mm}.status p{margin:0;border-left:var(--rule);padding-left:3mm}
.status.against{border:2.6pt double #000}.status.stands{border:1pt dashed #000}
.law{border-left:2pt solid #000;padding-left:3mm}.law .clause{font-weight:bold;margin-bottom:.5mm}
.law dl{display:grid;grid-template-columns:16mm 1fr;gap:.2mm 1.5mm;margin:0 0 .8mm;line-height:1.3}.law dt{font-weight:bold}.law dd{margin:0}
ins{text-decoration:underline;text-decoration-thickness:.6pt;text-underline-offset:.38em;text-decoration-skip-ink:none}
del{text-decoration:line-through;text-decoration-thickness:.8pt}del sub{display:inline-block;text-decoration:line-through;text-decoration-thickness:.7pt}
td ins{text-underline-offset:.25em}
table{border-collapse:collapse;width:100%;font-size:var(--table);line-height:1.22}caption{text-align:left;font-size:var(--text);padding-bottom:.8mm}
th,td{padding:var(--pad) 1.2mm;text-align:left;vertical-align:middle;border-bottom:var(--hair)}
th:first-child,td:first-child{padding-left:0}th:last-child,td:last-child{padding-right:0}
thead th{vertical-align:bottom;border-bottom:var(--rule);line-height:1.16}thead tr:first-child>*{border-top:var(--rule)}
thead .span{text-align:center;white-space:nowrap}tbody th{font-weight:normal}tbody tr:last-child>*{border-bottom:var(--rule)}
.num{text-align:right;white-space:nowrap}.prop{font-weight:bold}svg{display:block;width:38mm;height:auto;margin:0 auto;overflow:visible}svg text{font-family:inherit}.plot{padding:0 1mm}
.answer{font-size:10.5pt;font-weight:bold;padding:.8mm 2.5mm;border:1pt solid #000}.cover td[data-column^=verdict],.cover td[data-column=status]{font-weight:bold}tfoot td{border:0;font-style:italic;padding:.2mm 0}tfoot p{margin:0}
.vote{display:grid;grid-template-columns:auto auto;gap:1mm 3mm;margin:0;padding:0;list-style:none}.vote li{margin:0;padding-left:5mm;position:relative}
.vote li::before{content:"";position:absolute;left:0;top:.4mm;width:3mm;height:3mm;border:.8pt solid #000}
.sign{display:grid;grid-template-columns:2fr 1fr;gap:4mm;margin-top:5mm}.sign span{border-top:var(--rule);padding-top:.5mm}
@media print{html{background:none}.page{width:auto;min-height:99.4vh;margin:0;padding:0;break-after:page}.page:last-of-type{break-after:auto}.page.cover{break-after:page}thead{display:table-header-group}}`;
