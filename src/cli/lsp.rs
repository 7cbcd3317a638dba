//! `dwell lsp`.

use super::{Outcome, Status, Unusable, out};
use crate::lsp::{self, Ended};
use crate::output::clean;

pub fn run() -> Outcome {
    let (connection, writer) = lsp::connect(|why| {
        // Standard error is for whoever looks into a log; nothing hangs on it.
        let _ = out::tell(&format!("dwell: {}\n", clean::line(why)));
    });
    let ended = lsp::run(&connection)
        .map_err(|why| Unusable(format!("there is no thread to check files on: {why}")))?;
    drop(connection);
    // It only fails with its thread, and then there is nothing left to write.
    let _ = writer.join();
    match ended {
        Ended::InOrder => Ok(Status::Fine),
        Ended::Abruptly => Ok(Status::Findings),
    }
}
