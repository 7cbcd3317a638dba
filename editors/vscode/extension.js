// Starts `dwell lsp` and keeps it in step with the settings. All that is said of a text comes from there.

const vscode = require('vscode');
const { LanguageClient } = require('vscode-languageclient/node');
const { command, options, failure } = require('./server');

let client;

async function start(watcher) {
  const settings = vscode.workspace.getConfiguration('dwell');
  const server = command(settings);
  const started = new LanguageClient('dwell', 'dwell', server, options(settings, watcher));
  client = started;
  try {
    await started.start();
  } catch (error) {
    if (client === started) client = undefined;
    vscode.window.showErrorMessage(failure(server.command, error));
  }
}

async function stop() {
  const running = client;
  client = undefined;
  if (running?.isRunning()) await running.stop();
}

async function activate(context) {
  const watcher = vscode.workspace.createFileSystemWatcher('**/{*.dwell,dwell.toml}');
  const restart = async () => {
    await stop();
    await start(watcher);
  };
  context.subscriptions.push(
    watcher,
    vscode.commands.registerCommand('dwell.restart', restart),
    vscode.workspace.onDidChangeConfiguration(change =>
      change.affectsConfiguration('dwell.server.path') ? restart() : undefined),
  );
  await start(watcher);
}

module.exports = { activate, deactivate: stop };
