(block) @indent
