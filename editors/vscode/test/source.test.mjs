// What the extension makes of findings and settings, without an editor: bundled from the source as it is packaged.

import assert from 'node:assert/strict';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { delimiter, join, relative } from 'node:path';
import test from 'node:test';
import { build } from 'esbuild';
import { extension } from './tokens.mjs';

const place = mkdtempSync(join(tmpdir(), 'coachwright-extension-'));
process.on('exit', () => rmSync(place, { recursive: true, force: true }));

async function bundled(name) {
  const outfile = join(place, `${name}.mjs`);
  await build({ entryPoints: [join(extension, `src/${name}.ts`)], bundle: true, platform: 'node', format: 'esm', outfile });
  return import(outfile);
}

const { countFindings, inWords } = await bundled('counts');
const { findProgram } = await bundled('program');

const COUNTS = [
  ['nothing', [], 'no findings'],
  ['by the signal word', [{ severity: 3, data: { signal: 'danger' } }, { severity: 0, data: { signal: 'notice' } }], '1 danger, 1 notice'],
  ['by severity, where the word is not sent', [{ severity: 0 }, { severity: 1 }, { severity: 1 }, { severity: 2 }, { severity: 3 }], '1 danger, 2 warning, 1 caution, 1 notice'],
  ['undecided apart', [{ severity: 2, data: { signal: 'danger', undecided: true } }, { severity: 0, data: { signal: 'danger', undecided: false } }], '1 danger, 1 undecided'],
  ['data of another kind', [{ severity: 1, data: 'danger' }, { severity: 1, data: null }, { severity: 1, data: { signal: 'loud' } }], '3 warning'],
];
for (const [name, findings, words] of COUNTS) {
  test(`counts: ${name}`, () => assert.equal(inWords(countFindings(findings)), words));
}

const folder = join(place, 'bin');
const program = join(folder, 'coachwright');
mkdirSync(folder);
writeFileSync(program, '#!/bin/sh\n');
chmodSync(program, 0o755);
writeFileSync(join(place, 'coachwright'), 'no program');
const inHome = `~/${relative(homedir(), program)}`;
const around = { setting: '', folder: undefined, searchPath: '', windows: false };

const PROGRAMS = [
  ['on PATH', { searchPath: `/nowhere${delimiter}${folder}` }, program],
  ['not on PATH', { searchPath: '/nowhere' }, /no program named "coachwright" is on PATH.*coachwright\.server\.path/],
  ['a file that cannot be run', { searchPath: place }, /is on PATH/],
  ['by the setting', { setting: program }, program],
  ['by the setting, below the home folder', { setting: inHome }, program],
  ['by the setting, in the open folder', { setting: '${workspaceFolder}/bin/coachwright', folder: place }, program],
  ['by the setting, relative to the open folder', { setting: './bin/coachwright', folder: place }, program],
  ['by another name on PATH', { setting: 'coachwright', searchPath: folder }, program],
  ['the setting names nothing', { setting: '/nowhere/coachwright' }, /no program at "\/nowhere\/coachwright".*setting/],
  ['the setting names a folder', { setting: folder }, /no program at/],
  ['the setting needs a folder', { setting: '${workspaceFolder}/coachwright' }, /no folder is open/],
];
for (const [name, some, wanted] of PROGRAMS) {
  test(`program: ${name}`, () => {
    const found = findProgram({ ...around, ...some });
    if (typeof wanted === 'string') {
      assert.deepEqual(found, { path: wanted });
    } else {
      assert.match(found.missing ?? '', wanted);
    }
  });
}
