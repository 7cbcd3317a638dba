vim.filetype.add({ extension = { dwell = 'dwell' } })
