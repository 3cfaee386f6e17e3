-- Starts the language server for every file of the type `coachwright`, and says so when the program is not there.
if vim.fn.has('nvim-0.11') == 0 then
  vim.notify('Coachwright needs Neovim 0.11 or newer.', vim.log.levels.ERROR)
  return
end

vim.lsp.enable('coachwright')

vim.api.nvim_create_autocmd('FileType', {
  pattern = 'coachwright',
  group = vim.api.nvim_create_augroup('coachwright', {}),
  callback = function()
    local command = vim.lsp.config.coachwright.cmd
    if type(command) == 'table' and vim.fn.executable(command[1]) == 0 then
      vim.notify_once(
        ("Coachwright could not start: there is no program '%s'. Put it on PATH, or name it with vim.lsp.config('coachwright', { cmd = { '/path/to/coachwright', 'language-server' } })."):format(
          command[1]
        ),
        vim.log.levels.ERROR
      )
    end
  end,
})
