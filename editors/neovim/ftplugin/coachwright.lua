vim.bo.commentstring = '// %s'
vim.bo.comments = '://'
vim.bo.expandtab = true
vim.bo.shiftwidth = 4
vim.b.undo_ftplugin = 'setlocal commentstring< comments< expandtab< shiftwidth<'
