-- How the language server is started; `vim.lsp.enable('dwell')` turns it on.
return {
  cmd = { 'dwell', 'lsp' },
  filetypes = { 'dwell' },
  root_markers = { 'dwell.toml', '.git' },
}
