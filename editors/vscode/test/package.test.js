// What is packaged is all that the extension needs.

const assert = require('node:assert/strict');
const { cpSync, mkdtempSync, rmSync } = require('node:fs');
const { tmpdir } = require('node:os');
const { dirname, join } = require('node:path');
const test = require('node:test');
const { listFiles } = require('@vscode/vsce');
const { load } = require('./stub');

const ROOT = join(__dirname, '..');
const manifest = require('../package.json');

test('the packaged files are enough to start the server, and nothing for tests is among them', async () => {
  const files = await listFiles({ cwd: ROOT });
  const { languages, grammars, snippets } = manifest.contributes;
  const named = [languages[0].configuration, grammars[0].path, snippets[0].path].map(path => path.replace('./', ''));
  for (const name of [...named, 'LICENSE', 'README.md', 'package.json']) assert.ok(files.includes(name), name);
  assert.deepEqual(files.filter(name => /^test\/|vscode-textmate|@vscode\/vsce/.test(name)), []);
  const folder = mkdtempSync(join(tmpdir(), 'dwell-'));
  try {
    for (const name of files) cpSync(join(ROOT, name), join(folder, name), { recursive: true, dereference: true });
    const { extension, seen } = load({}, undefined, join(folder, 'extension'));
    await extension.activate({ subscriptions: [] });
    assert.equal(seen.clients.length, 1);
    // The client itself was stubbed: at least its files are there.
    assert.ok(files.some(name => dirname(name) === 'node_modules/vscode-languageclient/lib/node'));
  } finally {
    rmSync(folder, { recursive: true });
  }
});
