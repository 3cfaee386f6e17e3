-- Starts the language server for every file of the type `coachwright`, and says so when the program is not there.
if vim.fn.has('nvim-0.11') == 0 then
  vim.notify('Coachwright needs Neovim 0.11 or newer.', vim.log.levels.ERROR)
  return
end

vim.lsp.enable('coachwright')

local group = vim.api.nvim_create_augroup('coachwright', {})

-- Neovim shows hints beside the lines only where it is told to. `:lua vim.lsp.inlay_hint.enable(false)` hides them.
vim.api.nvim_create_autocmd('LspAttach', {
  group = group,
  callback = function(event)
    local client = vim.lsp.get_client_by_id(event.data.client_id)
    if client and client.name == 'coachwright' and client:supports_method('textDocument/inlayHint', event.buf) then
      vim.lsp.inlay_hint.enable(true, { bufnr = event.buf })
    end
  end,
})

vim.api.nvim_create_autocmd('FileType', {
  pattern = 'coachwright',
  group = group,
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
