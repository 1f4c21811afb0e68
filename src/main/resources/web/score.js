"use strict";
// Sorts a score's patches in the page by the heading that is pressed. Without this script the
// headings' buttons ask the server for the same.
(() => {
  for (const table of document.querySelectorAll("table[data-sortable]")) {
    const headings = [...table.tHead.rows[0].cells];
    const body = table.tBodies[0];

    const value = (row, index, numeric) => {
      const text = row.cells[index].dataset.v || "";
      return numeric ? (text === "" ? -Infinity : Number(text)) : text;
    };
    const compare = (a, b) => (typeof a === "number" ? a - b || 0 : a.localeCompare(b, undefined, { numeric: true }));

    const sort = (heading, index, button) => {
      const numeric = button.dataset.numeric === "yes";
      const now = heading.getAttribute("aria-sort");
      const descending = now ? now === "ascending" : numeric;
      const rows = [...body.rows];
      rows.sort((a, b) => {
        const x = value(a, index, numeric);
        const y = value(b, index, numeric);
        const order = x === y ? 0 : compare(x, y);
        return descending ? -order : order;
      });
      for (const other of headings) {
        other.removeAttribute("aria-sort");
      }
      heading.setAttribute("aria-sort", descending ? "descending" : "ascending");
      body.append(...rows);
      window.selvage.say("Sorted by " + button.textContent.trim() + (descending ? ", descending." : ", ascending."));
    };

    headings.forEach((heading, index) => {
      const button = heading.querySelector("button");
      if (button) {
        button.addEventListener("click", (event) => {
          event.preventDefault();
          sort(heading, index, button);
        });
      }
    });
  }
})();
