// VS Code's engine for real: what a person at the keyboard would do and see, in a headless browser.
// Run by tests/editors/vscode/session: node drive.mjs ADDRESS WORKSPACE SETTINGS PROGRAM SCREENSHOTS

import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const [address, workspace, settingsFile, program, shots, installed, browserPath] = process.argv.slice(2);
const { chromium } = createRequire(join(installed, 'package.json'))('playwright-core');

const RULE = 'protection/none-at-source';
const CIRCUIT = 'circuit "bench lamp"';
const BUILD = 'bramble-faulty.build.kdl';
const PATIENCE = 60_000; // milliseconds: a debug build on a busy machine

const before = readFileSync(join(workspace, BUILD), 'utf8').split('\n');
const line = before.findIndex((text) => text.startsWith(CIRCUIT)) + 1;

let failed = 0;
function check(name, holds, seen) {
  console.log(`${holds ? 'ok  ' : 'FAIL'} vscode: ${name}${seen === undefined ? '' : `: ${seen}`}`);
  failed += holds ? 0 : 1;
}

const browser = await chromium.launch({ executablePath: browserPath, args: ['--no-sandbox', '--disable-gpu'] });
const page = await browser.newPage({ viewport: { width: 1400, height: 860 } });
const shot = (name) => page.screenshot({ path: join(shots, `vscode-${name}.png`) });
const shows = (selector) => page.waitForSelector(selector, { timeout: PATIENCE }).then(() => true, () => false);
const vanishes = (selector) => page.waitForSelector(selector, { state: 'detached', timeout: PATIENCE }).then(() => true, () => false);

async function command(name) {
  await page.keyboard.press('F1');
  await page.waitForSelector('.quick-input-widget .input', { timeout: PATIENCE });
  await page.keyboard.type(name);
  await page.waitForSelector(`.quick-input-list .monaco-list-row:has-text("${name}")`, { timeout: PATIENCE });
  await page.keyboard.press('Enter');
}

async function goToLine(number) {
  await page.keyboard.press('Control+g');
  await page.waitForSelector('.quick-input-widget .input', { timeout: PATIENCE });
  await page.keyboard.type(String(number));
  await page.keyboard.press('Enter');
  await page.waitForTimeout(500);
}

function use(settings) {
  const all = JSON.parse(readFileSync(settingsFile, 'utf8'));
  writeFileSync(settingsFile, JSON.stringify({ ...all, ...settings }, null, 2));
}

const statusItem = '.statusbar-item[id*="coachwright.findings"]';
const dangers = async () => Number(/(\d+) danger/.exec(await page.locator(statusItem).innerText())?.[1] ?? 0);
const row = `.markers-panel .monaco-list-row:has-text("${RULE}"):has-text("bench lamp")`;

async function cannotStart() {
  check('a program that is not there is said so', await shows('.notification-toast:has-text("Coachwright could not start: there is no program at")'));
  check('the status bar says it too', await shows(`${statusItem}:has-text("not running")`));
  await shot('1-cannot-start');
}

async function colours() {
  const colour = (text) => page.evaluate((wanted) => {
    const span = [...document.querySelectorAll('.view-line span span')].find((one) => one.textContent.replaceAll('\u00a0', ' ').trim() === wanted);
    return span === undefined ? 'not shown' : getComputedStyle(span).color;
  }, text);
  const seen = { part: await colour('circuit'), text: await colour('"bench lamp"'), property: await colour('from') };
  check('parts, texts and properties have three colours', new Set(Object.values(seen)).size === 3 && !Object.values(seen).includes('not shown'), JSON.stringify(seen));
}

