//! `dwell desk FILE`: serves the desk on the loopback address until it is ended.

mod file;
mod serve;

use std::net::TcpListener;

use super::args::Desk;
use super::{Outcome, Status, Unusable, out};
use crate::desk::guard::Guard;
use file::DeskFile;
use serve::Server;

pub fn run(args: &Desk) -> Outcome {
    let file = DeskFile::open(&args.file)?;
    let listener = TcpListener::bind(("127.0.0.1", args.port))
        .map_err(|why| format!("--port: no page can be served on port {}: {why}", args.port))?;
    let port = listener.local_addr()?.port();
    let guard = Guard::new(port, token()?);
    out::print(&format!(
        "{}\nOpen this address in a browser on this machine. Whoever has it can read and write {}; end with Ctrl-C.\n",
        guard.address(),
        file.shown()
    ))?;
    Server::new(listener, guard, file)?.run()?;
    Ok(Status::Fine)
}

/// 128 random bits, as hexadecimal digits.
fn token() -> Result<String, Unusable> {
    let mut bytes = [0; 16];
    getrandom::fill(&mut bytes).map_err(|why| format!("this machine gives no random numbers: {why}"))?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}
