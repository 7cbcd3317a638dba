//! Dividing a food into pieces: the sum must come out, and the new shape must be said.

use super::holding::Holding;
use super::stuff::{Stuff, Weight, poured, same_word};
use super::take::ROUNDING;
use crate::cook::{Amount, Item, Phase, Pieces};
use crate::findings::{Code, Finding, Severity};
use crate::say;

/// Common practice, no source: litres taken for kilograms, and two onions nobody weighed, explain a
/// quarter.
const UNWEIGHED: f64 = 0.25;

/// Divides what `holding` has into `pieces`. Returns what is left over of it, where that is more
/// than rounding.
pub(super) fn divide(
    holding: &mut Holding,
    pieces: &Pieces,
    item: &Item,
    phase: &Phase,
    findings: &mut Vec<Finding>,
) -> Option<Weight> {
    if let Some(finding) = shape_unsaid(holding, pieces, item, phase) {
        findings.push(finding);
    }
    holding.renew();
    let total = pieces.each.times(pieces.count);
    let mut over = None;
    match (holding.weight(), weight(&total)) {
        (Some(there), Some(wanted)) if wanted.mass > there.mass * (1.0 + slack(there)) => {
            findings.push(overdrawn(there, pieces, item, phase));
        }
        (Some(there), Some(wanted)) if wanted.mass < there.mass * (1.0 - ROUNDING) => {
            over = Some(Weight { mass: there.mass - wanted.mass, about: there.about || wanted.about });
            holding.whole = holding.whole.times(wanted.mass / there.mass);
            holding.to_go = holding.to_go * (wanted.mass / there.mass);
            holding.juices = holding.juices * (wanted.mass / there.mass);
        }
        (None, Some(wanted)) => holding.whole.mass = Some(wanted),
        _ => {}
    }
    if holding.whole.mass.is_none() {
        holding.whole = Stuff { mass: holding.whole.mass, ..Stuff::of(&total) };
    }
    holding.whole.count = Some((pieces.count, pieces.word.clone()));
    over
}

/// How far over is still rounding. Where a part of what is there was never weighed, only a sum that is
/// far out is said, as a doubt.
fn slack(there: Weight) -> f64 {
    if there.about { UNWEIGHED } else { ROUNDING }
}

fn weight(amount: &Amount) -> Option<Weight> {
    match amount {
        Amount::Mass(mass) => Some(Weight::exact(*mass)),
        Amount::Volume(volume) => Some(poured(*volume)),
        Amount::Length(_) | Amount::Count { .. } => None,
    }
}

fn shape_unsaid(holding: &Holding, pieces: &Pieces, item: &Item, phase: &Phase) -> Option<Finding> {
    if phase.damaged || phase.shape.thickness.is_some() || phase.shape.depth.is_some() {
        return None;
    }
    if let Some((number, word)) = &holding.whole.count
        && (number * holding.left - pieces.count).abs() < 1e-9
        && same_word(word, &pieces.word)
    {
        // Said again, not changed.
        return None;
    }
    let said = format!("{} {}", crate::quantity::plain_number(pieces.count, 2), pieces.word);
    let mut remedy =
        say!["Add how thick they are (`thickness 4 cm`), or how deep the food lies in them (`depth 5 cm`)."];
    remedy.push(" It decides how fast they heat and cool.");
    Some(
        Finding::new(
            Code::CountWithoutShape,
            pieces.span,
            say![format!("{} is divided into {said}, and nothing says how thick they are.", item.name)],
            remedy,
        )
        .in_phase(&phase.name)
        .about_food(&item.name),
    )
}

fn overdrawn(there: Weight, pieces: &Pieces, item: &Item, phase: &Phase) -> Finding {
    let word = &pieces.word;
    let count = crate::quantity::plain_number(pieces.count, 2);
    let total = pieces.each.times(pieces.count).show();
    // Rounded down, so that what is offered comes out.
    let each = (there.mass * (1.0 / pieces.count)).show_at_most();
    Finding::new(
        Code::StockOverdrawn,
        pieces.span,
        say![format!(
            "{count} {word} of {} are {total}; there is only {} of {} here.",
            pieces.each.show(),
            there.show(),
            item.name
        )],
        say![format!("Write `{count} {word} of {each}`, or buy more.")],
    )
    .with_severity(if there.about { Severity::Warning } else { Severity::Error })
    .in_phase(&phase.name)
    .about_food(&item.name)
}
