//! Taking a part of something: by share, by amount, all or the rest.

use super::holding::{Holding, weight_of};
use super::stuff::{Stuff, Weight, same_word};
use crate::cook::{Amount, Item, Part, Phase};
use crate::findings::{Code, Finding};
use crate::quantity::Mass;
use crate::say;
use crate::text::Span;

/// Dividing and parting may come out this much over: rounding (fine print 9).
pub(super) const ROUNDING: f64 = 0.03;
/// A draw may be over by what rounding between scales explains: 1 kg out of 2.2 lb is 0.2 % over.
const SCALES: f64 = 0.005;

/// What was taken, and what goes with it.
#[derive(Debug, Clone, Default)]
pub(super) struct Taken {
    pub stuff: Stuff,
    /// Its part of what the run of `cook` phases has still to drive off.
    pub to_go: Mass,
    pub juices: Mass,
}

impl Taken {
    pub fn weight(&self) -> Option<Weight> {
        weight_of(&self.stuff)
    }
}

/// Whether a part is drawn from the store, or a food goes its own way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Use,
    Place,
}

/// Takes `part` out of `holding`. What is asked for beyond what is there is a finding; what is there
/// is then taken.
pub(super) fn take(
    holding: &mut Holding,
    part: &Part,
    item: &Item,
    way: Way,
    span: Span,
    phase: &Phase,
) -> (Taken, Option<Finding>) {
    let (wanted, finding) = match part {
        Part::Whole | Part::Rest => (holding.left, none_left(holding, item, span)),
        Part::Fraction(share) => (*share, over(holding, *share, part, item, way, span)),
        Part::Amount(_) if holding.endless => (0.0, None),
        Part::Amount(amount) => match share(holding, amount, item) {
            Some(share) => (share, over(holding, share, part, item, way, span)),
            None => {
                holding.unclear = true;
                (0.0, unrelated(holding, amount, item, way, span))
            }
        },
    };
    // `clamp` would panic on a figure that is none.
    let share = wanted.min(holding.left).max(0.0);
    let mut stuff = holding.whole.times(share);
    if let Part::Amount(amount) = part {
        // Said by the writer: what is bought by the piece may be drawn by weight, and the reverse.
        let said = Stuff::of(amount);
        stuff = Stuff {
            mass: said.mass.or(stuff.mass),
            volume: said.volume.or(stuff.volume),
            length: said.length.or(stuff.length),
            count: said.count.or(stuff.count),
        };
    }
    let taken = Taken { stuff, to_go: holding.to_go * share, juices: holding.juices * share };
    holding.left = settle(holding.left - share);
    (taken, finding.map(|finding| finding.in_phase(&phase.name).about_food(&item.name)))
}

/// Which share of the whole an amount is. `use 2 eggs` counts whatever `eggs` are counted in.
fn share(holding: &Holding, amount: &Amount, item: &Item) -> Option<f64> {
    match amount {
        Amount::Count { number, word } if same_word(word, &item.name) => {
            let any = Amount::Count { number: *number, word: String::new() };
            holding.whole.share(&any, holding.pours)
        }
        _ => holding.whole.share(amount, holding.pours),
    }
}

/// No crumbs: what rounding leaves over is nothing.
fn settle(left: f64) -> f64 {
    if left < 1e-9 { 0.0 } else { left }
}

fn none_left(holding: &Holding, item: &Item, span: Span) -> Option<Finding> {
    (holding.left <= 0.0 && !holding.endless).then(|| {
        let name = &item.name;
        Finding::new(
            Code::StockOverdrawn,
            span,
            say![format!("There is no {name} left here: all of it has gone already.")],
            say![format!(
                "Take less of it further up (`use half of {name}`) and `use the rest of {name}` here, or buy more."
            )],
        )
        .also(item.span, say![format!("This is all the {name} there is.")])
    })
}

fn over(holding: &Holding, share: f64, part: &Part, item: &Item, way: Way, span: Span) -> Option<Finding> {
    let slack = if way == Way::Place { ROUNDING } else { SCALES };
    if holding.endless || share <= holding.left + slack * share.min(1.0) {
        return None;
    }
    if holding.left <= 0.0 {
        return none_left(holding, item, span);
    }
    let name = &item.name;
    let left = holding.now();
    let asked = match part {
        Part::Amount(amount) => amount.show(),
        _ => show_share(share),
    };
    let there = left_in_words(&left, part, holding).unwrap_or_else(|| show_share(holding.left));
    let said = match part {
        Part::Amount(_) => format!("{asked} of {name} is wanted here; {there} is left."),
        _ => format!("{asked} of all the {name} is wanted here; only {there} is left."),
    };
    let word = if way == Way::Use { "use the rest of" } else { "the rest of" };
    Some(
        Finding::new(
            Code::StockOverdrawn,
            span,
            say![said],
            say![format!("Take less (`{word} {name}` takes what there is), or buy more.")],
        )
        .also(item.span, say![format!("This is all the {name} there is.")]),
    )
}

/// What is left, measured as it was asked for.
fn left_in_words(left: &Stuff, part: &Part, holding: &Holding) -> Option<String> {
    match part {
        Part::Amount(Amount::Mass(_)) => Some(left.weight(holding.pours)?.show()),
        Part::Amount(Amount::Volume(_)) => match left.volume {
            Some(volume) => Some(volume.show()),
            None => Some(left.mass?.show()),
        },
        Part::Amount(Amount::Length(_)) => Some(left.length?.show()),
        Part::Amount(Amount::Count { .. }) => {
            let (number, word) = left.count.clone()?;
            Some(Amount::Count { number, word }.show())
        }
        _ => None,
    }
}

fn show_share(share: f64) -> String {
    crate::quantity::Share::from_fraction(share).show()
}

/// How people say what an amount is measured by.
fn measured_by(amount: &Amount) -> String {
    match amount {
        Amount::Mass(_) => "by weight".into(),
        Amount::Volume(_) => "by volume".into(),
        Amount::Length(_) => "by length".into(),
        Amount::Count { word, .. } if word.is_empty() => "by number".into(),
        Amount::Count { word, .. } => format!("by the number of {word}"),
    }
}

fn unrelated(holding: &Holding, amount: &Amount, item: &Item, way: Way, span: Span) -> Option<Finding> {
    // Without any amount there is nothing to relate to; that is said where it is missing.
    let whole = holding.whole.amount()?;
    let name = &item.name;
    let measured = match (&whole, &holding.whole.count) {
        (Amount::Mass(_), Some((number, word))) if matches!(amount, Amount::Count { .. }) => {
            Amount::Count { number: *number, word: word.clone() }
        }
        _ => whole.clone(),
    };
    let take = if way == Way::Use { "use " } else { "" };
    Some(
        Finding::new(
            Code::UnitsUnrelated,
            span,
            say![format!(
                "{name} is measured {} and taken here {}: nothing says how much one is of the other.",
                measured_by(&measured),
                measured_by(amount)
            )],
            say![format!(
                "Write it as it is measured above ({}), or a share: `{take}half of {name}`.",
                measured.show()
            )],
        )
        .also(item.span, say![format!("This is {} of {name}.", whole.show())]),
    )
}
