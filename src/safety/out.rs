//! Time without temperature control: food that is neither kept hot nor kept cold.

use super::declared::{Heat, Times, core_checks, in_the_cold, setting, times};
use super::holding::{counts_as_cold, counts_as_hot};
use super::lot::{Clock as Afresh, Lot};
use super::report::{About, Fault, Report};
use super::{Verdict, allowance, deadline, predicted, raw};
use crate::cook::{Phase, Purpose};
use crate::findings::{Code, Severity, Text};
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::tables::{Clock, Demand, Rule};
use crate::text::Span;

/// Does this phase leave the food to the room? `None` where only the food's own temperature could say.
pub(super) fn left_out(report: &Report, phase: &Phase) -> Option<bool> {
    let cook = report.cook;
    let may = match phase.purpose {
        // Only what was never frozen is counted in a thaw.
        Purpose::Prep | Purpose::Rest | Purpose::Serve | Purpose::Thaw => true,
        // Cooling has rules of its own as soon as it has an end or a limit.
        Purpose::Cool => phase.until.is_none() && phase.within.is_none(),
        Purpose::Cook | Purpose::Reheat => tepid(report, phase),
        _ => false,
    };
    let set = setting(cook, phase);
    // A fridge that is said to be warm is no fridge.
    let cold = set.map_or(in_the_cold(cook, phase), |setting| counts_as_cold(report, setting.at));
    if !may || cold {
        return Some(false);
    }
    if set.is_some_and(|setting| counts_as_hot(report, setting.at)) {
        return Some(false);
    }
    if phase.place.as_ref().is_some_and(|place| cook.kit(place.value).class.base_name() == "insulated box") {
        return None;
    }
    if kept(report, phase) { None } else { Some(true) }
}

/// A checkpoint at the end says that it was hot, or cold, until then.
fn kept(report: &Report, phase: &Phase) -> bool {
    core_checks(phase).any(|(low, high, _)| {
        low.is_some_and(|low| counts_as_hot(report, low))
            || high.is_some_and(|high| counts_as_cold(report, high))
    })
}

/// It is called cooking, and what is around the food is too cool to cook anything.
pub(super) fn tepid(report: &Report, phase: &Phase) -> bool {
    let Some(coolest) = coolest(report) else { return false };
    setting(report.cook, phase)
        .is_some_and(|around| around.at < coolest && !counts_as_cold(report, around.at))
}

/// Food that is ready, in a `cook` or a `reheat` that would not keep it hot: it is kept warm, whatever it is called.
fn lukewarm(report: &Report, lot: &Lot, phase: &Phase) -> bool {
    let ready = lot.cooked && lot.needs.is_empty();
    let heats = matches!(phase.purpose, Purpose::Cook | Purpose::Reheat);
    let between = |at: Temperature| !counts_as_hot(report, at) && !counts_as_cold(report, at);
    ready && heats && setting(report.cook, phase).is_some_and(|around| between(around.at))
}

/// It cooks nothing, or keeps nothing.
pub(super) fn too_cool_for(report: &Report, lot: &Lot, phase: &Phase) -> bool {
    tepid(report, phase) || lukewarm(report, lot, phase)
}

/// The coolest that the set lets count as heat, to cook or to hold.
pub(super) fn coolest(report: &Report) -> Option<Temperature> {
    let hot_enough = report.rules().filter_map(|rule| match &rule.demand {
        Demand::Cook { points, .. } => {
            points.iter().map(|point| point.limit().lowest()).reduce(Temperature::min)
        }
        Demand::HotHold { min, .. } => Some(min.lowest()),
        _ => None,
    });
    hot_enough.reduce(Temperature::min)
}

/// Without a declared end, less heat than this is not relied on to get through food. Common practice, no source.
const SHORTEST_HEAT: Duration = Duration::from_seconds(15.0 * 60.0);

/// Does this heat start the time out of the heat and the cold afresh?
pub(super) fn clock(report: &Report, lot: &Lot, phase: &Phase, heat: &Heat) -> Afresh {
    if heat.sure.is_some_and(|core| counts_as_hot(report, core)) {
        return Afresh::Restarts;
    }
    if tepid(report, phase) {
        return Afresh::RunsOn;
    }
    let weak = match heat.most {
        Some(most) if lot.cooked => !counts_as_hot(report, most) || !reheats(report, most),
        // Raw food in a bath is hot for hours at what would not reheat it; an end says how hot it gets.
        Some(most) => heat.sure.is_some() && !counts_as_hot(report, most),
        None => false,
    };
    let short = heat.sure.is_none() && heat.longest < SHORTEST_HEAT;
    if weak || short { Afresh::Doubtful } else { Afresh::Perhaps }
}

