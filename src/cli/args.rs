//! What can be typed after `dwell`.

mod commands;
mod shared;

use clap::{Parser, Subcommand, ValueEnum};

#[cfg(feature = "pdf")]
pub use commands::Paper;
pub use commands::{
    Check, CheckFormat, Curve, CurveFormat, Deny, Desk, Explain, Export, Fmt, KitTable, Listing, New,
    ProbeFormat, Probing, Schema, SchemaOf, Sheet, SheetFor, Source, Table, Timeline, TimelineFormat,
};
pub use shared::{Compiling, Format, Output, Probe};

/// Checks and times long indoor cooks that are written down as text.
#[derive(Debug, Parser)]
#[command(name = "dwell", version, max_term_width = 100, arg_required_else_help = true)]
#[command(after_help = "Exit status: 0 no errors, 1 findings, 2 the command or its files could not be used.")]
pub struct Cli {
    /// Colour on the terminal; NO_COLOR is respected
    #[arg(long, global = true, value_enum, default_value_t = Colour::Auto, value_name = "WHEN")]
    pub color: Colour,

    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    Auto,
    Always,
    Never,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Read cooks and report everything that is wrong with them
    Check(Check),

    /// Clock times of every phase and every job for hands
    Timeline(Timeline),
    /// Predicted temperatures around each food, on its surface and in its core
    Curve(Curve),
    /// Judge what a thermometer wrote down during the cook, by the rules of the cook
    Probe(Probing),
    /// What to buy, by supplier
    Buy(Listing),
    /// What to do before the heat goes on, in order
    Prep(Listing),
    /// A page to print and put on the wall: the plan with boxes to tick, and everything else, as HTML
    /// or, with `-o NAME.pdf`, as PDF
    Sheet(Sheet),
    /// The text that a sheet was made from, byte for byte
    Source(Source),
    /// The whole compiled cook as JSON
    Export(Export),
    /// The JSON Schema of what `export` or `probe` writes
    Schema(Schema),
    /// Lay files out as everybody does
    Fmt(Fmt),
    /// Write a cook in the browser, and see what is wrong and what comes of it; for when you have no editor set up
    Desk(Desk),
    /// Why a finding exists, its source, and an example with it and one without
    Explain(Explain),
    /// The sets of food-safety rules
    Rules(Table),
    /// The kinds of food that a cook may name
    Foods(Table),
    /// The classes of kit and what they can do
    Kit(KitTable),
    /// Write a first file that checks clean
    New(New),
    /// Serve an editor over the language-server protocol on standard input and output
    Lsp,
    /// Completions for a shell
    Completions {
        #[arg(value_enum)]
        shell: clap_complete::Shell,
    },
    /// The manual page, as roff
    Man,
}
