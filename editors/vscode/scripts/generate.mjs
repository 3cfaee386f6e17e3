// Writes what follows from the vocabulary: the snippets and the words of the grammar.
// `npm run generate` writes the files; the tests compare them with what would be written.

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { snippetBody } from './snippets.mjs';
import { readVocabulary } from './vocabulary.mjs';

const extension = fileURLToPath(new URL('..', import.meta.url));
const vocabularyFolder = join(extension, '../../crates/vocabulary/parts');

/** Behind a node's name: a blank, the end of the line, or what may follow without one. */
const AFTER_NAME = '(?![^\\s;{}(/\\\\])';
const BEFORE_NAME = '(?:^\\s*|(?<=[{};])\\s*)';

const alternatives = (words) => [...new Set(words)].sort((a, b) => b.length - a.length || (a < b ? -1 : 1)).join('|');

function words(parts) {
  const partWords = alternatives(parts.map((part) => part.word));
  const properties = parts.flatMap((part) => part.properties.map((property) => property.name));
  const named = (match, name) => ({ match, captures: { 1: { name } } });
  return {
    comment: 'Written by scripts/generate.mjs from crates/vocabulary/parts; not to be edited.',
    scopeName: 'source.coachwright.words',
    patterns: [],
    repository: {
      part: named(`${BEFORE_NAME}(${partWords})${AFTER_NAME}`, 'keyword.other.part.coachwright'),
      piece: named(`\\G(${partWords})(?=\\s)`, 'keyword.other.part.coachwright'),
      'child-property': named(`${BEFORE_NAME}(${alternatives(properties)})${AFTER_NAME}`, 'support.variable.property.coachwright'),
      property: {
        match: `(?<![^\\s({;])(${alternatives([...properties, 'like'])})(=)`,
        captures: {
          1: { name: 'support.variable.property.coachwright' },
          2: { name: 'keyword.operator.assignment.coachwright' },
        },
      },
    },
  };
}

function snippets(parts) {
  const byWord = new Map(parts.map((part) => [part.word, part]));
  return Object.fromEntries(parts.map((part) => [
    part.inside.includes('file') ? part.word : `${part.word} (in ${part.inside.join(', ')})`,
    { prefix: part.word, description: part.help, body: snippetBody(part, byWord) },
  ]));
}

/** The generated files by their path in the extension. */
export function generated() {
  const parts = readVocabulary(vocabularyFolder);
  const written = (content) => `${JSON.stringify(content, null, 2)}\n`;
  return {
    'syntaxes/words.tmLanguage.json': written(words(parts)),
    'snippets/parts.json': written(snippets(parts)),
  };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [path, content] of Object.entries(generated())) {
    writeFileSync(join(extension, path), content);
    console.log(`written: ${path}`);
  }
}
