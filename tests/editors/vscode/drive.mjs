// VS Code's engine for real: what a person at the keyboard would do and see, in a headless browser.
// Run by tests/editors/vscode/session:
//   node drive.mjs ADDRESS WORKSPACE SETTINGS PROGRAM SCREENSHOTS INSTALLED BROWSER

import { createRequire } from 'node:module';
import { join } from 'node:path';
import { editorIn, PATIENCE } from './page.mjs';

const [address, workspace, settingsFile, program, shots, installed, browserPath] = process.argv.slice(2);
const { chromium } = createRequire(join(installed, 'package.json'))('playwright-core');

const RULE = 'protection/none-at-source';
const CIRCUIT = 'circuit "bench lamp"';
const BUILD = 'bramble-faulty.build.kdl';

let failed = 0;
function check(name, holds, seen) {
  console.log(`${holds ? 'ok  ' : 'FAIL'} vscode: ${name}${seen === undefined ? '' : `: ${seen}`}`);
  failed += holds ? 0 : 1;
}

const browser = await chromium.launch({ executablePath: browserPath, args: ['--no-sandbox', '--disable-gpu'] });
const page = await browser.newPage({ viewport: { width: 1400, height: 860 } });
page.setDefaultTimeout(PATIENCE);
const editor = editorIn(page, { workspace, settingsFile, shots });
const { wait, shows, vanishes, becomes, goToLine, command, shot } = editor;

const before = editor.read(BUILD);
const line = before.split('\n').findIndex((text) => text.startsWith(CIRCUIT)) + 1;

const statusItem = '.statusbar-item[id*="coachwright.findings"]';
const count = async (word) => Number(new RegExp(`(\\d+) ${word}`).exec(await page.locator(statusItem).innerText())?.[1] ?? 0);
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

/**
 * Shows only what holds the words in the Problems panel, which draws no more rows than fit; whether the row is among it.
 * A panel that is still being filled may set its filter back: then typed again.
 */
async function filtered(words, wanted) {
  await wait('.markers-panel');
  const box = page.locator('.panel .action-item .monaco-inputbox input, .panel input[placeholder^="Filter"]').filter({ visible: true }).first();
  return becomes(async () => {
    await box.fill('');
    await box.fill(words);
    return page.waitForSelector(wanted, { timeout: PATIENCE / 24 }).then(() => true, () => false);
  });
}

async function find() {
  editor.use({ 'coachwright.server.path': program });
  check('corrected, the server starts by itself', await shows(`${statusItem}:has-text("danger")`));
  await command('Notifications: Clear All Notifications');
  await page.keyboard.press('Control+Shift+M');
  check('notices are listed with the rest', await filtered('No notice beside', '.markers-panel .monaco-list-row:has-text("shore/no-notice-at-inlet")'));
  check('the Problems panel lists the circuit', await filtered('bench lamp', row));
  const text = (await page.locator(row).first().innerText()).replace(/\s+/g, ' ');
  check('at its line', text.includes(`[Ln ${line}, Col 1]`), text);
  await goToLine(line);
  await wait('.squiggly-error');
  await colours();
  await shot('2-finding');

  await command('Show or Focus Hover');
  const hover = '.monaco-hover:not(.hidden)';
  check('its hover tells what is wrong', await shows(`${hover}:has-text("no fuse or breaker")`));
  check('and why, and what is known', await shows(`${hover}:has-text("Caution"):has-text("ampacity")`));
  await shot('3-hover');
  await page.keyboard.press('Escape');
}

async function mend() {
  const counted = await count('danger');
  await goToLine(line);
  await page.keyboard.press('Control+.');
  const offer = '.action-widget .monaco-list-row.action';
  await wait(offer);
  await shot('4-mends');
  const offered = await page.locator(offer).allInnerTexts();
  const wanted = offered.findIndex((title) => /fuse/i.test(title) && !/waive/i.test(title));
  check('a fuse is offered', wanted >= 0, offered.join(' | '));
  await page.locator(offer).nth(wanted).click();
  check('the finding is gone', await vanishes(row));
  await goToLine(line);
  const hasFuse = (text) => text.split('\n').slice(line - 1, line + 4).join('\n').includes('fuse rating="');
  check('the circuit has a fuse now', await editor.saved(BUILD, (text) => text !== before && hasFuse(text)), editor.read(BUILD).split('\n')[line]);
  check('the status bar counts one danger less', await becomes(async () => (await count('danger')) === counted - 1), `${counted}, then ${await count('danger')}`);
  await shot('5-mended');
}

async function hints() {
  await goToLine(line);
  const lines = new Set(editor.read(BUILD).split('\n').map((text) => text.trimEnd()));
  const between = async () => (await editor.drawn()).filter((text) => !lines.has(text));
  check('inlay hints are shown', await becomes(async () => (await between()).length > 0), (await between())[0]);
  await shot('6-hints');
  editor.use({ 'coachwright.inlayHints': false });
  check('switched off, they go', await becomes(async () => (await between()).length === 0));
  editor.use({ 'coachwright.inlayHints': true });
  check('switched on, they come back', await becomes(async () => (await between()).length > 0));
}

