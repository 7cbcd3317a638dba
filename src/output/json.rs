//! `dwell check --format json`: the format "dwell.check/1".

use schemars::JsonSchema;
use serde::Serialize;

use crate::compile::Compiled;
use crate::findings::{Cure, Finding, Severity};
use crate::safety::Judged;

/// The report over all files of a run; a file is done with once it is added.
#[derive(Serialize)]
pub struct Report {
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
    /// A change of the file that was tried: with it this finding is gone, and no new error or warning comes up. Only
    /// `dwell check` looks for one.
    #[serde(skip_serializing_if = "Option::is_none")]
    cure: Option<CureRow>,
}

/// All edits together are the cure. They are in the order of the file, and places are those of the file as it is.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Cure")]
struct CureRow {
    /// What to do, as a sentence.
    text: String,
    edits: Vec<EditRow>,
}

/// What stands from the place to the end is replaced by the text; where both are the same, the text is put in there.
/// Lines and columns count from 1, columns in characters.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Edit")]
struct EditRow {
    path: String,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    text: String,
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

impl Default for Report {
    fn default() -> Self {
        Self { format: "dwell.check/1", files: Vec::new(), findings: Vec::new(), judged: Vec::new() }
    }
}

impl Report {
    pub fn add(&mut self, checked: &Compiled) {
        self.files.push(file(checked));
        self.findings.extend(checked.findings.iter().map(|finding| row(checked, finding)));
        self.judged.extend(verdicts(checked));
    }

    pub fn text(&self) -> String {
        super::escape::json(self)
    }
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
        cure: finding.cure.as_ref().map(|cure| cure_row(file, cure)),
    }
}

fn cure_row(file: &Compiled, cure: &Cure) -> CureRow {
    let edits = cure.edits.iter().map(|edit| {
        let source = file.sources.get(edit.span.file);
        let (line, column) = source.line_column(edit.span.start as usize);
        let (end_line, end_column) = source.line_column(edit.span.end as usize);
        EditRow { path: source.path.clone(), line, column, end_line, end_column, text: edit.text.clone() }
    });
    CureRow { text: cure.text.render(file.scale), edits: edits.collect() }
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
