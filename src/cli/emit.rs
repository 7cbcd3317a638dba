//! Commands that turn compiled cooks into something to work from.

use std::path::{Path, PathBuf};

use super::args::{Colour, Compiling, Curve, CurveFormat, Export, Format, Listing, Output, Probe, Timeline};
use super::cooks::Asked;
use super::{Outcome, Status, Unusable, cooks, files, out};
use crate::compile::{Compiled, CompiledCook, Readings};
use crate::cook::When;
use crate::findings::Severity;
use crate::heat::{Curves, Reading};
use crate::output::{
    buy as buying, clean, curve as curves, escape, export as exporting, prep as prepping, timelines,
};
use crate::quantity::Scale;
use crate::resolve;
use crate::tables::{RuleSet, RuleSets};

/// `dwell timeline`.
pub fn timeline(args: &Timeline, colour: Colour) -> Outcome {
    let serve = args.serve.as_deref().map(moment).transpose()?;
    let asked = Asked { serve, readings: readings(&args.probe, None)?, ..Asked::default() };
    let read = several(std::slice::from_ref(&args.file), &args.compiling, &asked)?;
    let status = tell(&read, colour)?;
    let Some(file) = read.first().filter(|file| file.understood()) else {
        return read.first().map_or(Ok(Status::Findings), not_understood);
    };
    if file.cooks().is_empty() {
        return Err(Unusable(format!("{}: there is no cook in this file to time", file.path)));
    }
    let page = match args.format {
        Format::Text => timelines::text(file),
        Format::Json => timelines::json(file),
    };
    deliver(&page, args.format, &read, &args.output)?;
    Ok(status)
}

/// A time as it is typed in a file. What to write instead is said for the command line: the remedies
/// of a file speak of its lines.
fn moment(typed: &str) -> Result<When, Unusable> {
    resolve::when(typed).map_err(|(what, _)| {
        let what = what.render(Scale::default());
        Unusable(format!("--serve: {what} Write it like 18:30, \"Saturday 18:30\" or \"2026-12-12 18:30\"."))
    })
}

/// What a probe has read, as it was typed.
fn readings(typed: &Probe, food: Option<&str>) -> Result<Readings, Unusable> {
    let read = |typed: &String| match resolve::reading(typed) {
        Ok((when, core)) => Ok(Reading { t_s: when.seconds(), core_c: core.celsius() }),
        Err((what, remedy)) => {
            let scale = Scale::default();
            Err(Unusable(format!("--core: {} {}", what.render(scale), remedy.render(scale))))
        }
    };
    let all = typed.core.iter().map(read).collect::<Result<_, _>>()?;
    Ok(Readings { food: food.map(str::to_owned), all })
}

/// `dwell curve`.
pub fn curve(args: &Curve, colour: Colour) -> Outcome {
    let readings = readings(&args.probe, args.food.as_deref())?;
    let asked = Asked { readings, curves: true, ..Asked::default() };
    let file = one(&args.file, &args.compiling, &asked)?;
    let read = std::slice::from_ref(&file);
    let status = tell(read, colour)?;
    if !file.understood() {
        return not_understood(&file);
    }
    let [worked] = file.cooks()[..] else {
        return Err(Unusable(format!("{}: name the file of one cook; of a menu, that of a dish", file.path)));
    };
    let chosen = match &args.food {
        Some(name) => curves::of_food(worked.curves, name).ok_or_else(|| no_food(name, worked.curves))?,
        None => worked.curves.clone(),
    };
    let sets = RuleSets::built_in().sets().iter();
    let in_force = sets.filter(|set| worked.judged.iter().any(|judged| judged.set == set.id));
    let limits = curves::limits(&in_force.collect::<Vec<&RuleSet>>());
    let start = worked.timeline.and_then(curves::Start::of);
    let title = &worked.cook.title.value;
    let page = match args.format {
        CurveFormat::Text => {
            format!("{}{}", cautions(read), curves::text(title, &chosen, &limits, start, file.scale))
        }
        CurveFormat::Csv => curves::csv(&chosen),
        CurveFormat::Json => curves::json(&chosen),
        CurveFormat::Svg => curves::svg(title, &chosen, &limits, start, file.scale),
    };
    out::deliver(&page, args.output.output.as_deref())?;
    Ok(status)
}

fn no_food(typed: &str, curves: &Curves) -> Unusable {
    let foods = curves.foods.iter().map(|food| food.name.as_str());
    let mut names: Vec<&str> =
        foods.chain(curves.unpredicted.iter().map(|food| food.name.as_str())).collect();
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
        let list =
            prepping::list(&cooks.iter().map(|worked| (worked.cook, worked.ledger)).collect::<Vec<_>>());
        match format {
            Format::Text => prepping::text(&list),
            Format::Json => escape::json(&list),
        }
    })
}

/// `dwell export`.
pub fn export(args: &Export, colour: Colour) -> Outcome {
    let cook = one(&args.file, &args.compiling, &Asked::default())?;
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
pub fn schema(output: &Output) -> Outcome {
    out::deliver(&exporting::schema(), output.output.as_deref())?;
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
        Format::Text => format!("{}{}", cautions(read), clean::page(result)),
    };
    Ok(out::deliver(&page, output.output.as_deref())?)
}

fn cautions(read: &[Compiled]) -> String {
    let mut cautions = String::new();
    for file in read {
        let errors = file.findings.iter().filter(|finding| finding.severity == Severity::Error).count();
        if errors > 0 {
            let path = clean::line(&file.path);
            let errors = if errors == 1 { "1 error".to_owned() } else { format!("{errors} errors") };
            cautions.push_str(&format!(
                "CAUTION: {path} has {errors}. Do not cook from this before `dwell check` finds none.\n"
            ));
        }
    }
    if !cautions.is_empty() {
        cautions.push('\n');
    }
    cautions
}

/// The one cook that a command is about.
fn one(path: &Path, options: &Compiling, asked: &Asked) -> Result<Compiled, Unusable> {
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
fn tell(read: &[Compiled], colour: Colour) -> Result<Status, Unusable> {
    for file in read {
        cooks::tell_findings(file, colour)?;
    }
    let failed = read.iter().flat_map(|file| &file.findings).any(|found| found.severity == Severity::Error);
    Ok(if failed { Status::Findings } else { Status::Fine })
}

fn not_understood(file: &Compiled) -> Outcome {
    let path = clean::line(&file.path);
    out::tell(&format!("{path}: nothing is written until every line can be understood.\n"))?;
    Ok(Status::Findings)
}
