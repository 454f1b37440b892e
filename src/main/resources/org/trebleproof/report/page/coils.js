// A table of coils that is sorted by a click on a head and narrowed by words or ranges. Without this
// script it is read as it stands.
for (const table of document.querySelectorAll("table.coils")) {
  const body = table.tBodies[table.tBodies.length - 1];
  const rows = Array.from(body.rows);
  const heads = Array.from(table.tHead.rows[0].cells);
  const key = (row, at) => row.cells[at].dataset.value ?? row.cells[at].textContent;
  const order = (a, b) => {
    if ((a === "") !== (b === "")) return a === "" ? 2 : -2; // what is not known stands last either way
    const x = Number(a), y = Number(b);
    return Number.isFinite(x) ? x - y : a.localeCompare(b, "en", { numeric: true });
  };
  heads.forEach((head, at) => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    button.addEventListener("click", () => {
      const down = head.getAttribute("aria-sort") === "ascending";
      heads.forEach((h) => h.removeAttribute("aria-sort"));
      head.setAttribute("aria-sort", down ? "descending" : "ascending");
      rows.sort((r, s) => {
        const a = key(r, at), b = key(s, at);
        return a === "" || b === "" ? order(a, b) : down ? order(b, a) : order(a, b);
      });
      body.append(...rows);
    });
    head.replaceChildren(button);
  });
  const label = document.createElement("label");
  const field = document.createElement("input");
  const count = document.createElement("span");
  field.type = "search";
  const first = heads.find((h) => h.classList.contains("number"))?.dataset.code ?? "";
  field.placeholder = "words, or a range such as " + (first === "resistance" ? "R=8k..8.2k" : first + "=0..1");
  label.className = "narrow";
  count.setAttribute("role", "status");
  label.append("Only those with ", field, count);
  table.parentElement.before(label);
  const scale = { k: 1e3, M: 1e6, m: 1e-3, u: 1e-6, "\u00b5": 1e-6, n: 1e-9, p: 1e-12 };
  const number = (text, none) => {
    if (text === "") return none;
    const found = /^([-+]?[0-9.]+)([kMmu\u00b5np]?)[A-Za-z\u03a9]*$/.exec(text);
    return found === null ? NaN : Number(found[1]) * (scale[found[2]] ?? 1);
  };
  const wanted = (row, word) => {
    const range = /^([^=]+)=(.*)\.\.(.*)$/.exec(word);
    if (range === null) return row.textContent.toLowerCase().includes(word.toLowerCase());
    const name = range[1].toLowerCase();
    const at = heads.findIndex((h) => h.dataset.code === name || h.textContent.toLowerCase().split(" ")[0] === name);
    const value = at < 0 ? "" : key(row, at);
    const low = number(range[2], -Infinity), high = number(range[3], Infinity);
    return value !== "" ? Number(value) >= low ? high >= Number(value) : false : false;
  };
  field.addEventListener("input", () => {
    const words = field.value.trim().split(/\s+/).filter((w) => w !== "");
    let left = 0;
    for (const row of rows) {
      row.hidden = words.some((w) => !wanted(row, w));
      left += row.hidden ? 0 : 1;
    }
    count.textContent = words.length === 0 ? "" : " " + left + " of " + rows.length;
  });
}
