//! `dwell check`.

use std::collections::BTreeSet;
use std::path::Path;

use super::args::{Check, CheckFormat, Colour, Deny};
use super::{Outcome, Status, Unusable, cooks, files, out, together};
use crate::compile::Compiled;
use crate::findings::Severity;
use crate::output::{clean, human, json, sarif};

pub fn run(check: &Check, colour: Colour) -> Outcome {
    cooks::known_rules(&check.compiling)?;
    let (mut report, mut unusable, mut status) = (Report::of(check.format), Vec::new(), None);
    let mut said = BTreeSet::new();
    together::compile(&files::named(&check.paths)?, &check.compiling, |read| match read {
        Ok(mut file) => {
            file.say_once(&mut said);
            report.add(&file, colour);
            let failed = status == Some(Status::Findings) || fails(&file, check.deny);
            status = Some(if failed { Status::Findings } else { Status::Fine });
        }
        Err(why) => unusable.push(why),
    });
    // One file that cannot be had does not hide what is wrong with the others.
    let last = unusable.pop();
    for Unusable(why) in &unusable {
        out::tell(&format!("dwell: {}\n", clean::line(why)))?;
    }
    if status.is_some() {
        report.deliver(check.output.output.as_deref())?;
    }
    last.map_or(Ok(status.unwrap_or(Status::Fine)), Err)
}

/// What is told at the end. A file is done with once it is added: a folder may hold thousands.
enum Report {
    Human { findings: String, summary: String },
    Json(json::Report),
    Sarif(sarif::Report),
}

impl Report {
    fn of(format: CheckFormat) -> Self {
        match format {
            CheckFormat::Human => Self::Human { findings: String::new(), summary: String::new() },
            CheckFormat::Json => Self::Json(json::Report::default()),
            CheckFormat::Sarif => Self::Sarif(sarif::Report::default()),
        }
    }

    fn add(&mut self, file: &Compiled, colour: Colour) {
        match self {
            Self::Human { findings, summary } => {
                findings.push_str(&cooks::findings(file, colour));
                summary.push_str(&human::summary(file));
            }
            Self::Json(report) => report.add(file),
            Self::Sarif(report) => report.add(file),
        }
    }

    fn deliver(self, target: Option<&Path>) -> std::io::Result<()> {
        match self {
            Self::Human { findings, summary } => {
                out::tell(&findings)?;
                out::deliver(&summary, target)
            }
            Self::Json(report) => out::deliver(&report.text(), target),
            Self::Sarif(report) => out::deliver(&report.text(), target),
        }
    }
}

/// Only errors fail; where warnings are denied, any finding does.
fn fails(file: &Compiled, deny: Option<Deny>) -> bool {
    file.findings.iter().any(|finding| finding.severity == Severity::Error || deny == Some(Deny::Warnings))
}
