// What the TextMate grammar makes of every example, on a page: each stretch with the last part of its scope.
// DWELL_ACCEPT=1 writes the pages anew; look at them before you keep them.

const assert = require('node:assert/strict');
const { readFileSync, readdirSync, writeFileSync } = require('node:fs');
const { basename, join } = require('node:path');
const test = require('node:test');
const oniguruma = require('vscode-oniguruma');
const { INITIAL, Registry, parseRawGrammar } = require('vscode-textmate');

const GRAMMAR = join(__dirname, '../syntaxes/dwell.tmLanguage.json');
const EXAMPLES = join(__dirname, '../../../examples');

async function grammar() {
  await oniguruma.loadWASM(readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm')));
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: patterns => new oniguruma.OnigScanner(patterns),
      createOnigString: text => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => parseRawGrammar(readFileSync(GRAMMAR, 'utf8'), GRAMMAR),
  });
  return registry.loadGrammar('source.dwell');
}
const loaded = grammar();

/** `phase‹keyword.control.block› roast‹entity.name›`, line by line. */
async function page(text) {
  const grammar = await loaded;
  let stack = INITIAL;
  return text.split('\n').map(line => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, stack);
    stack = ruleStack;
    return tokens.map(({ startIndex, endIndex, scopes }) => {
      const stretch = line.slice(startIndex, endIndex);
      const scope = scopes.at(-1).replace(/\.dwell$/, '');
      return scope === 'source' ? stretch : `${stretch}‹${scope}›`;
    }).join('');
  }).join('\n');
}

const files = folder => readdirSync(folder).filter(name => name.endsWith('.dwell')).map(name => join(folder, name));

for (const file of [...files(EXAMPLES), ...files(__dirname)]) {
  const name = basename(file, '.dwell');
  test(`the colours of ${name} are as they were looked at`, async () => {
    const snapshot = join(__dirname, 'snapshots', `${name}.txt`);
    const found = await page(readFileSync(file, 'utf8'));
    if (process.env.DWELL_ACCEPT) writeFileSync(snapshot, found);
    assert.equal(found, readFileSync(snapshot, 'utf8'));
  });
}

test('no line leaves anything open for the next', async () => {
  const grammar = await loaded;
  for (const line of ['do "Salt', 'food lamb is', 'phase roast is cook', 'air 110 °C (230', '“Two']) {
    const { ruleStack } = grammar.tokenizeLine(line, INITIAL);
    const next = grammar.tokenizeLine('  for 5 h', ruleStack).tokens.map(({ scopes }) => scopes.length);
    assert.ok(next.every(depth => depth <= 2), line);
  }
});
