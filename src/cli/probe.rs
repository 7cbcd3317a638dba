//! `dwell probe`.

use super::args::{Colour, ProbeFormat, Probing};
use super::{Outcome, Status, Unusable, cooks, emit, out};
use crate::compile;
use crate::cook::Happened;
use crate::findings::{Severity, Text};
use crate::folder;
use crate::output::{clean, probe as probing};
use crate::quantity::Scale;
use crate::resolve;

pub fn run(args: &Probing, colour: Colour) -> Outcome {
    let asked = asked(args)?;
    let mut file = emit::one(&args.file, &args.compiling, &cooks::Asked::default())?;
    if !file.understood() {
        cooks::tell_findings(&file, colour)?;
        return emit::not_understood(&file);
    }
    let shown = clean::line(&file.path).into_owned();
    let probed =
        file.probe(&asked).map_err(|why| Unusable(format!("{shown}: {}", why.render(Scale::default()))))?;
    let page = match args.format {
        ProbeFormat::Json => probing::json(&file, probed.as_ref()),
        ProbeFormat::Human => {
            cooks::tell_findings(&file, colour)?;
            probing::text(&file, probed.as_ref())
        }
    };
    out::deliver(&page, args.output.output.as_deref())?;
    let failed = file.findings.iter().any(|finding| finding.severity == Severity::Error);
    Ok(if failed { Status::Findings } else { Status::Fine })
}

fn asked(args: &Probing) -> Result<compile::Probing, Unusable> {
    let mut done = Vec::new();
    for typed in &args.done {
        let Some((name, time)) = typed.split_once('=') else {
            return Err(Unusable(format!(
                "--done: `{typed}` is not a phase and a time; write `--done \"NAME=6 h 5 min\"`"
            )));
        };
        done.push((name.trim().to_owned(), moment("--done", time.trim(), resolve::moment)?));
    }
    let started = args.started.as_deref().map(|typed| moment("--started", typed, resolve::happened));
    Ok(compile::Probing {
        food: args.food.clone(),
        log: (args.readings.to_string_lossy().into_owned(), bytes(args)?),
        started: started.transpose()?,
        done,
        phase: args.phase.clone(),
    })
}

fn moment(
    option: &str,
    typed: &str,
    read: impl Fn(&str) -> Result<Happened, (Text, Text)>,
) -> Result<Happened, Unusable> {
    read(typed).map_err(|(what, remedy)| {
        let scale = Scale::default();
        Unusable(format!("{option}: {} {}", what.render(scale), remedy.render(scale)))
    })
}

fn bytes(args: &Probing) -> Result<Vec<u8>, Unusable> {
    if args.readings.as_os_str() != "-" {
        return emit::log_bytes(&args.readings).map(|(_, bytes)| bytes);
    }
    if args.file.as_os_str() == "-" {
        return Err(Unusable("the cook and the log cannot both be on standard input".into()));
    }
    folder::read_all(std::io::stdin().lock())
        .map_err(|why| Unusable(format!("standard input could not be read: {why}")))
}
