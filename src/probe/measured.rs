//! Every stretch of a log by one rule set: what is met, broken, or not judged.

mod words;

use super::Probed;
use super::readings::{Readings, history};
use super::stretches::{Kind, Stretch};
use crate::cook::{Cook, ItemId, Origin};
use crate::log::Log;
use crate::safety::history::{self, Food, Margin, Outcome, Way, overall};
use crate::safety::{Judged, Verdict, sorts};
use crate::tables::{Aim, Demand, FoodState, RuleSet};

pub(super) fn by(cook: &Cook, item: ItemId, set: &RuleSet, log: &Log, probed: &mut Probed) {
    let set = for_these_guests(cook, set);
    let name = cook.item(item).name.clone();
    let mut foods = foods(cook, item);
    let mut cooked = false;
    let stretches = probed.stretches.clone();
    for (nth, stretch) in stretches.iter().enumerate() {
        let to_come = stretches.get(nth..).unwrap_or_default();
        for aim in stretch.kind.aims() {
            let end_s = match aim {
                // What stays hot goes on cooking, and so does what begins to cool.
                Aim::Cook => cooking_end_s(to_come),
                _ => stretch.end_s,
            };
            let place = Place { cook, set: &set, log, stretch, aim: *aim, end_s, food: &name };
            let mut worst: Option<(Verdict, Vec<Outcome>)> = None;
            for food in &mut foods {
                if !matches!(stretch.kind, Kind::Heat | Kind::Thaw) && (cooked || food.bought_cooked) {
                    food.state = FoodState::Cooked;
                }
                let outcomes = place.outcomes(food, before_hot_hold(to_come));
                let verdict = overall(&outcomes);
                if *aim == Aim::Cook && verdict == Verdict::Met {
                    cooked = true;
                    let met = outcomes.iter().find(|outcome| outcome.relied_on() == Verdict::Met);
                    food.cooked_by = met.map(|outcome| outcome.rule.id.clone());
                }
                let graver = |known: &(Verdict, Vec<Outcome>)| weight(verdict) > weight(known.0);
                if worst.as_ref().is_none_or(graver) {
                    worst = Some((verdict, outcomes));
                }
            }
            // Most sets have no rule about the way up, which is no gap in them.
            if *aim != Aim::ComeUp && worst.as_ref().is_none_or(|(_, outcomes)| outcomes.is_empty()) {
                probed.unruled.push((set.id.clone(), stretch.phases.clone()));
            }
            if let Some((verdict, outcomes)) = worst {
                cooked &= *aim != Aim::Cook || verdict == Verdict::Met;
                place.put_down(verdict, &outcomes, probed);
            }
        }
    }
}

fn weight(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Met => 0,
        Verdict::NotJudged => 1,
        Verdict::Broken => 2,
    }
}

/// The rules that count for whoever eats it.
fn for_these_guests(cook: &Cook, set: &RuleSet) -> RuleSet {
    let vulnerable = cook.vulnerable_guests.is_some();
    let mut set = set.clone();
    set.rules.retain(|rule| rule.counts_for(vulnerable));
    set
}

/// What is in it: each kind counts, and the worst verdict is that of the whole.
fn foods(cook: &Cook, item: ItemId) -> Vec<Food> {
    let bought_cooked = match &cook.item(item).origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => stock.cooked.is_some(),
        Origin::Made(_) | Origin::Collected { .. } | Origin::OnTap => false,
    };
    let kind = cook.item(item).kind.as_ref().map(|kind| kind.value.name.clone());
    sorts(cook, item)
        .into_iter()
        .map(|sort| Food {
            name: kind.clone().unwrap_or_default(),
            bought_cooked,
            ..Food::new(sort.species, sort.state)
        })
        .collect()
}

fn before_hot_hold(to_come: &[Stretch]) -> bool {
    to_come.get(1).is_some_and(|next| next.kind == Kind::HotHold)
}

fn cooking_end_s(to_come: &[Stretch]) -> f64 {
    let hot = |stretch: &&Stretch| matches!(stretch.kind, Kind::Heat | Kind::HotHold | Kind::Cool);
    to_come.iter().take_while(hot).map(|stretch| stretch.end_s).fold(f64::NEG_INFINITY, f64::max)
}

/// One stretch, looked at for one thing.
struct Place<'p> {
    cook: &'p Cook,
    set: &'p RuleSet,
    log: &'p Log,
    stretch: &'p Stretch,
    aim: Aim,
    end_s: f64,
    food: &'p str,
}

const GAP: &str = "a gap in the log may hide what decides it";
const ENDS: &str = "the log ends before that is over";

