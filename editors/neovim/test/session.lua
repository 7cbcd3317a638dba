-- Opens cooks, asks all that an editor asks, and ends with 1 if an answer is not what it should be.

local failed, passed = 0, 0

local function check(what, holds, found)
  if holds then
    passed = passed + 1
  else
    failed = failed + 1
  end
  local shown = holds and '' or ': ' .. vim.inspect(found)
  io.stdout:write((holds and 'ok - ' or 'not ok - ') .. what .. shown .. '\n')
end

local function text()
  return table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), '\n')
end

--- Puts the cursor on the first match of a plain text.
local function go_to(plain)
  vim.fn.cursor(1, 1)
  assert(vim.fn.search('\\V' .. plain, 'cW') > 0, plain)
end

local function client()
  return vim.lsp.get_clients({ bufnr = 0, name = 'dwell' })[1]
end

--- The answer to a request about the cursor, or an error.
local function ask(method, more)
  local params = vim.lsp.util.make_position_params(0, client().offset_encoding)
  -- With its number and not 0: else what was typed just now is not sent first.
  local buffer = vim.api.nvim_get_current_buf()
  local answer, problem = client():request_sync(method, vim.tbl_extend('force', params, more or {}), 20000, buffer)
  return answer and answer.result or { problem = problem or answer }
end

local function open(name)
  vim.cmd.edit(name)
  assert(vim.wait(20000, function() return client() ~= nil and client().initialized end, 20), 'the server starts')
end

--- The findings, once there are some that satisfy.
local function findings(satisfy)
  vim.wait(30000, function() return satisfy(vim.diagnostic.get(0)) end, 50)
  return vim.diagnostic.get(0)
end

local function has(code)
  return function(found)
    return vim.iter(found):any(function(finding) return finding.code == code end)
  end
end

local parts = {}

