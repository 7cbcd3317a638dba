//! `dwell check --format json`: the format "dwell.check/1".

use schemars::JsonSchema;
use serde::Serialize;

use crate::compile::Compiled;
use crate::findings::{Finding, Severity};
use crate::safety::Judged;

#[derive(Serialize)]
struct Report {
    format: &'static str,
    files: Vec<File>,
    findings: Vec<Row>,
    judged: Vec<Verdict>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct File {
    path: String,
    errors: usize,
    warnings: usize,
    notes: usize,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Row {
    code: &'static str,
    severity: &'static str,
    stage: &'static str,
    path: String,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    message: String,
    remedy: String,
    phase: Option<String>,
    food: Option<String>,
    rule: Option<Rule>,
}

#[derive(Serialize, JsonSchema)]
struct Rule {
    id: String,
    set: String,
    source: String,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Verdict {
    path: String,
    rule: String,
    set: String,
    verdict: &'static str,
    phase: Option<String>,
    food: Option<String>,
    why: String,
}

/// The report over all files of a run.
pub fn report(files: &[Compiled]) -> String {
    super::escape::json(&Report {
        format: "dwell.check/1",
        files: files.iter().map(file).collect(),
        findings: files
            .iter()
            .flat_map(|file| file.findings.iter().map(|finding| row(file, finding)))
            .collect(),
        judged: files.iter().flat_map(verdicts).collect(),
    })
}

pub(super) fn file(file: &Compiled) -> File {
    let count = |severity| file.findings.iter().filter(|finding| finding.severity == severity).count();
    File {
        path: file.path.clone(),
        errors: count(Severity::Error),
        warnings: count(Severity::Warning),
        notes: count(Severity::Note),
    }
}

pub(super) fn row(file: &Compiled, finding: &Finding) -> Row {
    let source = file.sources.get(finding.span.file);
    let (line, column) = source.line_column(finding.span.start as usize);
    let (end_line, end_column) = source.line_column(finding.span.end as usize);
    Row {
        code: finding.code.name(),
        severity: finding.severity.name(),
        stage: finding.code.stage().name(),
        path: source.path.clone(),
        line,
        column,
        end_line,
        end_column,
        message: finding.message.render(file.scale),
        remedy: finding.remedy.render(file.scale),
        phase: finding.phase.clone(),
        food: finding.food.clone(),
        rule: finding.rule.as_ref().map(|rule| Rule {
            id: rule.id.clone(),
            set: rule.set.clone(),
            source: rule.source.clone(),
        }),
    }
}

fn verdicts(file: &Compiled) -> Vec<Verdict> {
    let judged = file.cooks().into_iter().flat_map(|worked| worked.judged);
    judged.map(|judged| verdict(file, judged)).collect()
}

pub(super) fn verdict(file: &Compiled, judged: &Judged) -> Verdict {
    Verdict {
        path: file.path.clone(),
        rule: judged.rule.clone(),
        set: judged.set.clone(),
        verdict: judged.verdict.name(),
        phase: judged.phase.clone(),
        food: judged.food.clone(),
        why: judged.why.render(file.scale),
    }
}
