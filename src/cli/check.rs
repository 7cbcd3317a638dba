//! `dwell check`.

use std::collections::BTreeSet;

use super::args::{Check, CheckFormat, Colour, Deny};
use super::{Outcome, Status, Unusable, cooks, files, out, together};
use crate::compile::Compiled;
use crate::findings::Severity;
use crate::output::{clean, human, json, sarif};

pub fn run(check: &Check, colour: Colour) -> Outcome {
    cooks::known_rules(&check.compiling)?;
    let (compiled, mut unusable) = read(check)?;
    // One file that cannot be had does not hide what is wrong with the others.
    let last = unusable.pop();
    for Unusable(why) in &unusable {
        out::tell(&format!("dwell: {}\n", clean::line(why)))?;
    }
    if !compiled.is_empty() {
        report(&compiled, check, colour)?;
    }
    last.map_or_else(|| Ok(status(&compiled, check.deny)), Err)
}

/// Every file that was named, and why some could not be had.
fn read(check: &Check) -> Result<(Vec<Compiled>, Vec<Unusable>), Unusable> {
    let (mut compiled, mut unusable) = (Vec::new(), Vec::new());
    let mut said = BTreeSet::new();
    together::compile(&files::named(&check.paths)?, &check.compiling, |read| match read {
        Ok(mut file) => {
            file.say_once(&mut said);
            file.keep_what_was_said();
            compiled.push(file);
        }
        Err(why) => unusable.push(why),
    });
    Ok((compiled, unusable))
}

fn report(compiled: &[Compiled], check: &Check, colour: Colour) -> std::io::Result<()> {
    let target = check.output.output.as_deref();
    match check.format {
        CheckFormat::Json => out::deliver(&json::report(compiled), target),
        CheckFormat::Sarif => out::deliver(&sarif::log(compiled), target),
        CheckFormat::Human => {
            for file in compiled {
                cooks::tell_findings(file, colour)?;
            }
            out::deliver(&human::summary(compiled), target)
        }
    }
}

/// Only errors fail; where warnings are denied, any finding does.
fn status(compiled: &[Compiled], deny: Option<Deny>) -> Status {
    let mut findings = compiled.iter().flat_map(|file| &file.findings);
    let failed = findings.any(|finding| finding.severity == Severity::Error || deny == Some(Deny::Warnings));
    if failed { Status::Findings } else { Status::Fine }
}
