// What is highlighted as what: small samples by a table, then every specification and rule pack of the project.

import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import test from 'node:test';
import { parse, getLocation } from '@bgotink/kdl';
import { extension, scopesOf, tokenize } from './tokens.mjs';

const root = join(extension, '../..');

/** Sample, the piece of it that is looked at, and the scope that it has (or, with `!`, has not). */
const SAMPLES = [
  ['build', 'circuit "bench lamp" from=house', 'circuit', 'keyword.other.part'],
  ['build', 'circuit "bench lamp" from=house', 'bench lamp', 'string.quoted.double'],
  ['build', 'circuit "bench lamp" from=house', 'from', 'support.variable.property'],
  ['build', 'circuit "bench lamp" from=house', 'house', 'string.unquoted'],
  ['build', 'charging-place shelf', 'charging-place', 'keyword.other.part'],
  ['build', 'charging-places shelf', 'charging-places', 'entity.name.tag'],
  ['build', 'gizmo shelf', 'gizmo', 'entity.name.tag'],
  ['build', 'build V { stage draft; none gas; }', 'stage', 'support.variable.property'],
  ['build', 'build V { stage draft; none gas; }', 'none', 'keyword.other.part'],
  ['build', 'battery lamp', 'lamp', 'string.unquoted'],
  ['build', 'fuse gizmo=3', 'gizmo', 'entity.other.attribute-name'],
  ['build', 'panel p { way 1 x }', '1', 'constant.numeric'],
  ['build', 'a -1.5e3', '-1.5e3', 'constant.numeric'],
  ['build', 'a 0xFf_0', '0xFf_0', 'constant.numeric'],
  ['build', 'a 16A', '16A', '!constant.numeric'],
  ['build', 'lamp x critical=yes', 'yes', 'constant.language'],
  ['build', 'a #true', '#true', 'constant.language'],
  ['build', 'a #-inf', '#-inf', 'constant.language'],
  ['build', 'a "b\\u{41}c"', '\\u{41}', 'constant.character.escape'],
  ['build', 'a "b\\qc"', '\\q', 'invalid.illegal.escape'],
  ['build', 'a #"raw \\n "quoted" text"# tail', 'raw \\n "quoted" text', 'string.quoted.double.raw'],
  ['build', 'a #"raw"# tail', 'tail', 'string.unquoted'],
  ['build', 'a ##"one "# two"## tail', 'tail', 'string.unquoted'],
  ['build', 'a """\n  lamp "x"\n  """ tail', 'lamp', 'string.quoted.triple'],
  ['build', 'a """\n  lamp "x"\n  """ tail', 'tail', 'string.unquoted'],
  ['build', 'a #"""\n  lamp "x"\n  """# tail', 'lamp', 'string.quoted.triple.raw'],
  ['build', 'lamp x // said later', 'said later', 'comment.line'],
  ['build', 'lamp x "http://y"', 'http', '!comment.line'],
  ['build', '/* one /* two */ three */ lamp x', 'three', 'comment.block'],
  ['build', 'a x /* one */ tail', 'tail', '!comment'],
  ['build', '/- lamp x {\n  duty "}"\n}\nfan y', 'duty', 'comment.block.switched-off'],
  ['build', '/- lamp x {\n  duty "}"\n}\nfan y', 'fan', 'keyword.other.part'],
  ['build', '/- kdl-version 2\nlamp x', 'lamp', 'keyword.other.part'],
  ['build', 'lamp x /-power="1 W" duty="1 h/d"', 'power', 'comment.block.switched-off'],
  ['build', 'lamp x /-power="1 W" duty="1 h/d"', 'duty', 'support.variable.property'],
  ['build', 'lamp x /-{\n  duty "1 h/d"\n}\nfan y', 'duty', 'comment.block.switched-off'],
  ['build', 'lamp x /-{\n  duty "1 h/d"\n}\nfan y', 'fan', 'keyword.other.part'],
  ['build', 'lamp x \\\n  fan', 'fan', 'string.unquoted'],
  ['build', 'lamp "half typed\nfan y', 'fan', 'keyword.other.part'],
  ['parts', 'berth "shop bunk" size="1 x 1 x 1 m"', 'berth', 'keyword.other.part'],
  ['rules', 'rule "a/b" danger about=run {', 'rule', 'keyword.other.rule'],
  ['rules', 'rule "a/b" danger about=run {', 'danger', 'constant.language'],
  ['rules', 'must "rating <= 2 * ampacity"', '<=', 'keyword.operator'],
  ['rules', 'must "rating <= 2 * ampacity"', 'ampacity', 'variable.other.fact'],
  ['rules', 'when #"ends.all(e, e.has_device)"#', 'all', 'support.function.list'],
  ['rules', 'when """\n  min(a, b) > 3\n  """', 'min', 'support.function'],
  ['rules', 'impossible "e.x" side=no reason="it is so"', 'it is so', 'string.quoted'],
  ['rules', 'tell "{title} is {rating}."', 'rating', 'variable.other.fact'],
  ['rules', 'remedy "Begin with build V {{ stage draft; }}"', '{{', 'constant.character.escape'],
  ['rules', 'example "x" not-applicable', 'not-applicable', 'constant.language'],
  ['rules', 'add #"""\n  lamp "x"\n  """#', 'lamp', 'keyword.other.part'],
  ['rules', 'change #"fuse rating="1 A""# to=#"fuse rating="2 A""#', 'fuse', 'keyword.other.part'],
  ['rules', 'remove #"one "half#"# tail', 'tail', '!meta.embedded'],
];

for (const [kind, text, piece, wanted] of SAMPLES) {
  test(`${kind}: ${piece} in ${JSON.stringify(text)} is ${wanted}`, async () => {
    const { lines } = await tokenize(kind, text);
    const scopes = scopesOf(lines, piece);
    const scope = wanted.replace('!', '');
    const has = scopes.some((one) => one.startsWith(scope));
    assert.equal(has, !wanted.startsWith('!'), scopes.join(' '));
  });
}

function filesBelow(folder) {
  return readdirSync(folder, { recursive: true })
    .map((name) => join(folder, name))
    .filter((path) => /\.(build|parts|rules)\.kdl$/.test(path));
}

const shipped = [...filesBelow(join(root, 'rules')), ...filesBelow(join(root, 'tests/builds')), join(extension, 'walkthrough/first.build.kdl')];

function eachNode(document, visit) {
  for (const node of document.nodes) {
    visit(node);
    if (node.children) {
      eachNode(node.children, visit);
    }
  }
}

for (const path of shipped) {
  test(`every node of ${relative(root, path)} begins with a known word`, async () => {
    const text = readFileSync(path, 'utf8');
    const kind = /\.(build|parts|rules)\.kdl$/.exec(path)[1];
    const { lines, depth } = await tokenize(kind, text);
    const unknown = [];
    eachNode(parse(text, { storeLocations: true }), (node) => {
      const { start } = getLocation(node.name);
      const token = lines[start.line - 1].find((one) => one.start <= start.column - 1 && start.column - 1 < one.end);
      if (!token?.scopes.some((scope) => /^(keyword\.other\.(part|rule)|support\.variable\.property)/.test(scope))) {
        unknown.push(`${start.line}: ${node.getName()} (${token?.scopes.at(-1)})`);
      }
    });
    assert.deepEqual(unknown, []);
    assert.equal(depth, 1, 'a string, comment or block is still open at the end of the file');
  });
}