/// Food that was cooked may get hot enough again at this, as far as the set says.
fn reheats(report: &Report, most: Temperature) -> bool {
    let mut limits = report
        .rules()
        .filter_map(|rule| match &rule.demand {
            Demand::Reheat { points, bought_cooked: false, after: None, .. } => Some((rule, points)),
            _ => None,
        })
        .flat_map(|(rule, points)| points.iter().map(|point| (rule.strict, point.limit())))
        .peekable();
    limits.peek().is_none() || limits.any(|(strict, limit)| limit.at_least(most, strict))
}

/// Cured or fermented in the warm: salt, acid and drying may keep it, and are not judged yet.
/// `acid` where the phase itself is to end on a figure that is acid, on the writer's word.
pub(super) fn hurdled(report: &mut Report, lot: &mut Lot, about: About, acid: bool) {
    let phase = report.cook.phase(about.phase);
    let kept = |at| counts_as_hot(report, at) || counts_as_cold(report, at);
    let set = setting(report.cook, phase);
    // A fridge that is said to be warm is no fridge.
    if phase.damaged || set.map_or(in_the_cold(report.cook, phase), |setting| kept(setting.at)) {
        return;
    }
    let times = times(phase);
    lot.out_perhaps = lot.out_perhaps + times.longest;
    lot.unproved = lot.unproved + times;
    let all = lot.out + lot.unproved;
    let ferments = phase.purpose == Purpose::Ferment;
    // Raw plants are fermented as they are; what was cooked or comes of an animal has nothing to keep it yet.
    let doubtful = if ferments { (lot.is_raw() || lot.cooked) && !acid } else { lot.is_raw() || lot.cooked };
    for (rule, limit, clock) in allowance::rules(report, lot) {
        let why = say!["Whether salt, acid or drying keeps it outside the cold is not judged yet."];
        report.judged(&rule.id, Verdict::NotJudged, about, why);
        let time = match clock {
            Clock::LeavingControl => all.planned,
            Clock::PassingLimit => all.shortest,
        };
        // Cold smoke of raw food after a salted cure is a hurdle of its own. Smoke beside the cure is not, nor is it
        // one for food that was cooked, or that no cure keeps.
        let smoked = phase.smoke.is_some() && phase.purpose == Purpose::Cook && cures(lot);
        if time <= limit || !doubtful || smoked {
            continue;
        }
        let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
        let kept = if lot.is_raw() { "raw and outside the cold" } else { "outside the heat and the cold" };
        let proof = if ferments { "an acid that is" } else { "a cure that is" };
        let message = say![
            format!("With `{name}`, `{food}` is {kept} for "),
            time,
            format!(". Without {proof} proved to keep it, that is too long"),
        ]
        .followed_by(allowance::allowed(report, rule, limit));
        let remedy = if ferments {
            say![
                "Ferment it in the fridge, or end the phase on a figure that you measure, such as `until pH 4.1`. \
                 A ferment does not make cooked food, meat, fish, egg or milk keep by its name."
            ]
        } else {
            say!["Cure it in the fridge."]
        };
        let fault = Fault::new(Code::TimeWithoutControl, phase.lasts_span, message, remedy);
        report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
    }
}

/// Raw food, all of a kind that a cure may keep, and cured.
fn cures(lot: &Lot) -> bool {
    !lot.cooked && lot.needs.iter().all(|need| need.is_plant() || raw::hurdle_may_do(lot, need))
}

/// A spell in the room, and where to say that it is too long.
pub(super) struct Spell {
    pub times: Times,
    /// How the sentence opens, before the name of the phase: `With` it, or `Before` it.
    pub opens: &'static str,
    pub span: Span,
    pub also: Vec<(Span, Text)>,
    /// Nothing else in the file lets it be shorter.
    pub certain: bool,
}

