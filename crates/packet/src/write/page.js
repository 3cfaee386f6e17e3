"use strict";
// Search, filters and sorting. Everything is on the page without them.
(() => {
  const tools = document.getElementById("tools");
  const search = document.getElementById("search");
  const system = document.getElementById("system");
  const signal = document.getElementById("signal");
  const shown = document.getElementById("shown");
  const tables = [...document.querySelectorAll(".paper table")];
  const plain = (text) => text.normalize("NFKD").toLowerCase();
  const words = new Map();
  tools.hidden = false;

  const apply = () => {
    const wanted = plain(search.value.trim()).split(/\s+/).filter(Boolean);
    const filtered = wanted.length > 0 || system.value !== "" || signal.value !== "";
    let count = 0;
    for (const table of tables) {
      let visible = 0;
      let head = null;
      let below = 0;
      const close = () => {
        if (head) head.hidden = filtered && below === 0;
      };
      for (const row of table.tBodies[0].rows) {
        if (row.classList.contains("group")) {
          close();
          head = row;
          below = 0;
          continue;
        }
        if (!words.has(row)) words.set(row, plain(row.textContent));
        const fits =
          wanted.every((word) => words.get(row).includes(word)) &&
          (system.value === "" || row.dataset.system === system.value) &&
          (signal.value === "" || (signal.value === "any" ? row.dataset.signal : row.dataset.signal === signal.value));
        row.hidden = !fits;
        if (fits) {
          visible += 1;
          below += 1;
        }
      }
      close();
      const none = table.parentElement.nextElementSibling;
      if (none && none.classList.contains("none")) none.hidden = visible > 0;
      count += visible;
    }
    shown.textContent = filtered ? `${count} ${shown.dataset.words}` : "";
  };

  let waiting = 0;
  search.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(apply, 80);
  });
  system.addEventListener("change", apply);
  signal.addEventListener("change", apply);
  tools.addEventListener("submit", (event) => event.preventDefault());
  const clear = () => {
    search.value = "";
    system.value = "";
    signal.value = "";
    apply();
  };
  document.getElementById("clear").addEventListener("click", clear);
  document.getElementById("print").addEventListener("click", () => window.print());
  document.addEventListener("keydown", (event) => {
    const typing = /^(INPUT|SELECT|TEXTAREA)$/.test(document.activeElement.tagName);
    if (event.key === "/" && !typing) {
      event.preventDefault();
      search.focus();
    }
  });
  // A link to a row that a filter hides shows it again.
  const reveal = () => {
    const target = location.hash ? document.getElementById(decodeURIComponent(location.hash.slice(1))) : null;
    if (!target) return;
    if (target.hidden) clear();
    const details = target.closest("details");
    if (details) details.open = true;
    target.scrollIntoView();
  };
  addEventListener("hashchange", reveal);
  // A link that was followed before changes nothing in the address.
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[href^='#']");
    if (link && (link.getAttribute("href") === location.hash)) reveal();
  });
  // What is filtered on the screen is printed whole.
  addEventListener("beforeprint", clear);

  // Sorting within the groups of a table.
  const value = (row, column) => {
    const cell = row.cells[column];
    if (!cell) return "";
    return cell.dataset.value === undefined ? plain(cell.textContent.trim()) : Number(cell.dataset.value);
  };
  const compare = (one, other) => {
    if (typeof one === "number" && typeof other === "number") return one - other;
    if (typeof one === "number") return -1;
    if (typeof other === "number") return 1;
    return one.localeCompare(other, undefined, { numeric: true });
  };
  for (const table of document.querySelectorAll("table.sheet")) {
    const heads = [...table.tHead.rows[0].cells];
    heads.forEach((head, column) => {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = head.textContent;
      head.replaceChildren(button);
      button.addEventListener("click", () => {
        const falling = head.getAttribute("aria-sort") === "ascending";
        heads.forEach((other) => other.removeAttribute("aria-sort"));
        head.setAttribute("aria-sort", falling ? "descending" : "ascending");
        const body = table.tBodies[0];
        let block = [];
        const settle = () => {
          const before = block.length ? block[block.length - 1].nextSibling : null;
          block.sort((one, other) => compare(value(one, column), value(other, column)) * (falling ? -1 : 1));
          for (const row of block) body.insertBefore(row, before);
          block = [];
        };
        for (const row of [...body.rows]) {
          if (row.classList.contains("group") || row.classList.contains("total")) settle();
          else block.push(row);
        }
        settle();
      });
    });
  }
  reveal();
})();
