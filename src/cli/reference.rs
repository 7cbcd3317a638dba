//! Commands that only look something up.

use super::args::Explain;
use super::{Outcome, Status, Unusable, out};
use crate::findings::{ALL, Code};
use crate::output::{clean, explain as pages};

/// `dwell explain CODE`.
pub fn explain(args: &Explain) -> Outcome {
    match Code::find(args.code.trim()) {
        Some(code) => {
            out::print(&pages::page(code))?;
            Ok(Status::Fine)
        }
        None => Err(Unusable(unknown_code(&args.code))),
    }
}

fn unknown_code(typed: &str) -> String {
    let nearest = ALL
        .iter()
        .map(|code| (strsim::jaro_winkler(&typed.to_lowercase(), code.name()), code.name()))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .filter(|(likeness, _)| *likeness > 0.75);
    let typed = clean::line(typed);
    match nearest {
        Some((_, name)) => format!("there is no finding called {typed}; the nearest is {name}"),
        None => format!("there is no finding called {typed}; the code stands behind each finding"),
    }
}
