//! Commands that turn compiled cooks into something to work from.

use std::path::{Path, PathBuf};

use super::args::{
    Colour, Compiling, Curve, CurveFormat, Export, Format, Listing, Output, Probe, Schema, SchemaOf,
    Timeline, TimelineFormat,
};
use super::cooks::Asked;
use super::{Outcome, Status, Unusable, cooks, files, out};
use crate::compile::{Compiled, CompiledCook, Readings};
use crate::cook::{Happened, When};
use crate::findings::{Severity, Text};
use crate::folder;
use crate::output::{
    buy as buying, cautions, clean,
    curves::{Charts, Wanted},
    escape, export as exporting, prep as prepping, probe as probing, timelines,
};
use crate::quantity::Scale;
use crate::resolve;
use crate::text::FileProblem;
use crate::timing::Progress;

/// `dwell timeline`.
pub fn timeline(args: &Timeline, colour: Colour) -> Outcome {
    let serve = args.serve.as_deref().map(moment).transpose()?;
    let readings = readings(&args.planning.probe, None, args.now.is_some())?;
    let started = readings.started;
    let asked = Asked { serve, progress: progress(args)?, readings, outlook: true, ..Asked::default() };
    let read = several(std::slice::from_ref(&args.file), &args.planning.compiling, &asked)?;
    let status = tell(&read, colour)?;
    let Some(file) = read.first().filter(|file| file.understood()) else {
        return read.first().map_or(Ok(Status::Findings), not_understood);
    };
    if file.cooks().is_empty() {
        return Err(Unusable(format!("{}: there is no cook in this file to time", file.path)));
    }
    if file.cooks().len() > 1 && args.planning.probe.any() {
        return Err(of_one_dish());
    }
    let heard = || timelines::readings(file, started.is_some() && args.now.is_none());
    let output = &args.planning.output;
    match args.format {
        TimelineFormat::Text => {
            let page = format!("{}{}", above(&heard()), timelines::text(file));
            deliver(&page, Format::Text, &read, output)?;
        }
        TimelineFormat::Json => deliver(&timelines::json(file), Format::Json, &read, output)?,
        TimelineFormat::Svg => out::deliver(&timelines::svg(file, &heard()), output.output.as_deref())?,
        TimelineFormat::Ics => {
            let calendar = timelines::ics(file, heard())
                .map_err(|why| Unusable(format!("{}: {why}", clean::line(&file.path))))?;
            out::deliver(&calendar, output.output.as_deref())?;
        }
    }
    Ok(status)
}

/// What somebody says of the cook so far.
fn progress(args: &Timeline) -> Result<Progress, Unusable> {
    let Some(now) = &args.now else { return Ok(Progress::default()) };
    let now = Some(happened("--now", now)?);
    let done = args.done.iter().map(|typed| match typed.split_once('=') {
        Some((name, time)) => Ok((name.trim().to_owned(), happened("--done", time.trim())?)),
        None => Err(Unusable(format!(
            "--done: `{typed}` is not a phase and a time; write `--done \"NAME=Sat 06:05\"`"
        ))),
    });
    let started = args.planning.probe.started.iter().map(|typed| {
        let (name, time) =
            typed.split_once('=').map_or((None, typed.as_str()), |(name, time)| (Some(name), time));
        Ok((name.map(|name| name.trim().to_owned()), happened("--started", time.trim())?))
    });
    let started = started.collect::<Result<_, Unusable>>()?;
    let done = done.collect::<Result<_, _>>()?;
    Ok(Progress { now, now_at: None, started, done })
}

fn happened(option: &str, typed: &str) -> Result<Happened, Unusable> {
    resolve::happened(typed).map_err(|fault| refused(option, fault))
}

fn refused(option: &str, (what, remedy): (Text, Text)) -> Unusable {
    let scale = Scale::default();
    Unusable(format!("{option}: {} {}", what.render(scale), remedy.render(scale)))
}

fn of_one_dish() -> Unusable {
    Unusable("--core, --readings: a probe reads one dish; name the file of that dish".into())
}

