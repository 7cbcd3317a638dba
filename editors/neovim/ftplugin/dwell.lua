local indent = require('dwell.indent')

vim.bo.commentstring = '// %s'
vim.bo.comments = '://'
vim.bo.expandtab = true
vim.bo.shiftwidth = 2
vim.bo.softtabstop = 2
-- A name may hold hyphens.
vim.opt_local.iskeyword:append('-')
vim.bo.indentexpr = "v:lua.require'dwell.indent'.of(v:lnum)"
vim.bo.indentkeys = indent.keys

-- Colours and folds, where the parser was built (`editors/neovim/build`).
if pcall(vim.treesitter.start) then
  vim.wo[0][0].foldmethod = 'expr'
  vim.wo[0][0].foldexpr = 'v:lua.vim.treesitter.foldexpr()'
  vim.wo[0][0].foldlevel = 99
end
