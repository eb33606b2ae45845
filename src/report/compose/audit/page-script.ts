/** Sorts and filters the table of an audit. The page is complete without it. */
export const PAGE_SCRIPT = `
(() => {
  const table = document.getElementById("screens");
  const body = table.tBodies[0];
  const rows = [...body.rows];
  const controls = document.getElementById("controls");
  const text = document.getElementById("filter-text");
  const check = document.getElementById("filter-check");
  const state = document.getElementById("filter-state");
  const said = document.getElementById("shown");
  controls.hidden = false;
  const filter = () => {
    const words = text.value.trim().toLowerCase();
    let shown = 0;
    for (const row of rows) {
      const states = check.value === "" ? (row.dataset.states || "").split(" ") : [row.dataset[check.value]];
      const fits = (state.value === "" || states.includes(state.value)) &&
        (words === "" || row.textContent.toLowerCase().includes(words));
      row.hidden = !fits;
      if (fits) shown += 1;
    }
    said.textContent = shown + " of " + rows.length + " screens shown";
  };
  for (const control of [text, check, state]) control.addEventListener("input", filter);
  const heads = [...table.tHead.rows[0].cells];
  const buttons = [];
  heads.forEach((head, index) => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    head.replaceChildren(button);
    buttons.push(button);
    button.addEventListener("click", () => {
      const down = head.getAttribute("aria-sort") === "ascending";
      for (const other of heads) other.removeAttribute("aria-sort");
      head.setAttribute("aria-sort", down ? "descending" : "ascending");
      const key = (row) => row.cells[index].dataset.key || row.cells[index].textContent;
      rows.sort((a, b) => key(a).localeCompare(key(b), "en", { numeric: true }) * (down ? -1 : 1));
      body.append(...rows);
    });
  });
  // On paper the head stands on every page, which browsers do with text and not with buttons.
  addEventListener("beforeprint", () => heads.forEach((head, index) => head.replaceChildren(buttons[index].textContent)));
  addEventListener("afterprint", () => heads.forEach((head, index) => head.replaceChildren(buttons[index])));
  filter();
})();
`;