/// A time as it is typed in a file. What to write instead is said for the command line: the remedies
/// of a file speak of its lines.
pub fn moment(typed: &str) -> Result<When, Unusable> {
    resolve::when(typed).map_err(|(what, _)| {
        let what = what.render(Scale::default());
        Unusable(format!("--serve: {what} Write it like 18:30, \"Saturday 18:30\" or \"2026-12-12 18:30\"."))
    })
}

/// What a probe has read, as it was typed; `phases` may be said to have started in a plan from now on.
fn readings(typed: &Probe, food: Option<&str>, phases: bool) -> Result<Readings, Unusable> {
    let all =
        typed.core.iter().map(|typed| resolve::reading(typed).map_err(|fault| refused("--core", fault)));
    let all = all.collect::<Result<_, _>>()?;
    let of_cook: Vec<&String> =
        typed.started.iter().filter(|typed| !phases || !typed.contains('=')).collect();
    let started = match of_cook.as_slice() {
        [] => None,
        [one] if one.contains('=') => {
            return Err(Unusable(format!(
                "--started: a phase starts in a plan from now on; for `{one}` add --now"
            )));
        }
        [one] => Some(happened("--started", one)?),
        _ => {
            return Err(Unusable(
                "--started: the cook started once; put a phase before a time that is its own".into(),
            ));
        }
    };
    let log = typed.readings.as_deref().map(log_bytes);
    Ok(Readings { food: food.map(str::to_owned), all, log: log.transpose()?, started })
}

/// A log as it is called, and its bytes.
pub fn log_bytes(path: &Path) -> Result<(String, Vec<u8>), Unusable> {
    let shown = path.to_string_lossy().into_owned();
    match folder::read_file(path) {
        Ok(bytes) => Ok((shown, bytes)),
        Err(FileProblem::Missing) => Err(Unusable(format!("{shown}: there is no such file"))),
        Err(FileProblem::Outside) => Err(Unusable(format!("{shown}: the file lies outside the folder"))),
        Err(FileProblem::Unreadable(why)) => {
            Err(Unusable(format!("{shown}: the file could not be read: {why}")))
        }
    }
}

/// `dwell curve`.
pub fn curve(args: &Curve, colour: Colour) -> Outcome {
    let readings = readings(&args.planning.probe, args.food.as_deref(), false)?;
    let started = readings.started;
    let asked = Asked { readings, curves: true, ..Asked::default() };
    let file = one(&args.file, &args.planning.compiling, &asked)?;
    let status = tell(std::slice::from_ref(&file), colour)?;
    if !file.understood() {
        return not_understood(&file);
    }
    let cooks = file.cooks();
    if cooks.is_empty() {
        return Err(Unusable(format!("{}: there is no cook in this file", file.path)));
    }
    if args.planning.probe.any() && cooks.len() > 1 {
        return Err(of_one_dish());
    }
    let wanted = Wanted {
        food: args.food.as_deref(),
        microbes: matches!(args.format, CurveFormat::Text | CurveFormat::Json),
        started: file.started(started),
    };
    let charts =
        Charts::of(&file, wanted).ok_or_else(|| no_food(args.food.as_deref().unwrap_or_default(), &cooks))?;
    let page = match args.format {
        CurveFormat::Text => format!("{}{}", above(&cautions::of_forecast(&file)), charts.text()),
        CurveFormat::Svg => charts.svg(),
        CurveFormat::Csv => charts.csv(),
        CurveFormat::Json => charts.json(),
    };
    out::deliver(&page, args.planning.output.output.as_deref())?;
    Ok(status)
}

fn no_food(typed: &str, cooks: &[CompiledCook<'_>]) -> Unusable {
    let of = |cook: &CompiledCook<'_>| {
        let foods = cook.curves.foods.iter().map(|food| food.name.clone());
        foods.chain(cook.curves.unpredicted.iter().map(|food| food.name.clone())).collect::<Vec<_>>()
    };
    let mut names: Vec<String> = cooks.iter().flat_map(of).collect();
    names.sort_unstable();
    names.dedup();
    Unusable(format!("no food called {typed} is put into heat or cold here; there are: {}", names.join(", ")))
}

