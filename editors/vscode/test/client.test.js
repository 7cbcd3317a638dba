// The client that is packaged loads, and takes what the extension hands it.

const assert = require('node:assert/strict');
const Module = require('node:module');
const test = require('node:test');
const { command, options } = require('../server');

/** An editor of which anything can be asked: every name is a class, a function and a namespace. */
function anything(names = {}) {
  const known = new Map(Object.entries(names));
  return new Proxy(class {}, {
    get(target, name) {
      if (name === 'prototype' || typeof name === 'symbol') return target[name];
      if (!known.has(name)) known.set(name, anything());
      return known.get(name);
    },
    apply: () => anything(),
  });
}

test('the client is made from what the extension hands it', () => {
  const load = Module._load;
  class EventEmitter {
    event = () => ({ dispose() {} });
  }
  const vscode = anything({ version: '1.91.0', EventEmitter });
  Module._load = (name, ...rest) => (name === 'vscode' ? vscode : load(name, ...rest));
  try {
    const { LanguageClient, State } = require('vscode-languageclient/node');
    const settings = { get: () => undefined };
    const client = new LanguageClient('dwell', 'dwell', command(settings), options(settings, {}));
    assert.equal(client.state, State.Stopped);
    assert.equal(client.clientOptions.documentSelector.length, 2);
  } finally {
    Module._load = load;
  }
});
