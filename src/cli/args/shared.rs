//! Options that several commands take.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

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

    /// When the cook really started, where readings have times of day and the plan leaves the start open. In a plan from
    /// now on, also when any phase did, such as peel=12:20; as often as needed
    #[arg(long, value_name = "WHEN")]
    pub started: Vec<String>,
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

/// For people or for programs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    Text,
    Json,
}
