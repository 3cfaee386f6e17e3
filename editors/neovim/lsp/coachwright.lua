-- How Neovim (0.11 or newer) starts the language server. Change it in your own init.lua:
--   vim.lsp.config('coachwright', { cmd = { '/path/to/coachwright', 'language-server' } })

-- The same names that other editors send, by the end of the file's name.
local language_ids = {
  { '%.build%.kdl$', 'coachwright-build' },
  { '%.parts%.kdl$', 'coachwright-parts' },
  { '%.rules%.kdl$', 'coachwright-rules' },
}

return {
  cmd = { 'coachwright', 'language-server' },
  filetypes = { 'coachwright' },
  -- A build includes parts by paths relative to itself; the project's own folder is the farthest it looks.
  root_markers = { '.git' },
  -- Whether hints are worked out beside the lines; the first is read at the start, the second whenever it is sent.
  init_options = { inlayHints = true },
  settings = { inlayHints = true },
  get_language_id = function(buffer, filetype)
    local name = vim.api.nvim_buf_get_name(buffer)
    for _, entry in ipairs(language_ids) do
      if name:find(entry[1]) then
        return entry[2]
      end
    end
    return filetype
  end,
}
