"use strict";
// Opens the pages of packets in Chromium and looks at everything that a reader would notice.
const fs = require("fs");
const path = require("path");
const { chromium } = require("playwright-core");
const axe = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

const [browserPath, packets, screenshots] = process.argv.slice(2);
const DESKTOP = { width: 1366, height: 900 };
const PHONE = { width: 390, height: 844 };
const failures = [];
const must = (truth, words) => {
  if (!truth) failures.push(words);
};

async function open(browser, name, viewport, change) {
  const context = await browser.newContext({ viewport, serviceWorkers: "block" });
  const page = await context.newPage();
  const seen = { console: [], requests: [] };
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") seen.console.push(message.text());
  });
  page.on("pageerror", (error) => seen.console.push(String(error)));
  page.on("dialog", (dialog) => {
    seen.console.push(`a dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  page.on("request", (request) => {
    if (!/^(file|data):/.test(request.url())) seen.requests.push(request.url());
  });
  let file = path.join(packets, name, "packet.html");
  if (change) {
    const changed = change(fs.readFileSync(file, "utf8"));
    file = path.join(packets, `${name}-changed.html`);
    fs.writeFileSync(file, changed);
  }
  await page.goto(`file://${file}`);
  return { context, page, seen, file };
}

const violations = async (page) => {
  await page.evaluate(axe);
  const found = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
  return found.violations.map((one) => `${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(" | ")}`);
};

const rows = (page) =>
  page.evaluate(() => [...document.querySelectorAll(".paper tbody tr:not(.group)")].filter((row) => !row.hidden).length);

// Texts of a drawing as the browser lays them out: none may lie over another.
const textOverlaps = (page) =>
  page.evaluate(() => {
    const found = [];
    for (const drawing of document.querySelectorAll("svg.drawing")) {
      const texts = [...drawing.querySelectorAll("text:not(.watermark)")].map((text) => [text.textContent, text.getBBox()]);
      texts.forEach(([one, a], index) => {
        for (const [other, b] of texts.slice(index + 1)) {
          const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
          const down = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
          // The box of a line of text is taller than its letters: a line may reach into the leading of the next.
          if (across > 0.2 && down > 0.35 * Math.min(a.height, b.height)) found.push(`${one} / ${other}`);
        }
      });
    }
    return found;
  });

// A picture of one section, in the page as a whole.
async function picture(page, id, name) {
  const clip = await page.evaluate((id) => {
    const at = document.getElementById(id)?.getBoundingClientRect();
    return at && { x: at.x + scrollX, y: at.y + scrollY, width: at.width, height: Math.min(at.height, 4000) };
  }, id);
  if (clip) await page.screenshot({ path: path.join(screenshots, `${name}.png`), fullPage: true, clip });
}

async function lookAt(browser, name, viewport, label) {
  const { context, page, seen } = await open(browser, name, viewport);
  const say = (words) => `${name}, ${label}: ${words}`;
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  must(wide <= 1, say(`the page is ${wide} px wider than the window`));
  const overlaps = await textOverlaps(page);
  must(overlaps.length === 0, say(`text over text: ${overlaps.slice(0, 5).join("; ")}`));
  const found = await violations(page);
  must(found.length === 0, say(`axe: ${found.join("\n  ")}`));
  const all = await rows(page);
  must(all > 20, say("there are rows"));
  await page.screenshot({ path: path.join(screenshots, `${name}-${label}.png`) });
  for (const id of ["findings", "circuits", "modes", "week", "axles", "gas-lines", "single-line-1", "charge-winter", "floor-plan", "left-side", "owner", "parts", "effects"]) {
    await picture(page, id, `${name}-${label}-${id}`);
  }
  must(seen.console.length === 0, say(`console: ${seen.console.join("; ")}`));
  must(seen.requests.length === 0, say(`requests: ${seen.requests.join(", ")}`));
  await context.close();
}

// A browser of its own for each look: one that stops answering, as Chromium without a screen now and then does after large
// pictures, costs that look a second try and no more.
const PATIENCE = 90000;
async function withBrowser(words, look) {
  for (const last of [false, true]) {
    const before = failures.length;
    const browser = await chromium.launch({ executablePath: browserPath, args: ["--no-sandbox", "--disable-gpu"], timeout: PATIENCE });
    let timer;
    const late = new Promise((_, reject) => {
      timer = setTimeout(() => reject(new Error(`${words}: the browser does not answer`)), PATIENCE);
    });
    try {
      await Promise.race([look(browser), late]);
      clearTimeout(timer);
      await browser.close();
      return;
    } catch (error) {
      clearTimeout(timer);
      failures.length = before;
      await Promise.race([browser.close(), new Promise((done) => setTimeout(done, 10000))]);
      if (last) must(false, `${words}: ${error}`);
    }
  }
}

async function use(browser) {
  const { context, page, seen } = await open(browser, "faulty", DESKTOP);
  const all = await rows(page);
  // Search.
  await page.keyboard.press("/");
  must(await page.evaluate(() => document.activeElement.id === "search"), "the key / leads to the search");
  await page.keyboard.type("bench lamp");
  await page.waitForFunction((all) => [...document.querySelectorAll(".paper tbody tr:not(.group)")].filter((row) => !row.hidden).length < all, all);
  const hits = await page.evaluate(() =>
    [...document.querySelectorAll(".paper tbody tr:not(.group)")].filter((row) => !row.hidden).map((row) => row.textContent.toLowerCase()),
  );
  must(hits.length > 0 && hits.every((text) => text.includes("bench") && text.includes("lamp")), "search shows rows with its words only");
  must((await page.locator("#shown").textContent()).startsWith(String(hits.length)), "the number of rows is told");
  await page.screenshot({ path: path.join(screenshots, "faulty-search.png") });
  await page.click("#clear");
  must((await rows(page)) === all, "everything is shown again");
  // Filters.
  await page.selectOption("#signal", "danger");
  const dangers = await page.evaluate(() =>
    [...document.querySelectorAll(".paper tbody tr:not(.group)")].filter((row) => !row.hidden).map((row) => row.dataset.signal),
  );
  must(dangers.length > 0 && dangers.every((signal) => signal === "danger"), "the filter by signal word shows dangers only");
  await page.selectOption("#system", "alternating-current");
  must((await rows(page)) < dangers.length, "both filters count");
  await page.click("#clear");
  await page.selectOption("#system", "water");
  const water = await page.evaluate(() =>
    [...document.querySelectorAll(".paper tbody tr:not(.group)")].filter((row) => !row.hidden).map((row) => row.dataset.system),
  );
  must(water.length > 0 && water.every((system) => system === "water"), "the filter by system shows water only");
  await page.click("#clear");
  // Sorting, by the keyboard.
  const column = page.locator("#devices thead th.number button").first();
  await column.focus();
  await page.keyboard.press("Enter");
  must((await page.locator("#devices thead th[aria-sort=ascending]").count()) === 1, "a column says that it is sorted");
  const sorted = await page.evaluate(() => {
    const head = document.querySelector("#devices thead th[aria-sort]");
    const index = [...head.parentElement.cells].indexOf(head);
    const blocks = [[]];
    for (const row of document.querySelectorAll("#devices tbody tr")) {
      if (row.classList.contains("group")) blocks.push([]);
      else blocks.at(-1).push(Number(row.cells[index].dataset.value));
    }
    return blocks.every((block) => block.every((value, at) => at === 0 || Number.isNaN(value) || block[at - 1] <= value));
  });
  must(sorted, "rows are sorted within their groups");
  // Links: drawing to row, row to finding, row to the line of the text.
  for (const [from, kind] of [
    ["svg.drawing a[href^='#p']", /^#p\d+$/],
    ["#devices td a[href^='#f']", /^#f\d+$/],
    ["#circuits td a.line", /^#l0-\d+$/],
    [".worst a", /^#f\d+$/],
  ]) {
    const link = page.locator(from).first();
    must((await link.count()) > 0, `there is a link ${from}`);
    await link.focus();
    await page.keyboard.press("Enter");
    const hash = await page.evaluate(() => location.hash);
    must(kind.test(hash), `${from} leads to ${hash}`);
    const visible = await page.evaluate(() => {
      const at = document.querySelector(":target")?.getBoundingClientRect();
      return Boolean(at) && at.top < innerHeight && at.bottom > 0;
    });
    must(visible, `what ${from} leads to is seen`);
  }
  // A link to what a filter hides shows it.
  await page.selectOption("#system", "water");
  await page.evaluate(() => (location.hash = "#f2"));
  await page.waitForFunction(() => !document.getElementById("f2").hidden);
  // From the top by the keyboard: the first stop skips to the papers, and every stop shows where it is.
  // Opened anew without the link, after which the keyboard would start at what it led to.
  await page.goto("about:blank");
  await page.goto(`file://${path.join(packets, "faulty", "packet.html")}`);
  await page.keyboard.press("Tab");
  must(await page.evaluate(() => document.activeElement.className === "skip"), "the first stop skips to the papers");
  for (let stop = 0; stop < 12; stop += 1) {
    await page.keyboard.press("Tab");
    const outlined = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle !== "none");
    must(outlined, `stop ${stop + 2} of the keyboard shows where it is`);
  }
  must(seen.console.length === 0, `console: ${seen.console.join("; ")}`);
  await context.close();
}

async function withoutScript(browser) {
  const context = await browser.newContext({ viewport: DESKTOP, javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(`file://${path.join(packets, "clean", "packet.html")}`);
  must(!(await page.locator("#tools").isVisible()), "without script no search is offered");
  must(await page.locator("#circuits tbody tr").last().isVisible(), "without script every row is there");
  await page.locator(".contents a[href='#owner']").click();
  must(page.url().endsWith("#owner"), "without script links lead on");
  await context.close();
}

// Print: every row is as tall as what is in it, nothing is wider than its sheet, and the words of the last sheet are printed.
async function print(browser) {
  for (const name of ["clean", "faulty", "nasty"]) {
    for (const [paper, width] of [["A4", 1046], ["Letter", 980]]) {
      const { context, page } = await open(browser, name, { width, height: 760 });
      await page.emulateMedia({ media: "print" });
      const cut = await page.evaluate(() => {
        const found = [];
        for (const row of document.querySelectorAll(".wide tbody tr, .large tbody tr")) {
          for (const cell of row.cells) {
            if (cell.scrollWidth > cell.clientWidth + 1 || cell.scrollHeight > cell.clientHeight + 2) found.push(`cell: ${cell.textContent.slice(0, 60)}`);
          }
          if (row.getBoundingClientRect().right > document.documentElement.clientWidth + 1) found.push(`row: ${row.textContent.slice(0, 60)}`);
          if (getComputedStyle(row).breakInside !== "avoid") found.push("a row may be cut");
        }
        return found;
      });
      must(cut.length === 0, `${name} on ${paper}: ${cut.length} cut: ${cut.slice(0, 4).join("; ")}`);
      must(!(await page.locator("#tools").isVisible()), `${name}: the search is not printed`);
      if (paper === "A4") {
        await page.screenshot({ path: path.join(screenshots, `${name}-print.png`) });
        await picture(page, "circuits", `${name}-print-circuits`);
      }
      await context.close();
    }
  }
}

// The checks above must notice a page that is broken.
async function notices(browser) {
  const broken = [
    ["a request", (text) => text.replace("default-src 'none'", "default-src *").replace("img-src data:", "img-src *").replace("<h1>", "<img alt='' src='http://127.0.0.1:9/x.png'><h1>"), ({ seen }) => seen.requests.length > 0],
    ["an error of the script", (text) => text.replace('"use strict";', '"use strict"; missing();'), ({ seen }) => seen.console.length > 0],
    ["a button without a name", (text) => text.replace("<h1>", "<button></button><h1>"), async ({ page }) => (await violations(page)).length > 0],
    ["text over text", (text) => text.replace(/font-size="2\.5"/g, 'font-size="6"'), async ({ page }) => (await textOverlaps(page)).length > 0],
  ];
  for (const [words, change, noticed] of broken) {
    const opened = await open(browser, "clean", DESKTOP, change);
    await opened.page.waitForTimeout(300);
    must(await noticed(opened), `${words} is not noticed`);
    await opened.context.close();
    fs.rmSync(opened.file);
  }
}

(async () => {
  await withBrowser("broken pages", notices);
  for (const name of ["clean", "faulty", "us", "nasty", "changes"]) {
    await withBrowser(`${name}, desktop`, (browser) => lookAt(browser, name, DESKTOP, "desktop"));
    await withBrowser(`${name}, phone`, (browser) => lookAt(browser, name, PHONE, "phone"));
  }
  await withBrowser("use", use);
  await withBrowser("without script", withoutScript);
  await withBrowser("print", print);
  for (const failure of failures) console.error(`- ${failure}`);
  console.log(`${failures.length} failures`);
  process.exit(failures.length === 0 ? 0 : 1);
})();