impl Place<'_> {
    fn outcomes(&self, food: &Food, before_hot_hold: bool) -> Vec<Outcome<'_>> {
        let all = match self.aim {
            Aim::Cool | Aim::ColdHold | Aim::Thaw => Readings::warmest(self.log),
            _ => Readings::coldest(self.log),
        };
        let part = all.between(self.stretch.start_s, self.end_s);
        let judge = |points: &[(f64, f64)]| {
            let outcomes = history(points).map(|it| history::judge(&it, food, self.aim, self.set));
            let mut outcomes = outcomes.unwrap_or_default();
            outcomes.retain(|outcome| match &outcome.rule.demand {
                Demand::Cook { then: Some(_), .. } => before_hot_hold,
                _ => true,
            });
            outcomes
        };
        let mut outcomes = judge(part.points());
        if part.has_gaps() {
            let parts: Vec<Vec<Outcome>> = part.unbroken().map(judge).collect();
            for outcome in &mut outcomes {
                let known = self.known_beside_gaps(outcome, &part, &parts);
                *outcome = known;
            }
        }
        // A hold that was met so far is not over.
        if self.stretch.cut_off && matches!(self.aim, Aim::HotHold | Aim::ColdHold | Aim::Thaw) {
            for outcome in outcomes.iter_mut().filter(|outcome| outcome.verdict == Verdict::Met) {
                (outcome.verdict, outcome.why) = (Verdict::NotJudged, Some(ENDS));
            }
        }
        outcomes
    }

    /// What of a verdict, taken as if the core had gone straight through the gaps, stands whatever happened in them.
    fn known_beside_gaps<'r>(
        &self,
        straight: &Outcome<'r>,
        part: &Readings,
        parts: &[Vec<Outcome<'r>>],
    ) -> Outcome<'r> {
        let same = |outcome: &&Outcome| outcome.rule.id == straight.rule.id;
        let unknown = || Outcome { verdict: Verdict::NotJudged, why: Some(GAP), ..straight.clone() };
        let of_some_part =
            |verdict| parts.iter().flatten().filter(same).find(|it| it.verdict == verdict).cloned();
        let before_gaps = straight
            .moment
            .zip(part.first_gap_s())
            .is_some_and(|(moment, gap_s)| moment.seconds() <= gap_s && !matches!(self.aim, Aim::Cook));
        let beyond_gaps = straight
            .measured
            .is_some_and(|it| matches!(it.margin, Margin::Time(room) if -room.seconds() > part.unknown_s()));
        match (self.aim, straight.verdict) {
            // Heat that was measured is enough; heat that was not may have been in a gap.
            (Aim::Cook, _) => of_some_part(Verdict::Met).unwrap_or_else(unknown),
            (Aim::HotHold | Aim::ColdHold | Aim::Thaw, _) => {
                of_some_part(Verdict::Broken).unwrap_or_else(unknown)
            }
            (_, Verdict::Broken) if before_gaps || beyond_gaps => straight.clone(),
            (Aim::Cool | Aim::ReheatNow | Aim::ReheatToHold, Verdict::Met) if before_gaps => straight.clone(),
            _ => unknown(),
        }
    }

    /// Of rules of which one will do, those that are not needed are left out.
    fn put_down(&self, verdict: Verdict, outcomes: &[Outcome], probed: &mut Probed) {
        let row = |rule: &str, verdict, why| Judged {
            rule: rule.into(),
            set: self.set.id.clone(),
            verdict,
            phase: Some(self.stretch.phases.clone()),
            food: Some(self.food.into()),
            why,
        };
        for outcome in outcomes {
            let option = matches!(outcome.way, Way::Option(_));
            let said = match outcome.relied_on() {
                Verdict::Broken if option && verdict == Verdict::Met => continue,
                Verdict::NotJudged if option && verdict == Verdict::Met => continue,
                // Another way may still do.
                Verdict::Broken if option && verdict == Verdict::NotJudged => Verdict::NotJudged,
                said => said,
            };
            probed.judged.push(row(&outcome.rule.id, said, self.why(outcome)));
        }
        if verdict != Verdict::Broken {
            return;
        }
        let broken = || outcomes.iter().filter(|outcome| outcome.relied_on() == Verdict::Broken);
        let needed = broken().filter(|outcome| outcome.way == Way::Needed);
        // Of several ways that all fail, the one that came nearest.
        let ways =
            broken().filter(|outcome| outcome.way != Way::Needed).max_by(|a, b| room(a).total_cmp(&room(b)));
        let no_needed = needed.clone().next().is_none();
        for outcome in needed.chain(ways.filter(|_| no_needed)) {
            probed.findings.push(self.finding(outcome));
        }
    }
}

/// How much was missing; times count a kelvin to the minute, which only orders the ways that fail.
fn room(outcome: &Outcome) -> f64 {
    match outcome.measured.map(|it| it.margin) {
        Some(Margin::Temperature(k)) => k.kelvin(),
        Some(Margin::Time(t)) => t.minutes(),
        None => f64::NEG_INFINITY,
    }
}
