//! The stages that judge a typed cook, one after the other.

use super::{Options, Worked, allow, meal, rules, since};
use crate::cook::{Cook, Lasts, Menu};
use crate::findings::{Code, Finding, Severity};
use crate::log::Log;
use crate::text::Spanned;
use crate::{heat, kit, ledger, safety, say, timing};

/// The most phases of one cook. The longest real one that we know has about forty.
const MOST_PHASES: usize = 2_000;

/// What all cooks of one run share.
pub struct Work<'w> {
    pub options: &'w Options,
    /// What thermometers wrote down.
    pub log: &'w Log,
    /// The rule set of `dwell.toml`.
    pub own_rules: Option<&'w Spanned<String>>,
    /// Every line was understood. Otherwise no times are worked out: they would be those of another
    /// cook.
    pub understood: bool,
}

impl Work<'_> {
    /// Every dish for the people it is for, by its own rules and the menu's.
    pub fn menu(&self, menu: &mut Menu, findings: &mut Vec<Finding>) -> Vec<Worked> {
        let disagreeing = meal::share(menu);
        let agree = disagreeing.is_empty();
        findings.extend(disagreeing);
        let mut timing = self.options.timing.clone();
        timing.serve = timing.serve.or(menu.serve.as_ref().map(|serve| serve.value));
        let rules = menu.rules.clone();
        let dishes = menu.dishes.iter_mut();
        let worked = dishes
            .map(|dish| {
                let people = self.options.serves.or(dish.serves);
                self.cook(&mut dish.cook, people, rules.as_ref(), &timing, findings)
            })
            .collect();
        if self.understood && agree && menu.dishes.len() > 1 {
            findings.push(Finding::new(
                Code::TimingNotProved,
                menu.title.span,
                say!["Each dish is timed by itself; whether they get in each other's way is not looked at."],
                say!["Look at their times side by side for kit and hands that two dishes want at once."],
            ));
        }
        worked
    }

    pub fn cook(
        &self,
        cook: &mut Cook,
        people: Option<u32>,
        menu_rules: Option<&Spanned<String>>,
        timing: &timing::Options,
        all: &mut Vec<Finding>,
    ) -> Worked {
        if let Some(phase) = cook.phases.get(MOST_PHASES) {
            all.push(Finding::new(
                Code::FileTooLong,
                phase.span,
                say![format!(
                    "This cook has {} phases; from here on nothing is judged, and neither is what stands above.",
                    cook.phases.len()
                )],
                say![format!("Split it into cooks of up to {MOST_PHASES} phases and a menu of them.")],
            ));
            return Worked::default();
        }
        let mut findings = Vec::new();
        if let Some(people) = people {
            findings.extend(ledger::scale(cook, people));
        }
        ledger::spread_each(cook);
        let (ledger, found) = ledger::balance(cook);
        findings.extend(found);
        findings.extend(kit::check(cook, &ledger));

        let asked = self.options.rules.as_deref();
        let (sets, assumed) = rules::choose(asked, cook, menu_rules, self.own_rules);
        // Where the line that names them was not understood, that there are none only follows.
        let lost = cook.title.value.is_empty() || all.iter().any(|other| other.code == Code::RulesUnknown);
        findings.extend(assumed.filter(|_| !lost));
        // The phase that cooks it may be the one that could not be read.
        let phase_lost = all.iter().any(|other| other.code == Code::BlockUnreadable);
        let predicted = match self.understood {
            true => self.predicted(cook, &ledger, timing),
            false => heat::Prediction::default(),
        };
        let curves = predicted.curves;
        findings.extend(predicted.findings);
        let mut judged = Vec::new();
        for set in &sets {
            let verdicts = safety::judge(cook, set, &curves);
            judged.extend(verdicts.judged);
            let follows = |finding: &Finding| phase_lost && finding.code == Code::RawIntoCooked;
            findings.extend(verdicts.findings.into_iter().filter(|finding| !follows(finding)));
        }

        findings.extend(safety::growth(cook, &curves, &findings));

        let timeline = self.understood.then(|| {
            let (timeline, found) = planned(cook, &curves, timing);
            // That two settings of one kit at once can never be on time only follows.
            let clash = findings.iter().any(|other| other.code == Code::SettingsClash);
            findings.extend(found.into_iter().filter(|one| !clash || one.code != Code::NeverOnTime));
            timeline
        });
        if !self.understood {
            findings.retain(|finding| finding.severity != Severity::Note);
        }
        allow::apply(cook, &mut findings);
        all.append(&mut findings);
        Worked { ledger, curves, judged, sets, timeline }
    }

    /// The forecast, sharpened by what a probe has read.
    fn predicted(
        &self,
        cook: &mut Cook,
        ledger: &ledger::Ledger,
        timing: &timing::Options,
    ) -> heat::Prediction {
        let asked = &self.options.readings;
        let mut plain = match self.options.outline {
            true => heat::outline(cook, ledger),
            false => heat::predict(cook, ledger),
        };
        if asked.all.is_empty() && self.log.rows.is_empty() {
            return plain;
        }
        let named = |name: &str| asked.food.as_deref().is_none_or(|food| food.eq_ignore_ascii_case(name));
        let Some(item) = plain.curves.foods.iter().find(|food| named(&food.name)).map(|food| food.item)
        else {
            plain.findings.push(since::of_nothing(cook));
            return plain;
        };
        let plan = since::needs_start(asked, self.log).then(|| planned(cook, &plain.curves, timing).0);
        match since::readings(cook, asked, self.log, plan.as_ref()) {
            Ok(readings) => heat::sharpened(cook, ledger, plain, item, &readings),
            Err(finding) => {
                plain.findings.push(*finding);
                plain
            }
        }
    }
}

/// The plan, with phases as long as they are predicted where nothing else says how long.
fn planned(
    cook: &mut Cook,
    curves: &heat::Curves,
    timing: &timing::Options,
) -> (timing::Timeline, Vec<Finding>) {
    let written = heat::lend_lengths(cook, curves);
    let (timeline, mut findings) = timing::plan(cook, timing);
    for (phase, lasts) in cook.phases.iter_mut().zip(written) {
        phase.lasts = lasts;
    }
    for finding in &mut findings {
        let blamed = cook.phases.iter().find(|phase| Some(&phase.name) == finding.phase.as_ref());
        if let Some(phase) = blamed.filter(|phase| phase.lasts == Lasts::Open) {
            let first = say![format!(
                "How long `{}` takes is only predicted, within wide bounds. Write what you have seen of such a piece: \
                 `takes 2 h to 3 h`. ",
                phase.name
            )];
            finding.remedy = first.followed_by(std::mem::take(&mut finding.remedy));
        }
    }
    (timeline, findings)
}
