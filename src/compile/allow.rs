//! `allow CODE because "…"`: what a writer takes upon himself.

use crate::cook::{Allow, Cook};
use crate::findings::{Code, Finding, Severity, Stage};
use crate::say;

/// Applies a cook's `allow`s to its findings and reports those that silence nothing.
pub fn apply(cook: &Cook, findings: &mut Vec<Finding>) {
    let mut used = vec![false; cook.allows.len()];
    findings.retain_mut(|finding| {
        let Some(n) = cook.allows.iter().position(|allow| silences(allow, finding)) else { return true };
        used[n] = true;
        if !can_hurt(finding) {
            return false;
        }
        caution(finding, &cook.allows[n]);
        true
    });
    let unused = cook.allows.iter().zip(used).filter(|(_, used)| !used);
    findings.extend(unused.map(|(allow, _)| report_unused(allow)));
}

/// Whether it is written for this finding.
pub fn silences(allow: &Allow, finding: &Finding) -> bool {
    let inside = finding.span.file == allow.block.file
        && (allow.block.start..allow.block.end).contains(&finding.span.start);
    finding.code == allow.code.value && inside && can_be_allowed(allow.code.value)
}

/// A line that nobody understood has no effect; no reason makes it have one.
pub fn can_be_allowed(code: Code) -> bool {
    let reading = matches!(code.stage(), Stage::Syntax | Stage::Units | Stage::Names);
    !reading || code.severity() != Severity::Error
}

/// A food-safety error, and smoke in a room with people, stay on the page whoever allows them.
fn can_hurt(finding: &Finding) -> bool {
    finding.severity == Severity::Error
        && (finding.code.stage() == Stage::Safety || finding.code == Code::SmokeUnvented)
}

fn caution(finding: &mut Finding, allow: &Allow) {
    finding.severity = Severity::Warning;
    finding.message.push(format!(" The writer allows it, because \"{}\".", allow.because));
}

fn report_unused(allow: &Allow) -> Finding {
    let code = allow.code.value.name();
    let (message, remedy) = if !can_be_allowed(allow.code.value) {
        (
            say![format!("`{code}` cannot be allowed: a line that is not understood has no effect.")],
            say!["Mend the line, and delete this `allow`."],
        )
    } else {
        (
            say![format!("There is no `{code}` in this block, so this `allow` silences nothing.")],
            say!["Delete it, so that it cannot hide another fault later."],
        )
    };
    Finding::new(Code::AllowUnused, allow.span, message, remedy)
}
