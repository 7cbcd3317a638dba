(block) @indent.begin
