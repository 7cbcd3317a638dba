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
        let (n, phase) = whose(title, cooks, name, "--done")?;
        each[n].done.push((phase, *happened));
    }
    for (name, happened) in &said.started {
        let Some(name) = name else {
            return Err(unclear(
                title,
                say!["`--started` does not say what has started, and this is a menu."],
                say![
                    "Put the phase before the time, behind its dish if two have it: `--started \"celeriac: scrub=14:35\"`."
                ],
            ));
        };
        let (n, phase) = whose(title, cooks, name, "--started")?;
        each[n].started.push((Some(phase), *happened));
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

/// The number of the dish that a name is of, and what the phase is called there.
fn whose(
    title: &Spanned<String>,
    cooks: &[&Cook],
    name: &str,
    option: &str,
) -> Result<(usize, String), Box<Finding>> {
    let (dish, phase) = match name.split_once(':') {
        Some((dish, phase)) => (Some(dish.trim().to_lowercase()), phase.trim()),
        None => (None, name),
    };
    let has = |cook: &Cook| {
        let called =
            dish.as_ref().is_none_or(|dish| cook.title.value.to_lowercase().starts_with(dish.as_str()));
        called && cook.phases.iter().any(|one| one.name.eq_ignore_ascii_case(phase))
    };
    let meant: Vec<usize> = (0..cooks.len()).filter(|&n| has(cooks[n])).collect();
    match meant.as_slice() {
        [one] => Ok((*one, phase.to_owned())),
        [] => Err(unclear(
            title,
            say![format!("`{option}` names `{name}`, which is no phase of any dish of this menu.")],
            say![format!(
                "Write the name that it has in its file, behind the dish where you like: `{option} \"celeriac: roast=16:50\"`."
            )],
        )),
        several => {
            let titles: Vec<String> =
                several.iter().map(|&n| format!("`{}`", cooks[n].title.value)).collect();
            Err(unclear(
                title,
                say![format!("`{option}` names `{name}`, which {} have.", titles.join(" and "))],
                say![format!(
                    "Put the dish before it: `{option} \"{}: {phase}=…\"`.",
                    cooks[several[0]].title.value
                )],
            ))
        }
    }
}

fn unclear(
    title: &Spanned<String>,
    message: crate::findings::Text,
    remedy: crate::findings::Text,
) -> Box<Finding> {
    Box::new(Finding::new(Code::ProgressUnclear, title.span, message, remedy))
}
