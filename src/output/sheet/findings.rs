//! What `dwell check` found, in its words.

use maud::{Markup, html};

use super::Scope;
use super::marks::said;
use crate::compile::{Compiled, CompiledCook, silences};
use crate::findings::{Finding, Severity, Stage};

/// Everything, with what to do about it, and what the writer took upon himself.
pub fn list(file: &Compiled, cooks: &[CompiledCook<'_>]) -> Markup {
    let allows: Vec<_> = cooks.iter().flat_map(|worked| &worked.cook.allows).collect();
    html! {
        section {
            h2 { "What the check found" }
            @if file.findings.is_empty() { p { "Nothing. That is no verdict on the food." } }
            @else { ul.findings { @for finding in &file.findings { li { (one(file, finding)) } } } }
            @if !allows.is_empty() {
                h3 { "Allowed by the writer" }
                ul {
                    @for allow in allows { li { code { (allow.code.value.name()) } ": because “" bdi { (allow.because) } "”" } }
                }
            }
        }
    }
}

fn one(file: &Compiled, finding: &Finding) -> Markup {
    let source = file.sources.get(finding.span.file);
    let (line, _) = source.line_column(finding.span.start as usize);
    html! {
        strong { (finding.severity.name()) } ": "
        (said(&finding.message.render(file.scale)))
        @if !finding.remedy.is_empty() { br; "What to do: " (said(&finding.remedy.render(file.scale))) }
        @if let Some(rule) = &finding.rule { br; span.small { "Source: " (said(&rule.source)) } }
        br; span.small { (finding.code.name()) ", " bdi { (source.name) } ", line " (line) }
    }
}

/// The errors in short, for the head of page one.
pub fn of_errors(file: &Compiled) -> Markup {
    let errors = file.findings.iter().filter(|finding| finding.severity == Severity::Error);
    html! { ul { @for error in errors { li { (said(&error.message.render(file.scale))) } } } }
}

/// What the writer allows and stands on page one all the same: errors of food safety, and smoke in a room with people.
pub fn allowed(file: &Compiled, cooks: &[CompiledCook<'_>]) -> Markup {
    let allows = |finding: &&Finding| {
        cooks.iter().flat_map(|worked| &worked.cook.allows).any(|allow| silences(allow, finding))
    };
    let allowed: Vec<&Finding> = file.findings.iter().filter(allows).collect();
    html! {
        @if !allowed.is_empty() {
            ul.caution { @for finding in allowed { li { (said(&finding.message.render(file.scale))) } } }
        }
    }
}

/// The most warnings on page one.
const MOST_WARNINGS: usize = 6;

/// The warnings in short, for page one: on a wall there is nothing to ask. What the writer allows stands above them.
pub fn warnings(file: &Compiled, own: &[CompiledCook<'_>], scope: &Scope<'_>) -> Markup {
    let cooks = file.cooks();
    let allowed = |finding: &Finding| {
        cooks.iter().flat_map(|worked| &worked.cook.allows).any(|allow| silences(allow, finding))
    };
    let all = file.findings.iter().filter(|finding| finding.severity == Severity::Warning);
    let mut all: Vec<&Finding> =
        all.filter(|finding| !allowed(finding) && concerns(file, finding, own, scope)).collect();
    all.sort_by_key(|finding| finding.code.stage() != Stage::Safety);
    let more = all.len().saturating_sub(MOST_WARNINGS);
    html! {
        @if !all.is_empty() {
            ul.warned {
                @for finding in all.iter().take(MOST_WARNINGS) {
                    li {
                        @if let Some(phase) = &finding.phase { (said(phase)) ": " }
                        (said(&finding.message.render(file.scale)))
                    }
                }
                @if more > 0 { li { "And " (more) " more: ask " code { "dwell check" } "." } }
                @if scope.is_followed() { li { "What to do about it: see “What the check found”." } }
            }
        }
    }
}

/// What would put the plan right, where it is at fault; `own` are the cooks of the page.
pub fn remedies_of_time(file: &Compiled, own: &[CompiledCook<'_>], scope: &Scope<'_>) -> Vec<String> {
    let of_time =
        |finding: &&Finding| finding.code.stage() == Stage::Timing && finding.severity != Severity::Note;
    let at_fault = file.findings.iter().filter(of_time).filter(|finding| !finding.remedy.is_empty());
    let own = at_fault.filter(|finding| concerns(file, finding, own, scope));
    own.map(|finding| finding.remedy.render(file.scale)).collect()
}

/// It names a dish of the page, or none at all; and of one dish a phase of this place of work, or none at all.
fn concerns(file: &Compiled, finding: &Finding, own: &[CompiledCook<'_>], scope: &Scope<'_>) -> bool {
    let cooks = file.cooks();
    let places = std::iter::once(finding.span).chain(finding.also.iter().map(|(span, _)| *span));
    let mut dishes =
        places.filter(|place| cooks.iter().any(|worked| worked.cook.file == place.file)).peekable();
    let named = dishes.peek().is_some();
    let of_dish = !named || dishes.any(|place| own.iter().any(|worked| worked.cook.file == place.file));
    let of_place = |phase: &String| own.iter().any(|worked| scope.holds(&worked.cook.title.value, phase));
    of_dish && finding.phase.as_ref().is_none_or(of_place)
}
