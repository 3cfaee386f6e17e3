// Reads the vocabulary's data files: the parts that can be written, and their properties.

import { parse } from '@bgotink/kdl';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Kinds of lines in a part that can be written in a build; `worked` facts cannot. */
const WRITTEN = ['property', 'argument', 'arguments'];

const lines = (node) => node.children?.nodes ?? [];

/**
 * @returns {{ word: string, role: string, inside: string[], help: string, example: string,
 *   properties: { name: string, kind: string, position: number | undefined, choices: string[], example: string | undefined }[] }[]}
 */
export function readVocabulary(folder) {
  const groups = new Map();
  const parts = [];
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.kdl')).sort()) {
    const document = parse(readFileSync(join(folder, file), 'utf8'));
    for (const node of document.nodes) {
      const name = node.getArgument(0);
      if (node.getName() === 'group') {
        groups.set(name, lines(node));
      } else if (node.getName() === 'part') {
        parts.push(node);
      }
    }
  }
  return parts.filter((part) => part.getArgument(1) !== 'worked').map((part) => readPart(part, groups));
}

function readPart(part, groups) {
  const word = part.getArgument(0);
  const example = part.getProperty('example');
  if (typeof example !== 'string') {
    throw new Error(`the part ${word} has no example`);
  }
  return {
    word,
    role: part.getArgument(1),
    inside: String(part.getProperty('in') ?? '').split(' '),
    help: part.getProperty('help') ?? '',
    example,
    properties: propertiesOf(lines(part), groups),
  };
}

function propertiesOf(nodes, groups) {
  return nodes.flatMap((node) => {
    if (node.getName() === 'like') {
      const shared = groups.get(node.getArgument(0));
      if (shared === undefined) {
        throw new Error(`there is no group ${node.getArgument(0)}`);
      }
      return propertiesOf(shared, groups);
    }
    if (!WRITTEN.includes(node.getName())) {
      return [];
    }
    const flag = node.getProperty('type') === 'flag' ? ['yes', 'no'] : [];
    const choices = String(node.getProperty('choice') ?? node.getProperty('choices') ?? '').split(' ').filter(Boolean);
    return [{
      name: node.getArgument(0),
      kind: node.getName(),
      position: node.getProperty('position'),
      choices: choices.length > 0 ? choices : flag,
      example: node.getProperty('example'),
    }];
  });
}