async function findAndMend() {
  use({ 'coachwright.server.path': program });
  check('corrected, the server starts by itself', await shows(`${statusItem}:has-text("danger")`));
  await command('Notifications: Clear All Notifications');
  await page.keyboard.press('Control+Shift+M');
  check('the Problems panel lists it', await shows(row));
  const text = (await page.locator(row).first().innerText()).replace(/\s+/g, ' ');
  check('at its line', text.includes(`[Ln ${line}, Col 1]`), text);
  await page.locator('.monaco-editor .view-lines').first().click();
  await goToLine(line);
  await page.waitForSelector('.squiggly-error', { timeout: PATIENCE });
  await colours();
  await shot('2-finding');
  const counted = await dangers();

  await page.keyboard.press('Control+.');
  await page.waitForSelector('.action-widget .monaco-list-row.action', { timeout: PATIENCE });
  await shot('3-mends');
  const offered = await page.locator('.action-widget .monaco-list-row.action').allInnerTexts();
  const wanted = offered.findIndex((title) => /fuse/i.test(title) && !/waive/i.test(title));
  check('a fuse is offered', wanted >= 0, offered.join(' | '));
  await page.locator('.action-widget .monaco-list-row.action').nth(wanted).click();
  check('the finding is gone', await vanishes(row));
  check('the circuit has a fuse now', await shows('.view-line:has-text("fuse"):has-text("rating=") >> nth=0') && await savedFuse());
  await page.waitForFunction(([item, count]) => {
    const words = document.querySelector(item)?.textContent ?? '';
    return Number(/(\d+) danger/.exec(words)?.[1] ?? 0) === count;
  }, [statusItem, counted - 1], { timeout: PATIENCE }).catch(() => undefined);
  check('the status bar counts one danger less', (await dangers()) === counted - 1, `${counted}, then ${await dangers()}`);
  await shot('4-mended');
}

async function savedFuse() {
  await page.locator('.monaco-editor .view-lines').first().click();
  await page.keyboard.press('Control+s');
  for (let waited = 0; waited < PATIENCE; waited += 200) {
    const now = readFileSync(join(workspace, BUILD), 'utf8').split('\n');
    if (now.length > before.length || now.join('\n') !== before.join('\n')) {
      return now.slice(line - 1, line + 4).join('\n').includes('fuse rating="');
    }
    await page.waitForTimeout(200);
  }
  return false;
}

async function aroundIt() {
  await command('Coachwright: Restart the language server');
  check('restarted, it finds the rest again', await shows(`${statusItem}:has-text("danger")`));
  await command('Welcome: Open Walkthrough...');
  await page.waitForSelector('.quick-input-list .monaco-list-row:has-text("Coachwright: your first finding")', { timeout: PATIENCE });
  await page.keyboard.type('Coachwright');
  await page.waitForTimeout(500);
  await page.keyboard.press('Enter');
  check('the walkthrough opens', await shows('.gettingStartedContainer :text("Get the program")'));
  await page.waitForTimeout(1000);
  await shot('5-walkthrough');
  writeFileSync(join(workspace, 'notes.kdl'), 'lamp "no build"\n');
  await page.keyboard.press('Control+p');
  await page.waitForSelector('.quick-input-widget .input', { timeout: PATIENCE });
  await page.keyboard.type('notes.kdl');
  await page.waitForSelector('.quick-input-list .monaco-list-row:has-text("notes.kdl")', { timeout: PATIENCE });
  await page.keyboard.press('Enter');
  await page.waitForSelector('.tab.active:has-text("notes.kdl")', { timeout: PATIENCE });
  const mode = await page.locator('.statusbar-item[id="status.editor.mode"]').innerText();
  check('other KDL files are left alone', !/coachwright/i.test(mode) && (await page.locator(statusItem).count()) === 0, mode.trim());
}

try {
  check('the build has the circuit', line > 0, line);
  const file = JSON.stringify([['openFile', `vscode-remote://${new URL(address).host}${workspace}/${BUILD}`]]);
  await page.goto(`${address}?folder=${encodeURIComponent(workspace)}&payload=${encodeURIComponent(file)}`);
  await page.waitForSelector('.monaco-editor .view-line', { timeout: PATIENCE });
  await cannotStart();
  await findAndMend();
  await aroundIt();
} catch (fault) {
  check('no error', false, fault.message);
  await shot('failed');
}
await browser.close();
console.log(`vscode: ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
