"use strict";
// In tables that can be sorted, a button in each heading orders the rows by its column. Cells that are missing stay last.
const order = new Intl.Collator("en", { numeric: true });

function keyOf(row, column) {
  const cell = row.cells[column];
  if (cell.classList.contains("missing")) return null;
  return cell.dataset.value === undefined ? cell.textContent : Number(cell.dataset.value);
}

function compared(a, b) {
  if (a === null || b === null) return 0;
  return typeof a === "number" ? a - b : order.compare(a, b);
}

function sort(table, heading) {
  const sign = heading.getAttribute("aria-sort") === "ascending" ? -1 : 1;
  for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
  heading.setAttribute("aria-sort", sign === 1 ? "ascending" : "descending");
  const keyed = Array.from(table.tBodies[0].rows, (row) => [keyOf(row, heading.cellIndex), row]);
  keyed.sort(([a], [b]) => (a === null) - (b === null) || sign * compared(a, b));
  table.tBodies[0].append(...keyed.map(([, row]) => row));
}

for (const table of document.querySelectorAll("table.sortable")) {
  for (const heading of table.tHead.rows[0].cells) {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...heading.childNodes);
    button.addEventListener("click", () => sort(table, heading));
    heading.append(button);
  }
}
