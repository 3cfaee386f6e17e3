// Tokens of a text by the extension's grammars, as the editor would see them.

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import oniguruma from 'vscode-oniguruma';
import textmate from 'vscode-textmate';

export const extension = fileURLToPath(new URL('..', import.meta.url));
export const manifest = JSON.parse(readFileSync(join(extension, 'package.json'), 'utf8'));

const require = createRequire(import.meta.url);
await oniguruma.loadWASM(readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm')).buffer);

const registry = new textmate.Registry({
  onigLib: Promise.resolve({
    createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text) => new oniguruma.OnigString(text),
  }),
  loadGrammar: async (scope) => {
    const entry = manifest.contributes.grammars.find((grammar) => grammar.scopeName === scope);
    if (entry === undefined) {
      throw new Error(`no grammar is contributed for ${scope}`);
    }
    return textmate.parseRawGrammar(readFileSync(join(extension, entry.path), 'utf8'), entry.path);
  },
});

/** The tokens of each line, and how deep the grammar still is behind the last one (1: nothing is left open). */
export async function tokenize(kind, text) {
  const grammar = await registry.loadGrammar(`source.coachwright.${kind}`);
  let stack = textmate.INITIAL;
  const lines = text.split('\n').map((line) => {
    const result = grammar.tokenizeLine(line, stack);
    stack = result.ruleStack;
    return result.tokens.map((token) => ({
      text: line.slice(token.startIndex, token.endIndex),
      start: token.startIndex,
      end: token.endIndex,
      scopes: token.scopes,
    }));
  });
  return { lines, depth: stack.depth };
}

/** The scopes of the first token that is exactly this text, or holds it. */
export function scopesOf(lines, text) {
  const tokens = lines.flat();
  const token = tokens.find((one) => one.text.trim() === text) ?? tokens.find((one) => one.text.includes(text));
  if (token === undefined) {
    throw new Error(`no token holds ${text}`);
  }
  return token.scopes;
}
