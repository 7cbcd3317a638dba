//! Findings for people.
//!
//! Two layouts say the same: one drawn by miette for a colour terminal, and a plain one, a fact a
//! line and nothing drawn, that reads well aloud, in a log and without colour. What is wrong with the
//! cook comes first there, and the place in the file last.

use std::fmt;

use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, SourceCode};

use super::clean;
use crate::compile::Compiled;
use crate::findings::{Finding, Severity};
use crate::quantity::Scale;
use crate::text::{Source, Sources, Span};

/// How findings are laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// Drawn and coloured.
    Graphical,
    Plain,
}

/// The width that the graphical layout is drawn for.
const WIDTH: usize = 90;
/// The most characters of a source line that are shown.
const LONGEST_EXCERPT: usize = 160;

/// All findings, in the order given, each followed by an empty line.
pub fn findings(sources: &Sources, findings: &[Finding], scale: Scale, layout: Layout) -> String {
    let mut out = String::new();
    for finding in findings {
        let reports = reports(sources, finding, scale);
        let done = match layout {
            Layout::Graphical => reports.iter().try_for_each(|report| draw(&mut out, report)),
            Layout::Plain => plain(&mut out, &reports),
        };
        // Writing to a String cannot fail; miette could only fail on a span that is not ours.
        debug_assert!(done.is_ok());
        out.push('\n');
    }
    out
}

/// One line for a file, and which rules were judged in it.
pub fn summary(file: &Compiled) -> String {
    let verdicts = if file.understood() { super::verdicts::table(file) } else { String::new() };
    counts(file) + &verdicts
}

/// How many findings there are in a file, as one line.
pub fn counts(file: &Compiled) -> String {
    format!("{}: {}\n", clean::line(&file.path), tally(file))
}

/// The same without its name.
pub fn tally(file: &Compiled) -> String {
    let count = |severity| file.findings.iter().filter(|finding| finding.severity == severity).count();
    format!(
        "{}, {}, {}",
        counted(count(Severity::Error), "error"),
        counted(count(Severity::Warning), "warning"),
        counted(count(Severity::Note), "note"),
    )
}

fn counted(number: usize, word: &str) -> String {
    match number {
        0 => format!("no {word}s"),
        1 => format!("1 {word}"),
        _ => format!("{number} {word}s"),
    }
}

/// A place and what is said about it, cleaned and rendered: the finding itself, then one for each
/// other place that matters. Far places stand apart so that nothing between them is drawn.
#[derive(Debug)]
struct Report {
    word: &'static str,
    severity: Option<Severity>,
    code: Option<&'static str>,
    title: String,
    help: Vec<(&'static str, String)>,
    excerpt: Excerpt,
}

fn reports(sources: &Sources, finding: &Finding, scale: Scale) -> Vec<Report> {
    let code = finding.code.name();
    let said = |text: &crate::findings::Text| clean::line(&text.render(scale)).into_owned();
    let mut help = vec![("help", said(&finding.remedy))];
    if let Some(rule) = &finding.rule {
        help.push(("source", clean::line(&rule.source).into_owned()));
    }
    help.push(("more", format!("dwell explain {code}")));
    help.retain(|(_, text)| !text.is_empty());
    let first = Report {
        word: finding.severity.name(),
        severity: Some(finding.severity),
        code: Some(code),
        title: said(&finding.message),
        help,
        excerpt: Excerpt::new(sources.get(finding.span.file), finding.span),
    };
    let others = finding.also.iter().map(|(span, text)| Report {
        word: "see also",
        severity: None,
        code: None,
        title: said(text),
        help: Vec::new(),
        excerpt: Excerpt::new(sources.get(span.file), *span),
    });
    std::iter::once(first).chain(others).collect()
}

fn plain(out: &mut String, reports: &[Report]) -> fmt::Result {
    use fmt::Write;
    for report in reports {
        let Excerpt { path, line, column, text, .. } = &report.excerpt;
        match report.code {
            Some(code) => writeln!(out, "{}: {} [{code}]", report.word, report.title)?,
            None => writeln!(out, "  {}: {}", report.word, report.title)?,
        }
        if !text.trim().is_empty() {
            writeln!(out, "  line {line}: {}", text.trim())?;
            let marked = report.excerpt.marked().trim();
            if !marked.is_empty() && marked != text.trim() {
                writeln!(out, "  marked: {marked}")?;
            }
        }
        for (word, text) in &report.help {
            writeln!(out, "  {word}: {text}")?;
        }
        writeln!(out, "  place: {path}:{line}:{column}")?;
    }
    Ok(())
}

fn draw(out: &mut String, report: &Report) -> fmt::Result {
    let mut theme = GraphicalTheme::unicode();
    let characters = &mut theme.characters;
    for sign in [&mut characters.error, &mut characters.warning, &mut characters.advice] {
        *sign = format!("{}:", report.word);
    }
    GraphicalReportHandler::new_themed(theme)
        .with_width(WIDTH)
        .with_context_lines(0)
        .with_links(false)
        .without_syntax_highlighting()
        .render_report(out, report)
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.title)
    }
}

