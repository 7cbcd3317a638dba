//! What was tried, in a cook's words. What is to be typed stands as it would stand in the file, whatever the scale
//! that the reader asked for.

use super::changes::{Change, Kind};
use crate::cook::{Cook, Purpose};
use crate::findings::{Code, Stage, Text};
use crate::say;

/// "Write `air 63 °C` instead of `air 48 °C` in `wait`, and add `covered` to `wait`."
pub fn to_do(changes: &[Change]) -> Text {
    let one = |change: &Change| {
        let (new, block) = (change.edit.text.trim(), &change.block);
        match &change.kind {
            Kind::InsteadOf(old) => format!("write `{new}` instead of `{old}` in `{block}`"),
            Kind::Added => format!("add `{new}` to `{block}`"),
        }
    };
    let mut sentence = changes.iter().map(one).collect::<Vec<_>>().join(", and ");
    if let Some(first) = sentence.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    say![format!("{sentence}.")]
}

/// The last sentence of a remedy.
pub fn tried(code: Code, changes: &[Change], cook: &Cook) -> Text {
    let outcome = match code {
        _ if code.stage() == Stage::Heat => "it gets there as predicted",
        _ if code.stage() == Stage::Timing => "dinner is always on time",
        // Of these the figures in the file decide.
        Code::KeptTooLong | Code::ThawTooWarm | Code::TimeWithoutControl => "this is met",
        _ => "this is met as predicted",
    };
    let lasts = if changes.iter().any(|change| stays_on(change, cook)) { COVER_LASTS } else { "" };
    say![format!(" Tried: with {} {outcome}, and nothing new is found.{lasts}", told(changes))]
}

const COVER_LASTS: &str = " A cover stays on through the phases that follow, until one of them names another: write `uncovered` where the food \
     is to be bare again.";

/// It is a cover that food keeps in a later phase which names none.
fn stays_on(change: &Change, cook: &Cook) -> bool {
    let words = ["covered", "wrapped", "sealed", "bagged", "vacuum"];
    let covers = words.iter().any(|word| change.edit.text.trim_start().starts_with(word));
    let later = cook.phases.iter().skip_while(|phase| phase.name != change.block).skip(1);
    let mut bare = later.filter(|phase| phase.purpose != Purpose::Serve && !phase.placings.is_empty());
    covers && bare.any(|phase| phase.shape.covers.is_empty())
}

/// The changes one after the other, the block once where it is the same.
fn told(changes: &[Change]) -> String {
    let mut told = String::new();
    for (n, change) in changes.iter().enumerate() {
        let new = change.edit.text.trim();
        let (what, joined) = match &change.kind {
            Kind::InsteadOf(old) => (format!("`{new}` instead of `{old}`"), "in"),
            Kind::Added => (format!("`{new}` added"), "to"),
        };
        let next = changes.get(n + 1);
        let goes_on = next.is_some_and(|next| next.block == change.block);
        told.push_str(&if goes_on { what } else { format!("{what} {joined} `{}`", change.block) });
        told.push_str(match changes.len() - n {
            1 => "",
            2 => " and ",
            _ => ", ",
        });
    }
    told
}
