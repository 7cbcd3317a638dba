//! `dwell check`.

use std::collections::BTreeSet;

use super::args::{Check, CheckFormat, Colour, Deny};
use super::{Outcome, Status, cooks, files, out};
use crate::compile::Compiled;
use crate::findings::Severity;
use crate::output::{human, json, sarif};

pub fn run(check: &Check, colour: Colour) -> Outcome {
    let mut compiled: Vec<Compiled> = Vec::new();
    let mut said = BTreeSet::new();
    for named in files::named(&check.paths)? {
        let mut file = cooks::compile(&named, &check.compiling, None)?;
        file.say_once(&mut said);
        compiled.push(file);
    }
    let target = check.output.output.as_deref();
    match check.format {
        CheckFormat::Json => out::deliver(&json::report(&compiled), target)?,
        CheckFormat::Sarif => out::deliver(&sarif::log(&compiled), target)?,
        CheckFormat::Human => {
            for file in &compiled {
                cooks::tell_findings(file, colour)?;
            }
            out::deliver(&human::summary(&compiled), target)?;
        }
    }
    let fails = |severity| match severity {
        Severity::Error => true,
        Severity::Warning | Severity::Note => check.deny == Some(Deny::Warnings),
    };
    let failed = compiled.iter().flat_map(|file| &file.findings).any(|finding| fails(finding.severity));
    Ok(if failed { Status::Findings } else { Status::Fine })
}
