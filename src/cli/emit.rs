//! Commands that turn a compiled cook into something to work from.

use super::args::{Colour, Compiling, Export, Output};
use super::files::Named;
use super::{Outcome, Status, Unusable, cooks, files, out};
use crate::compile::Compiled;
use crate::findings::Severity;
use crate::output::export as exporting;

/// `dwell export`.
pub fn export(args: &Export, colour: Colour) -> Outcome {
    let cook = one(&args.file, &args.compiling)?;
    let status = tell(&cook, colour)?;
    match exporting::json(&cook).filter(|_| cook.understood()) {
        Some(json) => {
            out::deliver(&json, args.output.output.as_deref())?;
            Ok(status)
        }
        None => not_understood(&cook),
    }
}

/// `dwell schema`.
pub fn schema(output: &Output) -> Outcome {
    out::deliver(&exporting::schema(), output.output.as_deref())?;
    Ok(Status::Fine)
}

/// The one cook that a command is about.
fn one(path: &std::path::Path, options: &Compiling) -> Result<Compiled, Unusable> {
    if path.is_dir() {
        return Err(Unusable(format!("{}: name one file, not a folder", path.display())));
    }
    let named = files::named(&[path.to_owned()])?;
    let first: &Named = named.first().ok_or_else(|| "name a file".to_owned())?;
    cooks::compile(first, options)
}

/// Shows the findings; errors decide the exit status, and do not by themselves hold a result back.
fn tell(cook: &Compiled, colour: Colour) -> Result<Status, Unusable> {
    cooks::tell_findings(cook, colour)?;
    let failed = cook.findings.iter().any(|finding| finding.severity == Severity::Error);
    Ok(if failed { Status::Findings } else { Status::Fine })
}

fn not_understood(cook: &Compiled) -> Outcome {
    let path = crate::output::clean::line(&cook.path);
    out::tell(&format!("{path}: nothing is written until every line can be understood.\n"))?;
    Ok(Status::Findings)
}
