-- Indentation of a flat language: the line that opens a block stands at the margin, what belongs to it is set in.

local M = {}

-- What opens a block.
local blocks = { 'cook', 'crew', 'dish', 'dwell', 'food', 'ingredient', 'kit', 'menu', 'phase', 'serve' }

local opens = {}
local keys = { '!^F', 'o', 'O' }
for _, word in ipairs(blocks) do
  opens[word] = true
  table.insert(keys, '0=~' .. word)
end
M.keys = table.concat(keys, ',')

--- How far the line with this number is set in.
function M.of(number)
  local word = vim.fn.getline(number):match('^%s*([%a-]+)')
  if word and opens[word:lower()] then
    return 0
  end
  return vim.fn.prevnonblank(number - 1) > 0 and vim.fn.shiftwidth() or 0
end

return M
