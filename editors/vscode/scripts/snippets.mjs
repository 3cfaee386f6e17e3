// Turns the vocabulary's examples into snippets: each value becomes a place to type in.

import { parse } from '@bgotink/kdl';

/** What VS Code reads as part of its own notation inside a placeholder. */
const escaped = (text) => text.replace(/[\\$}]/g, '\\$&');
/** In a list of choices, commas and bars mean something too. */
const escapedChoice = (text) => text.replace(/[\\$},|]/g, '\\$&');

/** A snippet's text: one line for a node, its children indented below it. */
export function snippetBody(part, partsByWord) {
  const stops = { next: 1 };
  const body = parse(part.example).nodes.flatMap((node) => nodeLines(node, partsByWord, [], stops, 0));
  body[body.length - 1] += '$0';
  return body;
}

/** A node that is no part is a property of the part around it, written as a line of its own. */
function nodeLines(node, partsByWord, around, stops, depth) {
  const word = node.getName();
  const properties = partsByWord.get(word)?.properties ??
    around.filter((property) => property.name === word).map((property) => ({ ...property, position: 0 }));
  let text = '\t'.repeat(depth) + escaped(word);
  let position = 0;
  for (const entry of node.entries) {
    const name = entry.getName();
    const property = name === null
      ? properties.find((candidate) => candidate.position === position) ??
        properties.find((candidate) => candidate.kind === 'arguments')
      : properties.find((candidate) => candidate.name === name);
    text += name === null ? ' ' : ` ${escaped(name)}=`;
    text += placeholder(entry, property, stops);
    position += name === null ? 1 : 0;
  }
  const inside = node.children?.nodes ?? [];
  if (inside.length === 0) {
    return [text];
  }
  return [
    `${text} {`,
    ...inside.flatMap((child) => nodeLines(child, partsByWord, properties, stops, depth + 1)),
    `${'\t'.repeat(depth)}\\}`,
  ];
}

function placeholder(entry, property, stops) {
  const stop = stops.next++;
  const value = entry.getValue();
  const written = entry.value.representation ?? String(value);
  if (property !== undefined && property.choices.includes(String(value))) {
    const others = property.choices.filter((choice) => choice !== String(value));
    return `\${${stop}|${[String(value), ...others].map(escapedChoice).join(',')}|}`;
  }
  const quoted = written.startsWith('"') && written.endsWith('"');
  return quoted
    ? `"\${${stop}:${escaped(written.slice(1, -1))}}"`
    : `\${${stop}:${escaped(written)}}`;
}

/** What a snippet inserts when nothing is typed over: for the tests. */
export function expanded(body) {
  return body.join('\n')
    .replace(/\$\{\d+\|((?:[^|\\]|\\.)*)\|\}/g, (_, choices) => choices.match(/^(?:[^,\\]|\\.)*/)[0])
    .replace(/\$\{\d+:((?:[^}\\]|\\.)*)\}/g, '$1')
    .replace(/\$0/g, '')
    .replace(/\\([\\$},|])/g, '$1');
}
