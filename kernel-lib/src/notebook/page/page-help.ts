/** The keys of the review page and what they do; the page's script knows the same letters. */
export const PAGE_KEYS: readonly (readonly [key: string, does: string])[] = [
  ["n", "run the next cell and go to it"],
  ["t", "run up to the framed cell, where you are"],
  ["e", "run all cells that are left"],
  ["s", "stop the running cell"],
  ["j, k", "go to the next cell, the cell before"],
  ["d", "go to the next cell that is not the same"],
  ["c", "open or close the code of the cell"],
  ["o", "lay the rerun figure over the recorded one, or set them side by side"],
  ["x", "show the recorded figure alone, then the rerun alone, in the same place"],
  ["g, u", "agree with the cell, question it"],
  ["r", "write a remark on the cell; Escape leaves the box"],
  ["v", "look at a variable"],
  ["?", "this help"],
];

/** The help of the page, as a dialog. */
export function helpHtml(): string {
  const rows = PAGE_KEYS.map(
    ([key, does]) =>
      `<tr><th scope="row">${key
        .split(", ")
        .map((one) => `<kbd>${one}</kbd>`)
        .join(" ")}</th><td>${does}</td></tr>`,
  );
  return `<dialog id="help" aria-labelledby="help-title"><h2 id="help-title">Keys and help</h2>
<table><thead><tr><th scope="col">Key</th><th scope="col">What it does</th></tr></thead><tbody>${rows.join("")}</tbody></table>
<p>Everything can also be reached with Tab, Enter and the arrow keys. Letters do nothing while you write.</p>
<p><label><input type="checkbox" id="letters" checked> letters act as keys</label></p>
<p>Remarks and opinions are kept by the program in the terminal as you write: the page may be loaded again. Closing the page ends the review after a short while and writes the report.</p>
<form method="dialog"><button>Close</button></form></dialog>`;
}