/// Counts a phase, and says so once the food has been out for too long.
pub(super) fn count(report: &mut Report, lot: &mut Lot, about: About) {
    let phase = report.cook.phase(about.phase);
    let (times, span) = (times(phase), phase.lasts_span);
    count_as(report, lot, about, Spell { times, opens: "With", span, also: Vec::new(), certain: true });
}

/// The same, said elsewhere.
pub(super) fn count_as(report: &mut Report, lot: &mut Lot, about: About, spell: Spell) {
    let phase = report.cook.phase(about.phase);
    match left_out(report, phase) {
        Some(false) if !phase.damaged && lukewarm(report, lot, phase) => spend(report, lot, about, spell),
        Some(false) => {}
        None => {
            in_a_box(report, lot, about, &spell);
            lot.out_perhaps = lot.out_perhaps + spell.times.longest;
            if let Some((rule, _, _)) = allowance::rules(report, lot).first() {
                let why = say![
                    "Nothing but the food's own temperature can say; that needs the predicted core temperature, and a probe."
                ];
                report.judged(&rule.id, Verdict::NotJudged, about, why);
            }
        }
        Some(true) if phase.damaged => {}
        Some(true) => spend(report, lot, about, spell),
    }
}

/// It is in a box that neither heats nor cools, for longer than food may be out of the heat and the cold, and no check
/// says how warm it is by then.
fn in_a_box(report: &mut Report, lot: &mut Lot, about: About, spell: &Spell) {
    let phase = report.cook.phase(about.phase);
    if phase.damaged || lot.out_told || kept(report, phase) {
        return;
    }
    lot.unsaid = lot.unsaid + spell.times.planned;
    let strictest = allowance::rules(report, lot)
        .into_iter()
        .min_by(|(_, one, _), (_, other, _)| one.seconds().total_cmp(&other.seconds()));
    let Some((rule, limit, _)) = strictest.filter(|(_, limit, _)| lot.unsaid > *limit) else { return };
    let message = say![
        format!("In `{}`, `{}` is in a box, and no check says that it is still hot, or cold. By its end that is so for ", report.phase_name(about.phase), report.food_name(about.food)),
        lot.unsaid,
        ", and a box only slows what the room does"
    ]
    .followed_by(allowance::allowed(report, rule, limit));
    let remedy = say![
        "Keep it in the box for less, or check it as it comes out and write that down, such as `expect core 65 °C or above` \
         (or `expect core 4 °C or below`)."
    ];
    let fault = Fault::new(Code::TimeWithoutControl, spell.span, message, remedy);
    report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
    lot.out_told = true;
}

/// Food stands in the room, wherever its phase is.
pub(super) fn spend(report: &mut Report, lot: &mut Lot, about: About, spell: Spell) {
    if spell.times.longest > Duration::ZERO {
        lot.left_out(about.phase, spell.times);
    }
    if lot.out_told {
        return;
    }
    for (rule, limit, clock) in allowance::rules(report, lot) {
        let over = |time: Duration| if allowance::strict(rule) { time >= limit } else { time > limit };
        let certain = spell.certain && !lot.out_in_doubt && !allowance::is_borrowed(rule);
        if clock == Clock::PassingLimit && over(lot.out.longest) {
            let said = predicted::Said { span: spell.span, cure: mend(lot) };
            if let Some(told) = predicted::out(report, lot, about, rule, false, said) {
                lot.out_told |= told;
                continue;
            }
        }
        let severity = match clock {
            Clock::LeavingControl if over(lot.out.planned) && certain => Severity::Error,
            Clock::LeavingControl if over(lot.out.planned) => Severity::Warning,
            Clock::LeavingControl if over(lot.out.longest) && lot.out.longest.seconds().is_finite() => {
                Severity::Warning
            }
            // Its clock starts later, by how much is not declared.
            Clock::PassingLimit if over(lot.out.shortest) => Severity::Warning,
            _ => continue,
        };
        let fault = Fault { severity, ..too_long(report, lot, about, &spell, rule, limit, clock) };
        match severity {
            Severity::Error => report.broken(rule, about, fault),
            _ => {
                report.judged(&rule.id, Verdict::NotJudged, about, fault.message.clone());
                report.fault(rule, about, fault);
            }
        }
        lot.out_told = true;
    }
}

