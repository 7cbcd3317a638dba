//! What can be typed after `dwell`.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

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
    /// The whole compiled cook as JSON
    Export(Export),
    /// The JSON Schema of what `export` or `probe` writes
    Schema(Schema),
    /// Lay files out as everybody does
    Fmt(Fmt),
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
    /// Completions for a shell
    Completions {
        #[arg(value_enum)]
        shell: clap_complete::Shell,
    },
    /// The manual page, as roff
    Man,
}

/// Options of everything that compiles a cook.
#[derive(Debug, Args)]
pub struct Compiling {
    /// Scale the cook to this number of people
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
    pub serves: Option<u32>,

    /// Judge by this set of rules instead of the one the file names
    #[arg(long, value_name = "ID")]
    pub rules: Option<String>,

    /// Show temperatures in degrees Celsius
    #[arg(long, conflicts_with = "fahrenheit")]
    pub celsius: bool,

    /// Show temperatures in degrees Fahrenheit
    #[arg(long)]
    pub fahrenheit: bool,

    /// The folder that files may name other files in (default: the folder of the file)
    #[arg(long, value_name = "FOLDER")]
    pub root: Option<PathBuf>,
}

/// Probe readings of the cook so far.
#[derive(Debug, Args)]
pub struct Probe {
    /// What a probe in the middle of the food has read, such as "Sat 07:40 = 61 °C", or "2 h 30 min = 54 °C" after the
    /// start; as often as needed
    #[arg(long, value_name = "TIME=TEMP")]
    pub core: Vec<String>,

    /// A log of readings: a table with the columns elapsed_s, elapsed_min or time, and core_c or core_f
    #[arg(long, value_name = "FILE.csv")]
    pub readings: Option<PathBuf>,

    /// When the cook really started, where readings have times of day and the plan leaves the start open
    #[arg(long, value_name = "WHEN")]
    pub started: Option<String>,
}

impl Probe {
    /// Is there any reading?
    pub fn any(&self) -> bool {
        !self.core.is_empty() || self.readings.is_some()
    }
}

/// Options of what a cook is followed in.
#[derive(Debug, Args)]
pub struct Planning {
    #[command(flatten)]
    pub probe: Probe,

    #[command(flatten)]
    pub compiling: Compiling,

    #[command(flatten)]
    pub output: Output,
}

#[derive(Debug, Args)]
pub struct Output {
    /// Write to this file instead of standard output
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

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

    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,

    #[command(flatten)]
    pub planning: Planning,
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

/// For people or for programs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    Text,
    Json,
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
