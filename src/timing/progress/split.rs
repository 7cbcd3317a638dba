//! Of what was said of a menu, what is of which dish.

use super::{Past, Progress};
use crate::cook::Cook;
use crate::findings::{Code, Finding};
use crate::say;
use crate::text::Spanned;

/// What happened so far in each dish. A phase is named by itself where one dish has it, else behind its dish:
/// `celeriac: roast`; the beginning of the dish's title is enough.
///
/// # Errors
/// A finding where a name is of no dish, or of several.
pub fn split(
    title: &Spanned<String>,
    cooks: &[&Cook],
    said: &Progress,
) -> Result<Vec<Progress>, Box<Finding>> {
    let mut each: Vec<Progress> =
        cooks.iter().map(|_| Progress { now: said.now, ..Progress::default() }).collect();
    for (name, happened) in &said.done {
        let (dish, phase) = match name.split_once(':') {
            Some((dish, phase)) => (Some(dish.trim().to_lowercase()), phase.trim()),
            None => (None, name.as_str()),
        };
        let has = |cook: &Cook| {
            let called =
                dish.as_ref().is_none_or(|dish| cook.title.value.to_lowercase().starts_with(dish.as_str()));
            called && cook.phases.iter().any(|one| one.name.eq_ignore_ascii_case(phase))
        };
        let meant: Vec<usize> = (0..cooks.len()).filter(|&n| has(cooks[n])).collect();
        match meant.as_slice() {
            [one] => each[*one].done.push((phase.to_owned(), *happened)),
            [] => {
                return Err(unclear(
                    title,
                    say![format!("`--done` names `{name}`, which is no phase of any dish of this menu.")],
                    say![
                        "Write the name that it has in its file, behind the dish where you like: `--done \"celeriac: roast=16:50\"`."
                    ],
                ));
            }
            several => {
                let titles: Vec<String> =
                    several.iter().map(|&n| format!("`{}`", cooks[n].title.value)).collect();
                return Err(unclear(
                    title,
                    say![format!("`--done` names `{name}`, which {} have.", titles.join(" and "))],
                    say![format!(
                        "Put the dish before it: `--done \"{}: {phase}=…\"`.",
                        cooks[several[0]].title.value
                    )],
                ));
            }
        }
    }
    Ok(each)
}

/// A finding where the dishes take `--now` for different days, each for the one nearest to its own plan.
pub fn one_now<'p>(title: &Spanned<String>, mut pasts: impl Iterator<Item = &'p Past>) -> Option<Finding> {
    let first = pasts.next()?.now;
    pasts.any(|past| past.now != first).then(|| {
        *unclear(
            title,
            say!["The time of `--now` is on one day for one dish of this menu, and on another for another."],
            say!["Write the day with it, such as `\"Sat 07:40\"`."],
        )
    })
}

fn unclear(
    title: &Spanned<String>,
    message: crate::findings::Text,
    remedy: crate::findings::Text,
) -> Box<Finding> {
    Box::new(Finding::new(Code::ProgressUnclear, title.span, message, remedy))
}