/// It waits to be used, and no phase says where or how long.
pub(super) fn not_said(report: &mut Report, lot: &Lot, about: About) {
    let Some((rule, _, _)) = allowance::rules(report, lot).first().copied() else { return };
    let why = say![
        "How long it waits in the room before it is used depends on the plan. Say where it is kept until then, in a \
         phase of its own."
    ];
    report.judged(&rule.id, Verdict::NotJudged, about, why);
}

/// The food is heated, or eaten: the verdict on the time behind it.
pub(super) fn close(report: &mut Report, lot: &Lot, about: About) {
    let Some(last) = lot.out_in.last().map(|(phase, _)| *phase).filter(|_| !lot.out_told) else { return };
    for (rule, limit, clock) in allowance::rules(report, lot) {
        let about = About { phase: last, ..about };
        if lot.began_warm {
            let why = say!["It starts neither hot nor cold; how long it was so before is not declared."];
            report.judged(&rule.id, Verdict::NotJudged, about, why);
            continue;
        }
        let longest = lot.out.longest + lot.out_perhaps;
        let within = if allowance::strict(rule) { longest < limit } else { longest <= limit };
        if allowance::is_borrowed(rule) {
            let why = say!["This set gives no time for which food may be out of the heat and the cold; "]
                .followed_by(say![longest, " are declared at most."]);
            report.judged(&rule.id, Verdict::NotJudged, about, why);
        } else if within {
            let why = say![
                "It is out of the heat and the cold for at most ",
                longest,
                " in all, by the declared times; ",
                limit,
                " are allowed.",
            ];
            report.judged(&rule.id, Verdict::Met, about, why);
            deadline::out(report, lot, about, rule, limit);
        } else {
            let span = report.cook.phase(last).lasts_span;
            let said = predicted::Said { span, cure: mend(lot) };
            if clock == Clock::PassingLimit && predicted::out(report, lot, about, rule, true, said).is_some()
            {
                continue;
            }
            let why = match clock {
                Clock::LeavingControl if longest.seconds().is_finite() => {
                    say![
                        "Whether what came in between kept it, or started the time afresh, needs the prediction."
                    ]
                }
                Clock::LeavingControl => {
                    say!["How long it is out is not declared; add a time to each phase on the bench."]
                }
                Clock::PassingLimit => {
                    say!["When the food passes the limit needs its predicted temperature."]
                }
            };
            report.judged(&rule.id, Verdict::NotJudged, about, why);
        }
    }
}

fn too_long(
    report: &Report,
    lot: &Lot,
    about: About,
    spell: &Spell,
    rule: &Rule,
    limit: Duration,
    clock: Clock,
) -> Fault {
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let time = match clock {
        Clock::PassingLimit => lot.out.shortest,
        Clock::LeavingControl if lot.out.planned > limit => lot.out.planned,
        Clock::LeavingControl => lot.out.longest,
    };
    let mut message: Text =
        say![format!("{} `{name}`, `{food}` is out of the heat and the cold for ", spell.opens)];
    message.push(time);
    let others: Vec<String> = lot
        .out_in
        .iter()
        .map(|(phase, _)| phase)
        .filter(|phase| **phase != about.phase)
        .map(|phase| format!("`{}`", report.phase_name(*phase)))
        .collect();
    if !others.is_empty() {
        message.push(format!(", with {}", others.join(", ")));
    }
    message = message.followed_by(allowance::allowed(report, rule, limit));
    let also = spell.also.clone();
    Fault { also, ..Fault::new(Code::TimeWithoutControl, spell.span, message, mend(lot)) }
}

fn mend(lot: &Lot) -> Text {
    let mut remedy = say![
        "Keep it for less, or in the fridge, or hot. If it keeps in a cupboard, say why: its kind, such as \
         `becomes loaf is white bread` in the phase that bakes it, or how acid it is, such as `pH 3.5`.",
    ];
    if lot.under_oil {
        remedy.push(
            " Garlic, herbs and vegetables under oil do not keep in the room: without air and without acid, what \
             causes botulism grows there unseen.",
        );
    }
    if lot.out_in_doubt {
        remedy.push(
            " If it is heated through in between, end that phase on it, such as `until core 75 °C`; as it is written \
             it may never get hot. What has grown by then may leave a poison that heat does not undo.",
        );
    }
    remedy
}
