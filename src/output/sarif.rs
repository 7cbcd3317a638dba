//! Findings as SARIF 2.1.0 (OASIS, 2020), for tools that collect them.

use std::collections::BTreeSet;

use serde::Serialize;

use super::explain;
use crate::compile::Compiled;
use crate::findings::{Code, Cure, Finding, Severity};
use crate::quantity::Scale;
use crate::text::{Sources, Span};

#[derive(Serialize)]
struct Log {
    #[serde(rename = "$schema")]
    schema: &'static str,
    version: &'static str,
    runs: [Run; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Run {
    tool: Tool,
    column_kind: &'static str,
    results: Vec<Outcome>,
}

#[derive(Serialize)]
struct Tool {
    driver: Driver,
}

#[derive(Serialize)]
struct Driver {
    name: &'static str,
    version: &'static str,
    rules: Vec<Descriptor>,
}

/// What SARIF calls a rule: one of our codes.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Descriptor {
    id: &'static str,
    short_description: Message,
    full_description: Message,
    help: Message,
    default_configuration: Configuration,
}

#[derive(Serialize)]
struct Configuration {
    level: &'static str,
}

#[derive(Serialize)]
struct Message {
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    markdown: Option<String>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Outcome {
    rule_id: &'static str,
    rule_index: usize,
    level: &'static str,
    message: Message,
    locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    fixes: Vec<Fix>,
}

/// A change that was tried.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Fix {
    description: Message,
    artifact_changes: Vec<ArtifactChange>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ArtifactChange {
    artifact_location: Artifact,
    replacements: [Replacement; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Replacement {
    deleted_region: Region,
    inserted_content: Message,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Location {
    physical_location: Place,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Message>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Place {
    artifact_location: Artifact,
    region: Region,
}

#[derive(Serialize)]
struct Artifact {
    uri: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

/// One run over all files, with the codes that occur in it; a file is done with once it is added.
#[derive(Default)]
pub struct Report {
    results: Vec<(Code, Outcome)>,
}

impl Report {
    pub fn add(&mut self, checked: &Compiled) {
        self.results.extend(checked.findings.iter().map(|finding| (finding.code, outcome(checked, finding))));
    }

    pub fn text(self) -> String {
        let codes: BTreeSet<Code> = self.results.iter().map(|(code, _)| *code).collect();
        let codes: Vec<Code> = codes.into_iter().collect();
        let results = self.results.into_iter().map(|(code, outcome)| Outcome {
            rule_index: codes.binary_search(&code).unwrap_or_default(),
            ..outcome
        });
        super::escape::json(&Log {
            schema: "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
            version: "2.1.0",
            runs: [Run {
                column_kind: "unicodeCodePoints",
                results: results.collect(),
                tool: Tool {
                    driver: Driver {
                        name: "dwell",
                        version: env!("CARGO_PKG_VERSION"),
                        rules: codes.iter().copied().map(descriptor).collect(),
                    },
                },
            }],
        })
    }
}

fn descriptor(code: Code) -> Descriptor {
    let explained = code.explained();
    Descriptor {
        id: code.name(),
        short_description: words(explained.title),
        full_description: words(explained.checks),
        help: Message { text: explain::page(code), markdown: Some(code.text().to_owned()) },
        default_configuration: Configuration { level: level(code.severity()) },
    }
}

fn outcome(file: &Compiled, finding: &Finding) -> Outcome {
    let (message, remedy) = (finding.message.render(file.scale), finding.remedy.render(file.scale));
    Outcome {
        rule_id: finding.code.name(),
        // Known when all of them are.
        rule_index: 0,
        level: level(finding.severity),
        message: words(format!("{message} {remedy}").trim()),
        locations: vec![location(&file.sources, finding.span, None)],
        related_locations: finding
            .also
            .iter()
            .map(|(span, text)| location(&file.sources, *span, Some(said(text, file.scale))))
            .collect(),
        fixes: finding.cure.iter().map(|cure| fix(file, cure)).collect(),
    }
}

fn fix(file: &Compiled, cure: &Cure) -> Fix {
    let changes = cure.edits.iter().map(|edit| {
        let Place { artifact_location, region } = place(&file.sources, edit.span);
        let replacements = [Replacement { deleted_region: region, inserted_content: words(&edit.text) }];
        ArtifactChange { artifact_location, replacements }
    });
    Fix { description: said(&cure.text, file.scale), artifact_changes: changes.collect() }
}

fn said(text: &crate::findings::Text, scale: Scale) -> Message {
    words(&text.render(scale))
}

fn words(text: &str) -> Message {
    Message { text: text.to_owned(), markdown: None }
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Note => "note",
    }
}

fn location(sources: &Sources, span: Span, message: Option<Message>) -> Location {
    Location { physical_location: place(sources, span), message }
}

fn place(sources: &Sources, span: Span) -> Place {
    let source = sources.get(span.file);
    let (start_line, start_column) = source.line_column(span.start as usize);
    let (end_line, end_column) = source.line_column(span.end as usize);
    Place {
        artifact_location: Artifact { uri: uri(&source.path) },
        region: Region { start_line, start_column, end_line, end_column },
    }
}

/// A path as a URI reference (RFC 3986): what may not stand in a path is percent-encoded, and an
/// absolute path becomes a `file` URI.
fn uri(path: &str) -> String {
    let mut uri = String::from(if path.starts_with('/') { "file://" } else { "" });
    for byte in path.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                uri.push(char::from(byte));
            }
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
    }
    uri
}

#[cfg(test)]
mod tests {
    #[test]
    fn paths_become_uri_references() {
        assert_eq!(super::uri("my cooks/é.dwell"), "my%20cooks/%C3%A9.dwell");
        assert_eq!(super::uri("/srv/a#b"), "file:///srv/a%23b");
    }
}
