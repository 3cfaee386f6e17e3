-- Builds, parts and rule packs by the end of their names; every other KDL file stays what it is.
vim.filetype.add({
  pattern = {
    ['.*%.build%.kdl'] = { 'coachwright', { priority = 10 } },
    ['.*%.parts%.kdl'] = { 'coachwright', { priority = 10 } },
    ['.*%.rules%.kdl'] = { 'coachwright', { priority = 10 } },
  },
})
