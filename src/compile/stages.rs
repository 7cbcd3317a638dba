//! The stages that judge a typed cook, one after the other.

use super::{Options, Worked, allow, choices, lived, meal, rules, since, spared};
use crate::cook::{Allow, Cook, Lasts, Menu};
use crate::findings::{Code, Finding, Severity, Stage};
use crate::log::Log;
use crate::text::Spanned;
use crate::{heat, kit, ledger, safety, say, stop, timing};

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
    /// Every dish for the people it is for, by its own rules and the menu's, and one plan for all; the plan
    /// is missing where a line was not understood.
    pub fn menu(
        &self,
        menu: &mut Menu,
        findings: &mut Vec<Finding>,
    ) -> (Vec<Worked>, Option<timing::Timeline>) {
        let disagreeing = meal::share(menu);
        let agree = disagreeing.is_empty();
        findings.extend(disagreeing);
        let (timing, found) = meal::times(menu, &self.options.timing);
        let agree = agree && found.is_empty();
        findings.extend(found);
        let rules = menu.rules.clone();
        let mut all = Vec::new();
        for (dish, timing) in menu.dishes.iter_mut().zip(&timing) {
            stop::here();
            let people = self.options.serves.or(dish.serves);
            all.push(self.judged(&mut dish.cook, people, rules.as_ref(), timing, findings));
        }
        let planned = self.is_predicted() && all.iter().all(|judged| judged.planned);
        let whole = planned.then(|| {
            let planned = planned_together(menu, &all, &timing);
            let mut whole = planned.whole;
            let dishes = menu.dishes.iter_mut().zip(planned.dishes);
            for (judged, (dish, (mut timeline, found))) in all.iter_mut().zip(dishes) {
                judged.live(&mut dish.cook, &timeline);
                timeline.overruns = spared::offered(&mut dish.cook, &judged.worked, &timeline);
                spared::take_back(&mut whole.overruns, &timeline.overruns);
                judged.time(timeline, found);
            }
            match agree {
                true => findings.extend(planned.findings),
                false => whole.doubt("The dishes of this menu do not agree on who cooks or when people eat."),
            }
            whole
        });
        let dishes = menu.dishes.iter().zip(all);
        let worked = dishes.map(|(dish, judged)| self.done(&dish.cook, judged, findings)).collect();
        (worked, whole)
    }

    pub fn cook(
        &self,
        cook: &mut Cook,
        people: Option<u32>,
        menu_rules: Option<&Spanned<String>>,
        timing: &timing::Options,
        all: &mut Vec<Finding>,
    ) -> Worked {
        let mut judged = self.judged(cook, people, menu_rules, timing, all);
        if self.is_predicted() && judged.planned {
            let (mut timeline, found) = planned(cook, &judged.worked, timing);
            judged.live(cook, &timeline);
            timeline.overruns = spared::offered(cook, &judged.worked, &timeline);
            judged.time(timeline, found);
        }
        self.done(cook, judged, all)
    }

    /// Everything but the plan.
    fn judged(
        &self,
        cook: &mut Cook,
        people: Option<u32>,
        menu_rules: Option<&Spanned<String>>,
        timing: &timing::Options,
        all: &mut Vec<Finding>,
    ) -> Judging {
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
            return Judging::default();
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
        let predicted = match self.is_predicted() {
            true => self.predicted(cook, &ledger, timing),
            false => heat::Prediction::default(),
        };
        let curves = predicted.curves;
        findings.extend(predicted.findings);
        let (mut judged, mut deadlines) = (Vec::new(), Vec::new());
        let mut at_worst = match self.is_predicted() && !self.is_read() {
            true => choices::judged_at_worst(cook, &ledger, &sets).into_iter(),
            false => Vec::new().into_iter(),
        };
        for set in &sets {
            let mut verdicts = safety::judge(cook, set, &curves);
            if let Some(at_worst) = at_worst.next() {
                choices::add(&mut verdicts, at_worst);
            }
            judged.extend(verdicts.judged);
            deadlines.extend(verdicts.deadlines);
            let follows = |finding: &Finding| phase_lost && finding.code == Code::RawIntoCooked;
            findings.extend(verdicts.findings.into_iter().filter(|finding| !follows(finding)));
        }

        findings.extend(safety::growth(cook, &curves, &findings));

        Judging {
            worked: Worked { ledger, curves, judged, deadlines, sets, timeline: None },
            findings,
            planned: true,
        }
    }

    /// Puts the findings on a cook with those of the others.
    fn done(&self, cook: &Cook, judged: Judging, all: &mut Vec<Finding>) -> Worked {
        let Judging { worked, mut findings, .. } = judged;
        if !self.understood {
            findings.retain(|finding| finding.severity != Severity::Note);
        }
        allow::apply(cook, &mut findings);
        if self.options.declared_only {
            // What is allowed may be what only a prediction shows.
            let shows = |allow: &Allow| matches!(allow.code.value.stage(), Stage::Ledger | Stage::Kit);
            let known = |finding: &Finding| {
                cook.allows.iter().any(|allow| allow.span == finding.span && shows(allow))
            };
            findings.retain(|finding| finding.code != Code::AllowUnused || known(finding));
        }
        all.append(&mut findings);
        worked
    }

    /// What the file declares is run through heat and time.
    fn is_predicted(&self) -> bool {
        self.understood && !self.options.declared_only
    }

    /// A probe is in the food: it is under way, and shows what was chosen.
    fn is_read(&self) -> bool {
        !self.options.readings.all.is_empty() || !self.log.rows.is_empty()
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
        if !self.is_read() {
            return plain;
        }
        let named = |name: &str| asked.food.as_deref().is_none_or(|food| food.eq_ignore_ascii_case(name));
        let Some(item) = plain.curves.foods.iter().find(|food| named(&food.name)).map(|food| food.item)
        else {
            plain.findings.push(since::of_nothing(cook));
            return plain;
        };
        let plan = since::needs_start(asked, self.log).then(|| {
            let lent = Lent::to(cook, &plain.curves);
            let (timeline, _) = timing::plan_with(cook, ledger, timing);
            lent.back(cook);
            timeline
        });
        match since::readings(cook, asked, self.log, plan.as_ref()) {
            Ok(readings) => heat::sharpened(cook, ledger, plain, item, &readings),
            Err(finding) => {
                plain.findings.push(*finding);
                plain
            }
        }
    }
}