async function write() {
  const lamp = editor.read(BUILD).split('\n').findIndex((text) => text.startsWith('lamp "bench lamp"')) + 1;
  await goToLine(lamp);
  await page.keyboard.type('    ');
  await command('Format Document');
  check('formatting lays the text out', await becomes(async () => (await editor.drawn()).some((text) => text.startsWith('lamp "bench lamp"'))));
  await goToLine(lamp);
  await page.keyboard.press('End');
  await page.keyboard.press('Enter');
  await page.keyboard.type('busba');
  check('words of the vocabulary are offered, as a snippet first', await shows('.suggest-widget.visible .monaco-list-row.focused:has-text("busbar") .codicon-symbol-snippet'));
  await shot('7-suggestions');
  await page.keyboard.press('Enter');
  check('a part comes with its usual entries', await becomes(async () => (await editor.drawn()).some((text) => /^busbar ".*" rating=/.test(text))));
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await command('File: Revert File');
}

async function openWalkthrough() {
  await command('Welcome: Open Walkthrough...');
  await wait('.quick-input-list .monaco-list-row:has-text("Coachwright: your first finding")');
  await page.keyboard.type('Coachwright');
  await wait('.quick-input-list .monaco-list-row.focused:has-text("Coachwright: your first finding")');
  await page.keyboard.press('Enter');
}

/** Clicks a step of the walkthrough. The editor may fall back to its list of walkthroughs, where steps do nothing: then opens it again. */
async function clickStep(title) {
  const step = page.locator(`.gettingStartedContainer .step-title:has-text("${title}")`);
  return becomes(async () => {
    if (await step.click({ timeout: PATIENCE / 12 }).then(() => true, () => false)) {
      return true;
    }
    await openWalkthrough();
    return false;
  });
}

async function firstBuild() {
  await command('Coachwright: Restart the language server');
  check('restarted, it finds the rest again', await shows(`${statusItem}:has-text("danger")`));
  await openWalkthrough();
  check('the walkthrough opens', await shows('.gettingStartedContainer :text("Get the program")'));
  await command('View: Toggle Panel Visibility');
  await vanishes('.markers-panel');
  check('its first page is shown', await becomes(async () => {
    const pages = await Promise.all(page.frames().map((frame) => frame.locator('body').innerText({ timeout: 1000 }).catch(() => '')));
    return pages.some((text) => text.includes('cargo install'));
  }));
  await shot('8-walkthrough');
  check('its step on a first build is shown', await clickStep('Write a first build'));
  await page.locator('.gettingStartedContainer .monaco-button:has-text("Write a first build")').click();
  await wait('.quick-input-widget .input');
  await wait('.quick-input-list .monaco-list-row:has-text("bramble.build.kdl")');
  await becomes(async () => (await page.locator('.quick-input-widget .input').first().inputValue()).endsWith('first.build.kdl'));
  await page.locator('.quick-input-widget .monaco-button:text-is("OK")').click();
  check('the first build is written and opened', await shows('.tab.active[data-resource-name="first.build.kdl"]'));
  check('its one danger is found', await shows(`${statusItem}:has-text("Coachwright: 1 danger"):not(:has-text(","))`), await page.locator(statusItem).innerText());
  await command('Go to Next Problem in Files (Error, Warning, Info)');
  await wait('.zone-widget :text("has no fuse or breaker")');
  await shot('9-first-build');
}

async function otherFiles() {
  for (const [name, language] of [['shop.parts.kdl', 'Coachwright parts'], ['wiring.rules.kdl', 'Coachwright rule pack']]) {
    await editor.openFile(name);
    check(`${name} is ours`, await becomes(async () => (await editor.language()) === language), await editor.language());
    // A slip in it is counted; what was found when it is taken back is what there was before.
    await goToLine(1);
    await page.keyboard.type('nonsense "x"\n');
    check('what is wrong in it is counted', await becomes(async () => /\d+ (danger|warning)/.test(await page.locator(statusItem).innerText())), await page.locator(statusItem).innerText());
    await command('File: Revert File');
    check('taken back, there is nothing', await shows(`${statusItem}:has-text("Coachwright: no findings")`), await page.locator(statusItem).innerText());
  }
  await editor.openFile('notes.kdl');
  check('other KDL files are left alone', (await vanishes(statusItem)) && !/coachwright/i.test(await editor.language()), await editor.language());
}

try {
  check('the build has the circuit', line > 0, line);
  const file = JSON.stringify([['openFile', `vscode-remote://${new URL(address).host}${workspace}/${BUILD}`]]);
  await page.goto(`${address}?folder=${encodeURIComponent(workspace)}&payload=${encodeURIComponent(file)}`);
  await wait('.monaco-editor .view-line');
  for (const step of [cannotStart, find, mend, hints, write, firstBuild, otherFiles]) {
    await step();
  }
} catch (fault) {
  check('no error', false, fault.stack);
  await shot('failed');
}
await browser.close();
console.log(`vscode: ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
