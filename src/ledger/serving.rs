//! What servings eat, and whether it is what was promised.

use super::account::{Ledger, Served};
use super::balance::Walk;
use super::stuff::{Weight, poured, same_word, sum};
use super::take::{Way, take};
use crate::cook::{Amount, Cook, ItemId, Part, Phase, PhaseId, Serves};
use crate::findings::{Code, Finding};
use crate::quantity::{Mass, plain_number};
use crate::say;

/// Promised and served may differ this much: portions are not cut to the gram. Common practice, no
/// source.
const PORTION_SLACK: f64 = 0.01;

impl Walk<'_> {
    /// A serving eats all that is placed in it, unless a later phase places that food: then N × Q.
    pub(super) fn serve(&mut self, id: PhaseId, phase: &Phase) -> Option<Served> {
        phase.service.as_ref()?;
        let mut served = Served::default();
        let mut going_on = Vec::new();
        for placing in &phase.placings {
            let stays = self.next(placing.item, id).is_some();
            let item = self.cook.item(placing.item);
            let Some(holding) = self.holding(placing.item) else { continue };
            if stays && matches!(placing.part, Part::Whole) {
                going_on.push(placing.item);
                continue;
            }
            let (taken, finding) = take(holding, &placing.part, item, Way::Place, placing.span, phase);
            served.foods.push((placing.item, taken.weight()));
            let count = taken.stuff.count.map(|(number, word)| (placing.item, number, word));
            served.counts.extend(count);
            self.findings.extend(finding);
        }
        if !going_on.is_empty() {
            self.eat_a_share(&going_on, &mut served);
        }
        Some(served)
    }

    /// Of foods that go on, so much is eaten that all together make N × Q.
    fn eat_a_share(&mut self, going_on: &[ItemId], served: &mut Served) {
        let promised = self.cook.serves.as_ref().and_then(promised);
        let eaten =
            sum(served.foods.iter().map(|(_, weight)| *weight)).map_or(Mass::ZERO, |weight| weight.mass);
        let there = sum(going_on.iter().map(|&item| self.holding(item)?.weight()));
        let share = match (promised, there) {
            (Some(promised), Some(there)) if there.mass > Mass::ZERO => {
                Some(((promised.mass - eaten) / there.mass).clamp(0.0, 1.0))
            }
            _ => None,
        };
        for &item in going_on {
            let Some(holding) = self.holding(item) else { continue };
            let weight = holding.weight();
            match share {
                Some(share) => {
                    served.foods.push((item, weight.map(|weight| weight.times(share))));
                    holding.left *= 1.0 - share;
                }
                // How much is eaten is not known, so neither is what goes on.
                None => {
                    served.foods.push((item, None));
                    holding.renew();
                    holding.whole = super::stuff::Stuff::default();
                }
            }
        }
    }
}

/// N × Q as a mass; a volume is reckoned as water is.
fn promised(serves: &Serves) -> Option<Weight> {
    let people = f64::from(serves.people);
    match &serves.each.as_ref()?.value {
        Amount::Mass(each) => Some(Weight::exact(*each * people)),
        Amount::Volume(each) => Some(poured(*each * people)),
        Amount::Length(_) | Amount::Count { .. } => None,
    }
}

/// Adds up the servings; says so if they give less than was promised.
pub(super) fn short(cook: &Cook, ledger: &mut Ledger) -> Option<Finding> {
    let serves = cook.serves.as_ref()?;
    let each = &serves.each.as_ref()?.value;
    let all: Vec<&Served> = ledger.phases.iter().filter_map(|phase| phase.served.as_ref()).collect();
    let weights: Vec<Option<Weight>> =
        all.iter().flat_map(|served| &served.foods).map(|(_, weight)| *weight).collect();
    let pieces = pieces(cook, each, &all);
    ledger.serving.served = sum(weights.iter().copied());
    ledger.serving.promised = promised(serves);
    if cook.phases.iter().any(|phase| phase.damaged) {
        return None;
    }
    let people = f64::from(serves.people);
    let (share, served, missing) = if let Amount::Count { number, .. } = each {
        let (served, promised) = (pieces?, number * people);
        let show = |number| plain_number(number, 2);
        (served / promised, show(served), show(promised - served))
    } else {
        // What is not known might be enough.
        if weights.iter().any(Option::is_none) {
            return None;
        }
        let (served, promised) = (ledger.serving.served?, ledger.serving.promised?);
        (served.mass / promised.mass, served.show(), (promised.mass - served.mass).show())
    };
    if share.is_nan() || share >= 1.0 - PORTION_SLACK {
        return None;
    }
    let (people, enough_for) = (serves.people, (share * people).floor());
    let total = match each.times(f64::from(people)) {
        Amount::Count { number, .. } => plain_number(number, 2),
        amount => amount.show(),
    };
    Some(Finding::new(
        Code::ServingsShort,
        serves.span,
        say![format!("{people} × {} are {total}; what is served comes to {served}.", each.show())],
        say![format!("Cook {missing} more, or serve fewer: it is enough for {enough_for:.0}.")],
    ))
}

/// How many of the pieces that `each` counts are served; `None` where none are.
fn pieces(cook: &Cook, each: &Amount, all: &[&Served]) -> Option<f64> {
    let Amount::Count { word, .. } = each else { return None };
    let of_that_name = all
        .iter()
        .flat_map(|served| &served.counts)
        .filter(|(item, _, counted)| same_word(word, counted) || same_word(word, &cook.item(*item).name));
    of_that_name.map(|(_, number, _)| *number).reduce(|sum, number| sum + number)
}
