const assert = require('node:assert/strict');
const test = require('node:test');
const { load } = require('./stub');
const manifest = require('../package.json');

const activate = async (settings, start) => {
  const loaded = load(settings, start);
  const context = { subscriptions: [] };
  await loaded.extension.activate(context);
  return { ...loaded, context };
};
const changed = section => ({ affectsConfiguration: name => name === section });

test('it starts `dwell lsp` for texts of the language', async () => {
  const { seen } = await activate();
  assert.equal(seen.clients.length, 1);
  const [{ server, options, running }] = seen.clients;
  assert.deepEqual(server, { command: 'dwell', args: ['lsp'] });
  assert.ok(options.documentSelector.every(({ language }) => language === manifest.contributes.languages[0].id));
  assert.ok(running);
});

test('it watches cooks and the settings of their folder', async () => {
  const { seen } = await activate();
  assert.deepEqual(seen.watched, ['**/{*.dwell,dwell.toml}']);
});

test('the program can be said in the settings, and another one is started when that changes', async () => {
  const { seen, settings } = await activate({ 'dwell.server.path': '/opt/dwell' });
  assert.equal(seen.clients[0].server.command, '/opt/dwell');
  settings['dwell.server.path'] = '/opt/other';
  await seen.listeners[0](changed('editor.fontSize'));
  assert.equal(seen.clients.length, 1);
  await seen.listeners[0](changed('dwell.server.path'));
  assert.deepEqual(seen.clients.map(({ server }) => server.command), ['/opt/dwell', '/opt/other']);
  assert.deepEqual(seen.clients.map(({ running }) => running), [false, true]);
});

test('it is told from the start which hints are wanted, and hears of changes', async () => {
  const hints = { times: true, scale: false, core: true };
  const { seen } = await activate({ 'dwell.hints': hints });
  const { initializationOptions, synchronize } = seen.clients[0].options;
  assert.deepEqual(initializationOptions, { hints });
  assert.equal(synchronize.configurationSection, 'dwell');
});

test('a program that is not there is told in words, and can be tried again', async () => {
  let there = false;
  const { seen } = await activate({}, async () => {
    if (!there) throw Object.assign(new Error('spawn dwell ENOENT'), { code: 'ENOENT' });
  });
  assert.equal(seen.errors.length, 1);
  assert.match(seen.errors[0], /dwell was not found.*dwell\.server\.path/);
  there = true;
  await seen.commands['dwell.restart']();
  assert.ok(seen.clients.at(-1).running);
  assert.equal(seen.errors.length, 1);
});

test('another failure is told as it is', async () => {
  const { seen } = await activate({}, async () => {
    throw new Error('it ended with 101');
  });
  assert.match(seen.errors[0], /did not start: it ended with 101/);
});

test('it stops its server when it is let go', async () => {
  const { extension, seen } = await activate();
  await extension.deactivate();
  assert.ok(!seen.clients[0].running);
  await extension.deactivate();
});

test('every command and setting that the code uses is declared', async () => {
  const { seen } = await activate();
  assert.deepEqual(Object.keys(seen.commands), manifest.contributes.commands.map(({ command }) => command));
  assert.ok(manifest.contributes.configuration.properties['dwell.server.path']);
  assert.ok(manifest.capabilities.untrustedWorkspaces.restrictedConfigurations.includes('dwell.server.path'));
});