/// `dwell buy`.
pub fn buy(args: &Listing, colour: Colour) -> Outcome {
    listing(args, colour, |cooks, format| {
        let list = buying::list(&cooks.iter().map(|worked| worked.cook).collect::<Vec<_>>());
        match format {
            Format::Text => buying::text(&list),
            Format::Json => escape::json(&list),
        }
    })
}

/// `dwell prep`.
pub fn prep(args: &Listing, colour: Colour) -> Outcome {
    listing(args, colour, |cooks, format| {
        let list = prepping::judged(cooks);
        match format {
            Format::Text => prepping::text(&list),
            Format::Json => escape::json(&list),
        }
    })
}

/// `dwell export`.
pub fn export(args: &Export, colour: Colour) -> Outcome {
    let cook = one(&args.file, &args.compiling, &Asked { outlook: true, ..Asked::default() })?;
    let status = tell(std::slice::from_ref(&cook), colour)?;
    match exporting::json(&cook).filter(|_| cook.understood()) {
        Some(json) => {
            out::deliver(&json, args.output.output.as_deref())?;
            Ok(status)
        }
        None => not_understood(&cook),
    }
}

/// `dwell schema`.
pub fn schema(args: &Schema) -> Outcome {
    let schema = match args.of {
        SchemaOf::Export => exporting::schema(),
        SchemaOf::Probe => probing::schema(),
    };
    out::deliver(&schema, args.output.output.as_deref())?;
    Ok(Status::Fine)
}

fn listing(args: &Listing, colour: Colour, show: impl Fn(&[CompiledCook<'_>], Format) -> String) -> Outcome {
    let read = several(&args.files, &args.compiling, &Asked::default())?;
    let status = tell(&read, colour)?;
    if let Some(unclear) = read.iter().find(|file| !file.understood()) {
        return not_understood(unclear);
    }
    let cooks: Vec<CompiledCook<'_>> = read.iter().flat_map(Compiled::cooks).collect();
    if cooks.is_empty() {
        return Err(Unusable("there is no cook in these files".into()));
    }
    deliver(&show(&cooks, args.format), args.format, &read, &args.output)?;
    Ok(status)
}

/// Writes a result; one for people starts with a word about the errors that its cooks have.
fn deliver(result: &str, format: Format, read: &[Compiled], output: &Output) -> Result<(), Unusable> {
    let page = match format {
        Format::Json => result.to_owned(),
        Format::Text => {
            let cautions: Vec<String> = read.iter().filter_map(cautions::of_errors).collect();
            format!("{}{}", above(&cautions), clean::page(result))
        }
    };
    Ok(out::deliver(&page, output.output.as_deref())?)
}

/// Each on a line of its own above a page.
fn above(cautions: &[String]) -> String {
    let lines: String = cautions.iter().map(|caution| format!("{caution}\n")).collect();
    if lines.is_empty() { lines } else { lines + "\n" }
}

/// The one cook that a command is about.
pub fn one(path: &Path, options: &Compiling, asked: &Asked) -> Result<Compiled, Unusable> {
    let mut read = several(&[path.to_owned()], options, asked)?;
    read.pop().ok_or_else(|| Unusable("name a file".into()))
}

fn several(paths: &[PathBuf], options: &Compiling, asked: &Asked) -> Result<Vec<Compiled>, Unusable> {
    if let Some(folder) = paths.iter().find(|path| path.is_dir()) {
        return Err(Unusable(format!("{}: name a file, not a folder", folder.display())));
    }
    cooks::known_rules(options)?;
    files::named(paths)?.iter().map(|named| cooks::compile(named, options, asked)).collect()
}

/// Shows the findings; errors decide the exit status, and do not by themselves hold a result back.
pub fn tell(read: &[Compiled], colour: Colour) -> Result<Status, Unusable> {
    for file in read {
        cooks::tell_findings(file, colour)?;
    }
    let failed = read.iter().flat_map(|file| &file.findings).any(|found| found.severity == Severity::Error);
    Ok(if failed { Status::Findings } else { Status::Fine })
}

pub fn not_understood(file: &Compiled) -> Outcome {
    let path = clean::line(&file.path);
    out::tell(&format!("{path}: nothing is written until every line can be understood.\n"))?;
    Ok(Status::Findings)
}
