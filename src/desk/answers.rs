//! What the page is told of a text, as JSON that only the page reads.

use serde::Serialize;

use crate::compile::Compiled;
use crate::findings::{Code, Edit, Finding};
use crate::output::curves::{self, Charts};
use crate::output::sheet::{self, Part, Wanted};
use crate::output::{escape, explain, human, timelines};
use crate::syntax;
use crate::text::{FileId, Source, Span};

/// Findings of a text.
#[derive(Debug, Serialize)]
pub struct Findings {
    /// How many of which severity, in words.
    pub summary: String,
    pub findings: Vec<Row>,
}

/// One finding.
#[derive(Debug, Serialize)]
pub struct Row {
    pub code: &'static str,
    pub severity: &'static str,
    /// The file it is in, where that is another one than the text.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub elsewhere: Option<String>,
    pub start: Place,
    pub end: Place,
    pub message: String,
    pub remedy: String,
    /// A change that was tried and cures it, where it is in this text.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cure: Option<Cure>,
}

#[derive(Debug, Serialize)]
pub struct Cure {
    pub text: String,
    /// In the order of the text; none overlaps another.
    pub edits: Vec<Replaced>,
}

#[derive(Debug, Serialize)]
pub struct Replaced {
    pub start: Place,
    pub end: Place,
    pub text: String,
}

/// What a text comes to: everything on the other side of the page.
#[derive(Debug, Serialize)]
pub struct Views {
    #[serde(flatten)]
    pub found: Findings,
    /// Why there is nothing to see, where there is nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nothing: Option<&'static str>,
    /// The plan as a picture.
    pub plan: Option<String>,
    /// The same in words.
    pub plan_in_words: Option<String>,
    /// The predicted temperatures as a picture.
    pub curve: Option<String>,
    /// By which name the sheet is asked for.
    pub sheet: Option<String>,
}

/// A place as a browser counts: the line from 0, and UTF-16 units from its start.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Place {
    pub line: usize,
    pub unit: usize,
}

impl Place {
    fn of(source: &Source, byte: u32) -> Self {
        let (line, _) = source.line_column(byte as usize);
        let start = source.line_range(line).start;
        let before = source.text.get(start..byte as usize).unwrap_or_default();
        Self { line: line - 1, unit: before.encode_utf16().count() }
    }
}

/// What was found in a text, as one reads it.
pub fn findings(compiled: &Compiled) -> Findings {
    let rows = compiled.findings.iter().map(|finding| row(compiled, finding)).collect();
    Findings { summary: human::tally(compiled), findings: rows }
}

fn row(compiled: &Compiled, finding: &Finding) -> Row {
    let Finding { code, severity, span, .. } = finding;
    let source = compiled.sources.get(span.file);
    let main = compiled.sources.get(FileId(0));
    let is_here = |span: Span| span.file == FileId(0);
    let replaced = |edit: &Edit| Replaced {
        start: Place::of(main, edit.span.start),
        end: Place::of(main, edit.span.end),
        text: edit.text.clone(),
    };
    let cure = finding.cure.as_ref().filter(|cure| cure.edits.iter().all(|edit| is_here(edit.span)));
    Row {
        code: code.name(),
        severity: severity.name(),
        elsewhere: (!is_here(*span)).then(|| source.path.clone()),
        start: Place::of(source, span.start),
        end: Place::of(source, span.end),
        message: finding.message.render(compiled.scale),
        remedy: finding.remedy.render(compiled.scale),
        cure: cure.map(|cure| Cure {
            text: cure.text.render(compiled.scale),
            edits: cure.edits.iter().map(replaced).collect(),
        }),
    }
}

/// Everything that a text comes to, and the page of its sheet. `name` gives the sheet its own.
pub fn views(compiled: &Compiled, name: impl FnOnce(&str) -> String) -> (Views, Option<String>) {
    let found = findings(compiled);
    let none = Views { found, nothing: None, plan: None, plan_in_words: None, curve: None, sheet: None };
    if !compiled.understood() {
        let lost = "The plan, the temperatures and the sheet come as soon as every line is understood.";
        return (Views { nothing: Some(lost), ..none }, None);
    }
    if compiled.cooks().is_empty() {
        return (
            Views { nothing: Some("There is no cook in this file, so there is no plan."), ..none },
            None,
        );
    }
    let sheet = sheet::html(compiled, &Wanted { part: Part::Full, options: Vec::new() });
    let views = Views {
        plan: Some(timelines::svg(compiled, &[])),
        plan_in_words: Some(timelines::text(compiled)),
        curve: Charts::of(compiled, curves::Wanted::default()).map(|charts| charts.svg()),
        sheet: sheet.as_deref().map(name),
        ..none
    };
    (views, sheet)
}

/// A text as everybody lays it out.
pub fn laid_out(text: &str) -> String {
    let (tree, _) = syntax::parse(FileId(0), text);
    syntax::format(&tree, text)
}

/// The JSON of an answer.
pub fn json(answer: &impl Serialize) -> String {
    escape::json(answer)
}

/// The long text of a finding, if there is one of this code.
pub fn explanation(code: &str) -> Option<String> {
    Code::find(code).map(explain::page)
}
