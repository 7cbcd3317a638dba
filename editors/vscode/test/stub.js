// As much of the editor as the extension touches, and a client that only notes what it is asked to do.

const Module = require('node:module');

/** Loads the extension afresh, with `settings`; `start` is what its client does when it is started. */
function load(settings = {}, start = async () => {}, entry = '../extension') {
  const seen = { clients: [], errors: [], commands: {}, watched: [], listeners: [] };
  const vscode = {
    workspace: {
      getConfiguration: section => ({ get: name => settings[`${section}.${name}`] }),
      createFileSystemWatcher: glob => {
        seen.watched.push(glob);
        return { dispose() {} };
      },
      onDidChangeConfiguration: listener => {
        seen.listeners.push(listener);
        return { dispose() {} };
      },
    },
    commands: {
      registerCommand: (name, run) => {
        seen.commands[name] = run;
        return { dispose() {} };
      },
    },
    window: { showErrorMessage: text => seen.errors.push(text) },
  };
  class LanguageClient {
    constructor(id, name, server, options) {
      Object.assign(this, { id, name, server, options, running: false });
      seen.clients.push(this);
    }
    async start() {
      await start();
      this.running = true;
    }
    async stop() {
      this.running = false;
    }
    isRunning() {
      return this.running;
    }
  }
  const stubs = { vscode, 'vscode-languageclient/node': { LanguageClient } };
  const load = Module._load;
  Module._load = (name, ...rest) => stubs[name] ?? load(name, ...rest);
  try {
    delete require.cache[require.resolve(entry)];
    return { extension: require(entry), seen, settings };
  } finally {
    Module._load = load;
  }
}

module.exports = { load };