function parts.colours_and_folds()
  vim.cmd.edit('overnight-shoulder.dwell')
  check('the kind of file is known', vim.bo.filetype == 'dwell', vim.bo.filetype)
  vim.treesitter.get_parser(0):parse(true)
  local function colour(plain)
    go_to(plain)
    local captures = vim.treesitter.get_captures_at_cursor(0)
    return captures[#captures]
  end
  check('the word of a block is coloured', colour('phase smoke') == 'keyword', colour('phase smoke'))
  check('the word of a clause is coloured', colour('air 110') == 'property', colour('air 110'))
  check('a text is coloured', colour('"Look for juice') == 'string', colour('"Look for juice'))
  go_to('phase smoke')
  local first, last = vim.fn.line('.'), vim.fn.search('^$', 'nW') - 1
  vim.wait(5000, function() return vim.fn.foldlevel(last) > 0 end, 20)
  local levels = { vim.fn.foldlevel(first), vim.fn.foldlevel(last), vim.fn.foldlevel(last + 1) }
  check('a block folds, without the blank line below it', vim.deep_equal(levels, { 1, 1, 0 }), levels)
end

function parts.indentation()
  vim.cmd.enew()
  vim.bo.filetype = 'dwell'
  vim.cmd.normal('iphase roast is cook')
  vim.cmd.normal('olamb in oven')
  vim.cmd.normal('oserve lamb')
  check('what belongs to a block is set in', text() == 'phase roast is cook\n  lamb in oven\nserve lamb', text())
  vim.cmd('bwipeout!')
end

function parts.findings()
  open('setting-without-a-scale.dwell')
  local code = 'unit-missing'
  local found = findings(function(found) return #found > 0 end)
  check('a wrong cook has findings, with their codes', #found > 0 and found[1].code ~= nil, found)
  code = found[1] and found[1].code or code
  check('a finding has a long text to go to', found[1] and found[1].source ~= nil, found)
  open('overnight-shoulder.dwell')
  go_to('air 110 °C')
  vim.cmd.normal('cwairr')
  found = findings(has('line-unreadable'))
  check('a slip is found while it is typed', has('line-unreadable')(found), found)
  vim.cmd('silent undo')
  found = findings(function(found) return not has('line-unreadable')(found) end)
  check('and is forgotten when it is mended', not has('line-unreadable')(found), found)
end

--- Only what the server says it can do is asked for; the rest is named.
local asked = {
  hoverProvider = function()
    open('overnight-shoulder.dwell')
    go_to('110 °C')
    local hover = vim.inspect(ask('textDocument/hover').contents)
    check('hovering over a temperature shows the other scale', hover:find('230') ~= nil, hover)
  end,

  completionProvider = function()
    open('overnight-shoulder.dwell')
    go_to('use all pepper')
    vim.api.nvim_set_current_line('  use all p')
    vim.fn.cursor(vim.fn.line('.'), 12)
    local answer = ask('textDocument/completion')
    local labels = vim.iter(answer.items or answer):map(function(item) return item.label end):totable()
    check('after `use all p` the stock that starts so is offered', vim.tbl_contains(labels, 'pepper'), labels)
    vim.cmd('edit!')
  end,

  inlayHintProvider = function()
    open('overnight-shoulder.dwell')
    local range = { start = { line = 0, character = 0 }, ['end'] = { line = vim.fn.line('$') - 1, character = 0 } }
    local function labels()
      local hints = ask('textDocument/inlayHint', { range = range })
      return vim.iter(hints):map(function(hint) return hint.label end):totable()
    end
    local with = vim.inspect(labels())
    check('temperatures have the other scale beside them', with:find('°F') ~= nil, with)
    local hints = { hints = { times = false, scale = false, core = false } }
    client():notify('workspace/didChangeConfiguration', { settings = { dwell = hints } })
    check('hints can be switched off', #labels() == 0, labels())
    client():notify('workspace/didChangeConfiguration', { settings = { dwell = vim.empty_dict() } })
  end,

  signatureHelpProvider = function()
    open('overnight-shoulder.dwell')
    go_to('air 110')
    vim.cmd.normal('w')
    local help = vim.inspect(ask('textDocument/signatureHelp'))
    check('a clause shows how it is written', help:find('air') ~= nil, help)
  end,

  documentSymbolProvider = function()
    open('overnight-shoulder.dwell')
    local symbols = vim.inspect(ask('textDocument/documentSymbol'))
    check('the outline names the phases', symbols:find('set%-crust') ~= nil, symbols)
  end,

  definitionProvider = function()
    open('overnight-shoulder.dwell')
    go_to('in cabinet')
    vim.cmd.normal('w')
    local place = vim.inspect(ask('textDocument/definition'))
    check('kit is declared in the file it comes from', place:find('clubhouse%.dwell') ~= nil, place)
  end,

  referencesProvider = function()
    open('overnight-shoulder.dwell')
    go_to('in cabinet')
    vim.cmd.normal('w')
    local places = ask('textDocument/references', { context = { includeDeclaration = true } })
    check('a name is found wherever it is used', #places >= 4, places)
  end,

  codeActionProvider = function()
    open('name-misspelt.dwell')
    local found = findings(function(found) return #found > 0 end)
    local before = text()
    vim.fn.cursor(found[1].lnum + 1, found[1].col + 1)
    local range = { start = { line = found[1].lnum, character = found[1].col } }
    range['end'] = { line = found[1].end_lnum, character = found[1].end_col }
    local context = { diagnostics = vim.iter(found):map(function(finding) return finding.user_data.lsp end):totable() }
    local actions = ask('textDocument/codeAction', { range = range, context = context })
    check('a finding has a cure', #actions > 0, actions)
    if #actions == 0 then return end
    local action = actions[1]
    if not action.edit then
      action = client():request_sync('codeAction/resolve', action, 20000, vim.api.nvim_get_current_buf()).result
    end
    vim.lsp.util.apply_workspace_edit(action.edit, client().offset_encoding)
    local code = found[1].code
    local after = findings(function(found) return not has(code)(found) end)
    check('applied, it takes the finding away', text() ~= before and not has(code)(after), after)
    vim.cmd('edit!')
  end,

  renameProvider = function()
    open('overnight-shoulder.dwell')
    go_to('in cabinet')
    vim.cmd.normal('w')
    local edit = ask('textDocument/rename', { newName = 'smoker' })
    vim.lsp.util.apply_workspace_edit(edit, client().offset_encoding)
    vim.cmd('silent wall')
    local here = text()
    local there = table.concat(vim.fn.readfile('clubhouse.dwell'), '\n')
    check('a name is changed here', here:find('in smoker') and not here:find('in cabinet'), here)
    check('and in the file it comes from', there:find('kit smoker is'), there)
  end,

  documentFormattingProvider = function()
    open('overnight-shoulder.dwell')
    local before = text()
    go_to('air 110 °C')
    vim.cmd.normal('0d^iAIR   110C (230F)')
    vim.cmd.normal('lD')
    vim.lsp.buf.format({ timeout_ms = 20000 })
    check('formatting lays a line out', text() == before, text())
    vim.cmd('edit!')
  end,
}

local function session()
  vim.o.virtualedit = 'onemore'
  vim.lsp.enable('dwell')
  parts.colours_and_folds()
  parts.indentation()
  parts.findings()
  local can = client().server_capabilities
  local names = vim.tbl_keys(asked)
  table.sort(names)
  for _, name in ipairs(names) do
    if can[name] then
      asked[name]()
    else
      io.stdout:write('not offered - ' .. name .. '\n')
    end
  end
end

local ran, problem = xpcall(session, debug.traceback)
if not ran then
  check('the session comes to its end', false, problem)
end
io.stdout:write(('%d passed, %d failed\n'):format(passed, failed))
vim.lsp.stop_client(vim.lsp.get_clients())
vim.cmd(failed == 0 and 'qall!' or 'cquit 1')
