//! The command line: reads arguments and files, asks the library, writes what it answers.
//!
//! A command returns its exit status, or one sentence about why it could not be used.

mod args;
mod check;
mod cooks;
mod desk;
mod emit;
pub mod files;
mod fmt;
mod lsp;
mod new;
mod out;
mod probe;
mod progress;
mod reference;
mod sheet;
mod source;
mod together;

use std::process::ExitCode;

use clap::{CommandFactory, Parser};

use args::{Cli, Command};

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Status {
    /// Nothing that fails.
    Fine = 0,
    /// There are findings that fail.
    Findings = 1,
    /// The command or its files could not be used.
    Unusable = 2,
}

/// Why a command or its files could not be used; a sentence without a full stop.
#[derive(Debug)]
struct Unusable(String);

impl From<String> for Unusable {
    fn from(why: String) -> Self {
        Self(why)
    }
}

impl From<std::io::Error> for Unusable {
    fn from(why: std::io::Error) -> Self {
        Self(format!("the output could not be written: {why}"))
    }
}

type Outcome = Result<Status, Unusable>;

/// Runs the program with the arguments and streams of this process.
pub fn run() -> ExitCode {
    let cli = Cli::parse();
    let status = command(&cli).unwrap_or_else(|Unusable(why)| {
        // Where even standard error is closed there is nobody left to tell.
        let _ = out::tell(&format!("dwell: {}\n", crate::output::clean::line(&why)));
        Status::Unusable
    });
    ExitCode::from(status as u8)
}

fn command(cli: &Cli) -> Outcome {
    match &cli.command {
        Command::Check(check) => check::run(check, cli.color),
        Command::Timeline(timeline) => emit::timeline(timeline, cli.color),
        Command::Curve(curve) => emit::curve(curve, cli.color),
        Command::Buy(listing) => emit::buy(listing, cli.color),
        Command::Prep(listing) => emit::prep(listing, cli.color),
        Command::Sheet(args) => sheet::run(args, cli.color),
        Command::Source(args) => source::run(args),
        Command::Export(export) => emit::export(export, cli.color),
        Command::Probe(args) => probe::run(args, cli.color),
        Command::Schema(args) => emit::schema(args),
        Command::Fmt(fmt) => fmt::run(fmt, cli.color),
        Command::Desk(args) => desk::run(args),
        Command::Explain(explain) => reference::explain(explain),
        Command::Rules(table) => reference::rules(table),
        Command::Foods(table) => reference::foods(table),
        Command::Kit(table) => reference::kit(table),
        Command::New(new) => new::run(new),
        Command::Lsp => lsp::run(),
        Command::Completions { shell } => {
            let mut script = Vec::new();
            clap_complete::generate(*shell, &mut Cli::command(), "dwell", &mut script);
            out::print(&String::from_utf8_lossy(&script))?;
            Ok(Status::Fine)
        }
        Command::Man => {
            let mut page = Vec::new();
            clap_mangen::Man::new(Cli::command()).render(&mut page)?;
            out::print(&String::from_utf8_lossy(&page))?;
            Ok(Status::Fine)
        }
    }
}
