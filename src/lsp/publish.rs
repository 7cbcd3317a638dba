//! Findings as a client shows them, each under the file that it lies in.

use std::collections::BTreeMap;

use lsp_types::{
    Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, Location, NumberOrString, Uri,
};
use serde_json::json;
use url::Url;

use super::positions::Encoding;
use crate::compile::Compiled;
use crate::findings::{Finding, Severity, Text};
use crate::output::clean;
use crate::text::Span;

/// Findings by the URI of their file.
pub type ByFile = BTreeMap<String, Vec<Diagnostic>>;

/// So many are shown of a file. What has more is no cook with slips in it, and would take longer to show than to type.
const MOST: usize = 500;

/// What a client calls a file that the compiler read.
pub type Name<'n> = &'n dyn Fn(&str) -> Uri;

/// All that was found, under every file that was read: none where there is nothing to find.
pub fn diagnostics(compiled: &Compiled, encoding: Encoding, name: Name<'_>) -> ByFile {
    let shown = Shown { compiled, encoding, name };
    let uris: Vec<String> =
        compiled.sources.all().iter().map(|source| name(&source.path).as_str().to_owned()).collect();
    let mut all: ByFile = uris.iter().map(|uri| (uri.clone(), Vec::new())).collect();
    let mut more: BTreeMap<String, usize> = BTreeMap::new();
    for finding in &compiled.findings {
        let uri = &uris[usize::from(finding.span.file.0)];
        let Some(diagnostics) = all.get_mut(uri) else { continue };
        if diagnostics.len() == MOST {
            *more.entry(uri.clone()).or_default() += 1;
            continue;
        }
        let diagnostic = shown.diagnostic(finding);
        // A file that is read twice says everything twice.
        if !diagnostics.contains(&diagnostic) {
            diagnostics.push(diagnostic);
        }
    }
    for (uri, count) in more {
        all.entry(uri).or_default().push(left_out(count));
    }
    all
}

/// Says at the top of a file that there is more to find in it.
fn left_out(count: usize) -> Diagnostic {
    Diagnostic {
        severity: Some(DiagnosticSeverity::ERROR),
        source: Some("dwell".to_owned()),
        message: format!("{count} more findings are not shown. Mend some of those below first."),
        ..Diagnostic::default()
    }
}

/// What to call a file that the client has not named itself.
pub fn uri_of(path: &str) -> Uri {
    let file = Url::from_file_path(path).ok().and_then(|url| url.as_str().parse().ok());
    // What is no place on this machine is a URI already.
    let other = || path.parse().ok();
    let nameless = || "untitled:".parse().ok();
    file.or_else(other).or_else(nameless).expect("a scheme alone is a URI")
}

struct Shown<'c> {
    compiled: &'c Compiled,
    encoding: Encoding,
    name: Name<'c>,
}

impl Shown<'_> {
    fn diagnostic(&self, finding: &Finding) -> Diagnostic {
        let related = finding.also.iter().map(|(span, text)| DiagnosticRelatedInformation {
            location: self.location(*span),
            message: self.words(text),
        });
        let related: Vec<_> = related.collect();
        Diagnostic {
            range: self.location(finding.span).range,
            severity: Some(match finding.severity {
                Severity::Error => DiagnosticSeverity::ERROR,
                Severity::Warning => DiagnosticSeverity::WARNING,
                Severity::Note => DiagnosticSeverity::INFORMATION,
            }),
            code: Some(NumberOrString::String(finding.code.name().to_owned())),
            source: Some("dwell".to_owned()),
            message: format!("{}\n{}", self.words(&finding.message), self.words(&finding.remedy)),
            related_information: (!related.is_empty()).then_some(related),
            // What `dwell/explain` takes.
            data: Some(json!({ "code": finding.code.name() })),
            ..Diagnostic::default()
        }
    }

    fn words(&self, text: &Text) -> String {
        clean::page(&text.render(self.compiled.scale)).into_owned()
    }

    fn location(&self, span: Span) -> Location {
        let source = self.compiled.sources.get(span.file);
        Location::new((self.name)(&source.path), self.encoding.range(source, span.range()))
    }
}
