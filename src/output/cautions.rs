//! What has to stand before everything that somebody may cook from.

use super::clean;
use crate::compile::Compiled;
use crate::cook::Document;
use crate::findings::{Finding, Severity, Stage};
use crate::text::FileId;

/// A word about the errors of a file, if it has any.
pub fn of_errors(file: &Compiled) -> Option<String> {
    of_errors_in(file, &file.path)
}

/// The same of the file by another name than its path.
pub fn of_errors_in(file: &Compiled, name: &str) -> Option<String> {
    let errors = file.findings.iter().filter(|finding| finding.severity == Severity::Error).count();
    let name = clean::line(name);
    let errors = match errors {
        0 => return None,
        1 => "1 error".to_owned(),
        _ => format!("{errors} errors"),
    };
    Some(format!("CAUTION: {name} has {errors}. Do not cook from this before `dwell check` finds none."))
}

/// The same, and what the forecast itself warns of.
pub fn of_forecast(file: &Compiled) -> Vec<String> {
    of_errors(file).into_iter().chain(of_heat(file, None)).collect()
}

/// What the forecast warns of, of the cook in one of the files or of all.
pub fn of_heat(file: &Compiled, only: Option<FileId>) -> Vec<String> {
    let doubts = file
        .findings
        .iter()
        .filter(|finding| finding.code.stage() == Stage::Heat && finding.severity == Severity::Warning)
        .filter(|finding| only.is_none_or(|only| finding.span.file == only));
    let doubts = doubts.map(|finding| {
        let dish = dish_of(file, finding).map_or_else(String::new, |title| format!(" of {title}"));
        let place = finding.phase.as_deref().map_or_else(String::new, |phase| format!(" in {phase}{dish}"));
        let what = finding.message.render(file.scale);
        clean::line(&format!("CAUTION{place}: {what}")).into_owned()
    });
    doubts.collect()
}

/// The dish of a menu that a finding is about: two of them may have phases of one name.
fn dish_of<'f>(file: &'f Compiled, finding: &Finding) -> Option<&'f str> {
    let Some(Document::Menu(menu)) = &file.document else { return None };
    let mut titles = menu.dishes.iter().map(|dish| &dish.cook.title);
    titles.find(|title| title.span.file == finding.span.file).map(|title| title.value.as_str())
}