impl std::error::Error for Report {}

impl miette::Diagnostic for Report {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.code.map(|code| Box::new(code) as Box<dyn fmt::Display>)
    }

    fn severity(&self) -> Option<miette::Severity> {
        Some(match self.severity {
            Some(Severity::Error) => miette::Severity::Error,
            Some(Severity::Warning) => miette::Severity::Warning,
            Some(Severity::Note) | None => miette::Severity::Advice,
        })
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        let lines = self.help.iter().map(|(word, text)| match *word {
            "help" => text.clone(),
            word => format!("{word}: {text}"),
        });
        let text = lines.collect::<Vec<_>>().join("\n");
        if text.is_empty() { None } else { Some(Box::new(text)) }
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.excerpt)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let Excerpt { start, end, .. } = self.excerpt;
        Some(Box::new(std::iter::once(LabeledSpan::new_primary_with_span(None, (start, end - start)))))
    }
}

/// The line that a span begins in, cleaned, with the span's place in the cleaned text. miette gets
/// only this: it neither walks the whole file nor sees a raw character of it.
#[derive(Debug)]
struct Excerpt {
    path: String,
    /// Both from 1, in the file as it is.
    line: usize,
    column: usize,
    text: String,
    /// Byte offsets of the marked part in `text`.
    start: usize,
    end: usize,
}

impl Excerpt {
    fn new(source: &Source, span: Span) -> Self {
        let (line, column) = source.line_column(span.start as usize);
        let range = source.line_range(line);
        let raw = source.text.get(range.clone()).unwrap_or("").trim_end_matches(['\r', '\n']);
        let from = (span.start as usize).saturating_sub(range.start).min(raw.len());
        let to = (span.end as usize).saturating_sub(range.start).clamp(from, raw.len());
        let (before, marked, after) =
            (raw.get(..from).unwrap_or(""), raw.get(from..to).unwrap_or(""), raw.get(to..).unwrap_or(""));

        // A very long line is cut on both sides of the marked part, which always shows.
        let mut text = shown_end(before, LONGEST_EXCERPT / 2);
        let start = text.len();
        text.push_str(&shown_start(marked, LONGEST_EXCERPT));
        let end = text.len();
        text.push_str(&shown_start(after, LONGEST_EXCERPT / 2));
        Self { path: clean::line(&source.path).into_owned(), line, column, text, start, end }
    }

    fn marked(&self) -> &str {
        self.text.get(self.start..self.end).unwrap_or("")
    }
}

/// The first `most` characters, cleaned, with dots for the rest.
fn shown_start(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        Some((at, _)) => format!("{}...", clean::line(&text[..at])),
        None => clean::line(text).into_owned(),
    }
}

/// The last `most` characters, cleaned, with dots for the rest.
fn shown_end(text: &str, most: usize) -> String {
    match text.char_indices().rev().nth(most) {
        Some((at, c)) => format!("...{}", clean::line(&text[at + c.len_utf8()..])),
        None => clean::line(text).into_owned(),
    }
}

impl SourceCode for Excerpt {
    fn read_span<'a>(
        &'a self,
        _span: &miette::SourceSpan,
        _before: usize,
        _after: usize,
    ) -> Result<Box<dyn miette::SpanContents<'a> + 'a>, miette::MietteError> {
        Ok(Box::new(miette::MietteSpanContents::new_named(
            self.path.clone(),
            self.text.as_bytes(),
            (0, self.text.len()).into(),
            self.line - 1,
            self.column - 1,
            1,
        )))
    }
}
