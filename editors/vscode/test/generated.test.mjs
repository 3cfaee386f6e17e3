// What is generated from the vocabulary is what is committed, and a snippet inserts its part's example.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import test from 'node:test';
import { format, parse } from '@bgotink/kdl';
import { generated } from '../scripts/generate.mjs';
import { expanded } from '../scripts/snippets.mjs';
import { readVocabulary } from '../scripts/vocabulary.mjs';
import { extension, manifest } from './tokens.mjs';

for (const [path, content] of Object.entries(generated())) {
  test(`${path} is up to date (else: npm run generate)`, () => {
    assert.equal(readFileSync(join(extension, path), 'utf8'), content);
  });
}

/** Nodes with their entries and children, whatever the layout. */
const shape = (document) => document.nodes.map((node) => [
  node.getName(),
  node.entries.map((entry) => [entry.getName(), entry.getValue()]),
  node.children === null ? [] : shape(node.children),
]);

const snippets = JSON.parse(readFileSync(join(extension, 'snippets/parts.json'), 'utf8'));
const parts = readVocabulary(join(extension, '../../crates/vocabulary/parts'));

test('every part that can be written has a snippet', () => {
  assert.deepEqual(Object.values(snippets).map((one) => one.prefix).sort(), parts.map((part) => part.word).sort());
});

for (const part of parts) {
  test(`the snippet of ${part.word} inserts its example`, () => {
    const { body } = Object.values(snippets).find((one) => one.prefix === part.word);
    assert.deepEqual(shape(parse(expanded(body))), shape(parse(part.example)));
  });
}

test('the snippets for rule packs are KDL', () => {
  for (const [name, { body }] of Object.entries(JSON.parse(readFileSync(join(extension, 'snippets/rules.json'), 'utf8')))) {
    assert.ok(format(parse(expanded(body))).length > 0, name);
  }
});

test('every file that the manifest names is there and is packaged', () => {
  const { languages, grammars, snippets: lists, walkthroughs } = manifest.contributes;
  const named = [
    ...languages.map((one) => one.configuration),
    ...grammars.map((one) => one.path),
    ...lists.map((one) => one.path),
    ...walkthroughs.flatMap((one) => one.steps.map((step) => step.media.markdown)),
  ];
  const packaged = readFileSync(join(extension, '.vscodeignore'), 'utf8').split('\n')
    .filter((line) => line.startsWith('!')).map((line) => line.slice(1).replace('**', ''));
  for (const path of named.map((one) => one.replace('./', ''))) {
    assert.ok(readFileSync(join(extension, path), 'utf8').length > 0, path);
    assert.ok(packaged.some((prefix) => path.startsWith(prefix)), `${path} is not packaged`);
  }
});
