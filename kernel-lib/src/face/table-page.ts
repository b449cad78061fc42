import { escapeHtml, type Table } from "../tables";

const style = `body{font:16px/1.45 "DejaVu Sans",Verdana,sans-serif;color:#1a1a1a;background:#fff;margin:1.5rem auto;max-width:80rem;padding:0 1rem}
h1{font-size:1.15rem}.wide{overflow-x:auto}table{border-collapse:collapse}thead th{border-bottom:2px solid #404040;vertical-align:bottom}
th,td{padding:.3rem .6rem;border-bottom:1px solid #bfbfbf;text-align:left;vertical-align:top}tbody th{font-weight:normal}
caption{text-align:left;padding-bottom:.5rem}tfoot td{color:#404040;font-size:.85rem;border-bottom:0}tfoot p{margin:.2rem 0}
@media print{.wide{overflow:visible}thead{display:table-header-group}tr{break-inside:avoid}}`;

/**
 * A table as one HTML file that works offline; wide tables scroll inside their frame, also by
 * keyboard.
 */
export function tablePage(table: Table): string {
  const title = escapeHtml(table.title);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}</title>
<style>${style}</style>
</head>
<body>
<main>
<h1>${title}</h1>
<div class="wide" tabindex="0" role="region" aria-label="${title}">
${table.toHtml()}</div>
</main>
</body>
</html>
`;
}
