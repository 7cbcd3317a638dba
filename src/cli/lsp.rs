//! `dwell lsp`.

use lsp_server::Connection;

use super::{Outcome, Status};
use crate::lsp::{self, Ended};

pub fn run() -> Outcome {
    let (connection, _threads) = Connection::stdio();
    match lsp::run(&connection)? {
        Ended::InOrder => Ok(Status::Fine),
        Ended::Abruptly => Ok(Status::Findings),
    }
}
