// A person's hands and eyes in the editor: commands, lines, what is shown. Everything waits for what it needs to see.

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const PATIENCE = 120_000; // milliseconds: a debug build on a busy machine

/** The editor in a browser's page, with the folder that is open in it. */
export function editorIn(page, { workspace, settingsFile, shots }) {
  const wait = (selector, state = 'visible') => page.waitForSelector(selector, { state, timeout: PATIENCE });
  const shows = (selector) => wait(selector).then(() => true, () => false);
  const vanishes = (selector) => wait(selector, 'detached').then(() => true, () => false);

  /** Asks until the answer is yes. */
  async function becomes(question) {
    for (const end = Date.now() + PATIENCE; Date.now() < end; await page.waitForTimeout(100)) {
      if (await question()) {
        return true;
      }
    }
    return false;
  }

  /** Types into the box at the top, waits for the row, and takes it. A page that opens late may close the box: then again. */
  async function choose(keys, text, row = text) {
    const taken = `.quick-input-list .monaco-list-row.focused:has-text("${row}")`;
    for (const end = Date.now() + PATIENCE; ; ) {
      await page.keyboard.press(keys);
      await wait('.quick-input-widget .input');
      await page.keyboard.type(text);
      const closed = wait('.quick-input-widget', 'hidden').then(() => false, () => false);
      const shown = page.waitForSelector(taken, { timeout: PATIENCE / 4 }).then(() => true, () => false);
      if (await Promise.race([shown, closed])) {
        return page.keyboard.press('Enter');
      }
      if (Date.now() > end) {
        throw new Error(`no row "${row}" in the box`);
      }
      await page.keyboard.press('Escape');
    }
  }

  const position = () => page.locator('.statusbar-item[id="status.editor.selection"]').innerText();
  async function goToLine(number) {
    await page.locator('.monaco-editor .view-lines').first().click();
    await page.keyboard.press('Control+g');
    await wait('.quick-input-widget .input');
    await page.keyboard.type(String(number));
    await wait(`.quick-input-widget:has-text("${number}")`);
    await page.keyboard.press('Enter');
    await becomes(async () => (await position()).startsWith(`Ln ${number}, Col 1`));
  }

  const read = (name) => readFileSync(join(workspace, name), 'utf8');
  return {
    page, wait, shows, vanishes, becomes, goToLine, read,
    command: (name) => choose('F1', name),
    shot: (name) => page.screenshot({ path: join(shots, `vscode-${name}.png`) }),
    async openFile(name) {
      await choose('Control+p', name);
      await wait(`.tab.active[data-resource-name="${name}"]`);
    },
    /** The language that the status bar names, once the file in front has one. */
    language: () => page.locator('.statusbar-item[id="status.editor.mode"]').innerText().then((text) => text.replace(/[{}]/g, '').trim()),
    /** Saves, and whether the file on the disk then is as wanted. */
    async saved(name, wanted) {
      await page.keyboard.press('Control+s');
      return becomes(() => wanted(read(name)));
    },
    use(settings) {
      const all = JSON.parse(readFileSync(settingsFile, 'utf8'));
      writeFileSync(settingsFile, JSON.stringify({ ...all, ...settings }, null, 2));
    },
    /** The lines in view as they are drawn, with what is drawn between their characters. */
    drawn: () => page.locator('.monaco-editor .view-line').allInnerTexts().then((all) => all.map((text) => text.replaceAll('\u00a0', ' ').trimEnd())),
  };
}
