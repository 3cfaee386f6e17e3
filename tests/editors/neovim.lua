-- Neovim for real: opens the build given as the argument, finds the circuit without a fuse, mends it, sees the finding go.
-- Run by tests/editors/run with the settings of editors/neovim: nvim --headless -u init.lua -c 'luafile neovim.lua' BUILD

local RULE = 'protection/none-at-source'
local CIRCUIT = 'circuit "bench lamp"'
local PATIENCE = 120000 -- milliseconds: a debug build on a busy machine

local failed = 0
local function check(name, holds, seen)
  -- On a line of its own: the editor writes its messages to the same place.
  io.stdout:write(('\n%s neovim: %s%s\n'):format(holds and 'ok  ' or 'FAIL', name, seen and (': ' .. tostring(seen)) or ''))
  failed = failed + (holds and 0 or 1)
  return holds
end

local function finish()
  -- An orderly end, so that the recording holds shutdown and exit.
  for _, client in ipairs(vim.lsp.get_clients()) do
    client:stop()
  end
  check('the server ends when told to', vim.wait(PATIENCE, function() return #vim.lsp.get_clients() == 0 end, 20))
  io.stdout:write(('neovim: %d failed\n'):format(failed))
  os.exit(failed == 0 and 0 or 1)
end

-- What a person would see, as text.
local function screen(path)
  vim.cmd.redraw()
  local lines = {}
  for row = 1, vim.o.lines do
    local cells = {}
    for column = 1, vim.o.columns do
      cells[column] = vim.fn.screenstring(row, column)
    end
    lines[row] = (table.concat(cells):gsub('%s+$', ''))
  end
  vim.fn.writefile(lines, path)
end

-- The window that `K` opens tells what is under the cursor.
local function hover(shots)
  vim.cmd.normal('K')
  local window
  check('a window tells what is under the cursor', vim.wait(PATIENCE, function()
    window = vim.iter(vim.api.nvim_list_wins()):find(function(one) return vim.api.nvim_win_get_config(one).relative ~= '' end)
    return window ~= nil
  end, 20))
  if window then
    local told = table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(window), 0, -1, false), '\n')
    check('the finding and what is known', told:find('Put a fuse or breaker', 1, true) ~= nil and told:find('ampacity', 1, true) ~= nil, told:sub(1, 200))
    -- What a window above the others shows is not to be had from the screen.
    vim.fn.writefile(vim.split(told, '\n'), shots .. '/neovim-2-hover.txt')
    vim.api.nvim_win_close(window, true)
  end
end