/// A cook on the way through the stages.
#[derive(Default)]
struct Judging {
    worked: Worked,
    findings: Vec<Finding>,
    /// It is short enough to be planned.
    planned: bool,
}

impl Judging {
    /// What has happened so far is judged too.
    fn live(&mut self, cook: &mut Cook, timeline: &timing::Timeline) {
        let found = lived::judged(cook, &self.worked, timeline, &self.findings);
        self.findings.extend(found);
    }

    fn time(&mut self, timeline: timing::Timeline, found: Vec<Finding>) {
        // That two settings of one kit at once can never be on time only follows, and so with its room.
        let clashes = [Code::SettingsClash, Code::KitTooFull];
        let clash = self.findings.iter().any(|other| clashes.contains(&other.code));
        self.findings.extend(found.into_iter().filter(|one| !clash || one.code != Code::NeverOnTime));
        self.worked.timeline = Some(timeline);
    }
}

/// Phases as long as they are predicted where nothing else says how long, for as long as they are planned.
struct Lent(Vec<Lasts>);

impl Lent {
    fn to(cook: &mut Cook, curves: &heat::Curves) -> Self {
        Self(heat::lend_lengths(cook, curves))
    }

    fn back(self, cook: &mut Cook) {
        for (phase, lasts) in cook.phases.iter_mut().zip(self.0) {
            phase.lasts = lasts;
        }
    }
}

/// The plan of one cook.
fn planned(cook: &mut Cook, worked: &Worked, timing: &timing::Options) -> (timing::Timeline, Vec<Finding>) {
    let lent = Lent::to(cook, &worked.curves);
    let (timeline, mut findings) = timing::plan_with(cook, &worked.ledger, timing);
    lent.back(cook);
    predicted_only(cook, &mut findings);
    (timeline, findings)
}

/// The plan of all dishes of a menu.
fn planned_together(menu: &mut Menu, all: &[Judging], times: &[timing::Options]) -> timing::Planned {
    let dishes = menu.dishes.iter_mut().zip(all);
    let lent: Vec<Lent> =
        dishes.map(|(dish, judged)| Lent::to(&mut dish.cook, &judged.worked.curves)).collect();
    let dishes = menu.dishes.iter().zip(all);
    let dishes: Vec<timing::Dish<'_>> = dishes
        .map(|(dish, judged)| timing::Dish { cook: &dish.cook, ledger: &judged.worked.ledger })
        .collect();
    let mut planned = timing::plan_menu(&menu.title, &dishes, times);
    for ((dish, lent), (_, findings)) in menu.dishes.iter_mut().zip(lent).zip(&mut planned.dishes) {
        lent.back(&mut dish.cook);
        predicted_only(&dish.cook, findings);
    }
    planned
}

/// Says where a length that is blamed is only predicted.
fn predicted_only(cook: &Cook, findings: &mut [Finding]) {
    for finding in findings {
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
}
