// How the language server is started, and what it is told: plain data, made from the settings.

/** The program and its arguments. */
const command = settings => ({ command: settings.get('server.path') || 'dwell', args: ['lsp'] });

/** For which texts it is asked, of which files it hears that they changed, and what is wanted of it from the start. */
const options = (settings, watcher) => ({
  documentSelector: [
    { scheme: 'file', language: 'dwell' },
    { scheme: 'untitled', language: 'dwell' },
  ],
  initializationOptions: { hints: settings.get('hints') },
  synchronize: { configurationSection: 'dwell', fileEvents: watcher },
});

/** What to say if it does not start. */
const failure = (program, error) =>
  error.code === 'ENOENT' || /ENOENT/.test(error.message)
    ? `The program ${program} was not found. Install dwell, or say in the setting dwell.server.path where it is.`
    : `The language server of dwell did not start: ${error.message}`;

module.exports = { command, options, failure };