-- Hints stand beside the lines without being asked for, and can be hidden.
local function hints(buffer, shots)
  local client = vim.lsp.get_clients({ bufnr = buffer })[1]
  local shown = function()
    vim.cmd.redraw()
    return vim.lsp.inlay_hint.get({ bufnr = buffer })
  end
  check('hints are shown', vim.wait(PATIENCE, function() return #shown() > 0 end, 50), #shown())
  screen(shots .. '/neovim-3-hints.txt')
  client:notify('workspace/didChangeConfiguration', { settings = { inlayHints = false } })
  local gone = vim.wait(PATIENCE, function()
    -- Asked anew, since what is shown is kept until the server says that it has changed.
    local answer = client:request_sync('textDocument/inlayHint', {
      textDocument = vim.lsp.util.make_text_document_params(buffer),
      range = { start = { line = 0, character = 0 }, ['end'] = { line = vim.api.nvim_buf_line_count(buffer), character = 0 } },
    }, PATIENCE, buffer)
    return answer ~= nil and #(answer.result or {}) == 0
  end, 50)
  check('switched off by the settings, they go', gone)
  client:notify('workspace/didChangeConfiguration', { settings = { inlayHints = true } })
end

-- Formatting takes back what was put out of shape.
local function format(buffer)
  local shape = vim.api.nvim_buf_get_lines(buffer, 0, -1, false)
  local number = vim.iter(ipairs(shape)):find(function(_, text) return vim.startswith(text, 'lamp "bench lamp"') end)
  vim.api.nvim_buf_set_lines(buffer, number - 1, number, false, { '     ' .. shape[number] })
  vim.lsp.buf.format({ timeout_ms = PATIENCE })
  check('formatting lays the text out', vim.api.nvim_buf_get_lines(buffer, number - 1, number, false)[1] == shape[number],
    vim.api.nvim_buf_get_lines(buffer, number - 1, number, false)[1])
end

local function run()
  vim.o.shortmess = vim.o.shortmess .. 'FWI'
  local shots = assert(os.getenv('SCREENSHOTS'))
  local buffer = vim.api.nvim_get_current_buf()
  vim.o.columns, vim.o.lines = 140, 40
  check('the file is ours', vim.bo.filetype == 'coachwright', vim.bo.filetype)
  check('it is coloured', vim.b.current_syntax == 'coachwright')
  check('comments are known', vim.bo.commentstring == '// %s')

  local line
  for number, text in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do
    if vim.startswith(text, CIRCUIT) then
      line = number
    end
  end
  assert(line, 'the build has no ' .. CIRCUIT)

  local function unfused()
    return vim.iter(vim.diagnostic.get(buffer)):find(function(found)
      return found.code == RULE and found.lnum + 1 == line
    end)
  end

  vim.diagnostic.config({ virtual_text = true, signs = true })
  check('the server runs', vim.wait(PATIENCE, function()
    local client = vim.lsp.get_clients({ bufnr = buffer })[1]
    return client and client.initialized
  end, 20))
  if not check('the finding is at its line', vim.wait(PATIENCE, unfused, 20), line) then
    return
  end
  local found = unfused()
  check('it starts at the circuit', found.col == 0 and found.lnum == line - 1, ('%d:%d'):format(found.lnum + 1, found.col + 1))
  check('danger is shown as an error', found.severity == vim.diagnostic.severity.ERROR)
  check('it names its source', found.source == 'coachwright', found.source)
  vim.api.nvim_win_set_cursor(0, { line, 2 })
  vim.cmd.normal('zz')
  screen(shots .. '/neovim-1-finding.txt')

  hover(shots)
  hints(buffer, shots)

  local before = vim.api.nvim_buf_get_lines(buffer, 0, -1, false)
  local offered = {}
  vim.lsp.buf.code_action({
    apply = true,
    filter = function(action)
      offered[#offered + 1] = action.title
      local lowered = action.title:lower()
      return action.kind == 'quickfix' and lowered:find('fuse') ~= nil and lowered:find('waive') == nil
    end,
  })
  local mended = vim.wait(PATIENCE, function()
    return not vim.deep_equal(before, vim.api.nvim_buf_get_lines(buffer, 0, -1, false))
  end, 20)
  check('the mend is applied', mended, table.concat(offered, ' | '))
  local circuit = table.concat(vim.api.nvim_buf_get_lines(buffer, line - 1, line + 4, false), '\n')
  check('the circuit has a fuse now', circuit:find('fuse rating="', 1, true) ~= nil, circuit)
  check('the finding is gone', vim.wait(PATIENCE, function() return unfused() == nil end, 20))
  screen(shots .. '/neovim-4-mended.txt')

  vim.cmd.undo()
  check('undo brings it back', vim.wait(PATIENCE, function() return unfused() ~= nil end, 20))
  vim.cmd.redo()
  check('redo mends it again', vim.wait(PATIENCE, function() return unfused() == nil end, 20))

  format(buffer)

  -- Another KDL file in the same folder is none of ours.
  local other = vim.fs.joinpath(vim.fs.dirname(vim.api.nvim_buf_get_name(buffer)), 'notes.kdl')
  vim.fn.writefile({ 'lamp "no build"' }, other)
  vim.cmd.write()
  vim.cmd.edit(other)
  vim.wait(300)
  check('other KDL files are left alone', vim.bo.filetype ~= 'coachwright'
    and #vim.lsp.get_clients({ bufnr = vim.api.nvim_get_current_buf() }) == 0, vim.bo.filetype)
end

local fine, fault = xpcall(run, debug.traceback)
if not fine then
  check('no error', false, fault)
end
finish()
