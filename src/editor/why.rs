//! Why there is a finding: its long text, for editors that have no page to open it on.

use super::View;
use super::hover::Hover;
use crate::findings::{Code, Finding};
use crate::text::Span;

/// More would not be read in one go.
const MOST: usize = 3;

/// The long texts of what was found at a place, the gravest first, each once; `None` where nothing was.
pub fn why(view: &View<'_>, offset: usize) -> Option<Hover> {
    let under =
        |span: Span| span.file == view.file && (span.start as usize..=span.end as usize).contains(&offset);
    let mut here: Vec<&Finding> =
        view.compiled.findings.iter().filter(|finding| under(finding.span)).collect();
    here.sort_by_key(|finding| finding.severity);
    let span = here.first()?.span;
    let mut codes: Vec<Code> = Vec::new();
    for finding in here {
        if !codes.contains(&finding.code) {
            codes.push(finding.code);
        }
    }
    Some(Hover { span, said: codes.into_iter().take(MOST).flat_map(told).collect() })
}

fn told(code: Code) -> Vec<String> {
    let explained = code.explained();
    vec![
        format!("{}: {}.", code.name(), explained.title),
        explained.checks.to_owned(),
        explained.why.to_owned(),
        format!("How to mend it: {}", explained.mend),
        format!("Source: {}", explained.source),
    ]
}
