//! What each command takes.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::shared::{Compiling, Format, Output, Planning};

#[derive(Debug, Args)]
pub struct Check {
    /// Files, and folders to look for .dwell files in; - is standard input
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,

    #[arg(long, value_enum, default_value_t = CheckFormat::Human)]
    pub format: CheckFormat,

    /// Fail on warnings too
    #[arg(long, value_enum, value_name = "WHAT")]
    pub deny: Option<Deny>,

    #[command(flatten)]
    pub compiling: Compiling,

    #[command(flatten)]
    pub output: Output,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum CheckFormat {
    Human,
    Json,
    Sarif,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Deny {
    Warnings,
}

#[derive(Debug, Args)]
pub struct Export {
    /// The cook; - is standard input
    pub file: PathBuf,

    #[command(flatten)]
    pub compiling: Compiling,

    #[command(flatten)]
    pub output: Output,
}

#[derive(Debug, Args)]
pub struct Fmt {
    /// Files, and folders to look for .dwell files in; - is standard input
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,

    /// Change nothing; name the files that would change
    #[arg(long)]
    pub check: bool,
}

#[derive(Debug, Args)]
pub struct Explain {
    /// The code of a finding, such as hold-too-cool
    pub code: String,
}

#[derive(Debug, Args)]
pub struct New {
    /// The name of the cook, or a path to write it to
    pub name: PathBuf,
}

#[derive(Debug, Args)]
pub struct Timeline {
    /// The cook; - is standard input
    pub file: PathBuf,

    /// Move the cook so that its first serving starts at this time
    #[arg(long, value_name = "WHEN")]
    pub serve: Option<String>,

    /// How late it is: the plan from here on, such as "Sat 07:40"
    #[arg(long, value_name = "WHEN")]
    pub now: Option<String>,

    /// A phase that is over, and when it ended, such as smoke=06:05; as often as needed. What came before it is over too
    #[arg(long, value_name = "NAME=WHEN", requires = "now")]
    pub done: Vec<String>,

    /// ics is a calendar, and needs a date; svg is a picture
    #[arg(long, value_enum, default_value_t = TimelineFormat::Text)]
    pub format: TimelineFormat,

    #[command(flatten)]
    pub planning: Planning,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum TimelineFormat {
    Text,
    Json,
    Ics,
    Svg,
}

#[derive(Debug, Args)]
pub struct Curve {
    /// The cook; - is standard input
    pub file: PathBuf,

    /// Only this food, by the name it has in the file
    #[arg(long, value_name = "NAME")]
    pub food: Option<String>,

    #[arg(long, value_enum, default_value_t = CurveFormat::Text)]
    pub format: CurveFormat,

    #[command(flatten)]
    pub planning: Planning,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum CurveFormat {
    Text,
    Csv,
    Json,
    Svg,
}

#[derive(Debug, Args)]
#[command(
    after_help = "A probe sees one place; what falls into a gap of the log is not judged. Exit status: 0 no rule is \
    broken by what was measured, 1 findings, 2 the command or its files could not be used."
)]
pub struct Probing {
    /// The cook; - is standard input
    pub file: PathBuf,

    /// The log: a table with the columns elapsed_s, elapsed_min or time, and core_c, surface_c or medium_c (or _f); - is
    /// standard input
    #[arg(value_name = "READINGS.csv")]
    pub readings: PathBuf,

    /// The food that the probe was in, by the name it has in the file
    #[arg(long, value_name = "NAME")]
    pub food: Option<String>,

    /// When a phase was over, such as "smoke=Sat 06:05", or "smoke=6 h 5 min" after the start; as often as needed
    #[arg(long, value_name = "NAME=TIME", conflicts_with = "phase")]
    pub done: Vec<String>,

    /// The whole log is of this phase
    #[arg(long, value_name = "NAME")]
    pub phase: Option<String>,

    /// When the cook really started, where the log has times of day and the plan leaves the start open
    #[arg(long, value_name = "WHEN")]
    pub started: Option<String>,

    #[arg(long, value_enum, default_value_t = ProbeFormat::Human)]
    pub format: ProbeFormat,

    #[command(flatten)]
    pub compiling: Compiling,

    #[command(flatten)]
    pub output: Output,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ProbeFormat {
    Human,
    Json,
}

#[derive(Debug, Args)]
pub struct Schema {
    /// Of what
    #[arg(value_enum, default_value_t = SchemaOf::Export)]
    pub of: SchemaOf,

    #[command(flatten)]
    pub output: Output,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SchemaOf {
    Export,
    Probe,
}

/// A list for people.
#[derive(Debug, Args)]
pub struct Listing {
    /// The cooks; - is standard input
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,

    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,

    #[command(flatten)]
    pub compiling: Compiling,

    #[command(flatten)]
    pub output: Output,
}

#[derive(Debug, Args)]
pub struct Sheet {
    /// The cook or the menu; - is standard input
    pub file: PathBuf,

    /// Move the cook so that its first serving starts at this time
    #[arg(long, value_name = "WHEN")]
    pub serve: Option<String>,

    /// How much of it
    #[arg(long = "for", value_enum, default_value_t = SheetFor::Full, value_name = "WHOM")]
    pub whom: SheetFor,

    /// The paper of a PDF (default: a4); a browser asks for it itself
    #[arg(long, value_enum)]
    pub paper: Option<Paper>,

    #[command(flatten)]
    pub compiling: Compiling,

    #[command(flatten)]
    pub output: Output,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SheetFor {
    /// Page one alone
    Wall,
    /// A page for each dish of a menu, or for each place of work of one cook
    Station,
    /// Everything
    Full,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Paper {
    A4,
    Letter,
}

#[derive(Debug, Args)]
pub struct Source {
    /// A page that `dwell sheet` wrote; - is standard input
    pub page: PathBuf,

    /// One of the other files that the page carries, by its name there
    #[arg(value_name = "NAME")]
    pub name: Option<String>,

    #[command(flatten)]
    pub output: Output,
}

#[derive(Debug, Args)]
pub struct Table {
    /// One entry, in full; its name may have several words
    name: Vec<String>,

    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
}

impl Table {
    /// The entry that is asked for, quoted or not.
    pub fn name(&self) -> Option<String> {
        (!self.name.is_empty()).then(|| self.name.join(" "))
    }
}

#[derive(Debug, Args)]
pub struct KitTable {
    #[command(flatten)]
    pub table: Table,

    /// Show temperatures in degrees Fahrenheit
    #[arg(long)]
    pub fahrenheit: bool,
}

#[derive(Debug, Args)]
#[command(
    after_help = "The page is served on the loopback address only, under an address that cannot be guessed. The file is \
    written when you save, and never where somebody else has changed it meanwhile."
)]
pub struct Desk {
    /// The file to write on
    pub file: PathBuf,

    /// The port of the address; 0 takes a free one
    #[arg(long, default_value_t = 0, value_name = "N")]
    pub port: u16,
}
