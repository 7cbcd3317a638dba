//! Starts `dwell lsp` for Zed.

use zed_extension_api::{self as zed, Command, LanguageServerId, Result, Worktree};

struct Dwell;

impl zed::Extension for Dwell {
    fn new() -> Self {
        Self
    }

    fn language_server_command(&mut self, _: &LanguageServerId, worktree: &Worktree) -> Result<Command> {
        let command = worktree.which("dwell").ok_or("The program dwell was not found: install it first.")?;
        Ok(Command { command, args: vec!["lsp".to_owned()], env: worktree.shell_env() })
    }
}

zed::register_extension!(Dwell);
