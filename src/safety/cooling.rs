//! Cooling: the limits that are declared, against the stages that are published.

use super::chance::typed;
use super::declared::{Times, core_end, times};
use super::lot::Lot;
use super::report::{About, Fault, Report};
use super::{Verdict, deadline, predicted};
use crate::findings::{Code, Severity};
use crate::quantity::{Duration, Temperature};
use crate::say;
use crate::tables::{Demand, Limit, Rule};
use crate::text::Span;

/// A cooling phase of cooked food.
pub(super) fn cool(report: &mut Report, lot: &mut Lot, about: About) {
    let phase = report.cook.phase(about.phase);
    let before = lot.cooling;
    lot.cooling = lot.cooling + times(phase);
    if phase.damaged {
        return;
    }
    if before == Times::default() {
        deadline::cooling(report, lot, about);
    }
    let end = core_end(phase).map(|figure| figure.at);
    // What the phase itself allows: its limit where it has one, else the least it takes.
    let (allowed, span) = match &phase.within {
        Some(within) => (before.shortest + within.value, within.span),
        None => (lot.cooling.planned, phase.lasts_span),
    };
    let followed = predicted::follows(report, lot, about);
    if followed {
        lot.cooling_began.get_or_insert(about);
    }
    let limited = phase.within.is_some();
    let mut stages = Duration::ZERO;
    for rule in report.rules() {
        let Demand::Cool { to, max_s, further, .. } = &rule.demand else { continue };
        let max = Duration::from_seconds(*max_s) + if *further { stages } else { Duration::ZERO };
        stages = max;
        stage(report, about, rule, *to, max, Declared { end, allowed, span, limited, followed });
    }
}

/// Cooked food that goes from the heat into the cold, with no phase to cool it.
pub(super) fn put_away_hot(report: &mut Report, lot: &mut Lot, about: About, placed: Span) {
    if report.cook.phase(about.phase).damaged {
        return;
    }
    let followed = predicted::follows(report, lot, about);
    if followed {
        lot.cooling_began.get_or_insert(about);
    }
    for rule in report.rules() {
        let Demand::Cool { to, max_s, .. } = &rule.demand else { continue };
        if followed && to.is_some() {
            continue;
        }
        let max = Duration::from_seconds(*max_s);
        let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
        let asked = match to {
            Some(to) => format!("to {to} within"),
            None => "within".to_string(),
        };
        let message = say![
            format!(
                "`{food}` goes into `{name}` hot, and nothing says how fast it cools. It has to cool {asked} "
            ),
            max,
            format!(": {}.", report.cite(rule)),
        ];
        let remedy = say![format!(
            "Put a phase that `is cool` before `{name}`, with its end, such as `until core 5 °C, within 6 h`."
        )];
        report.judged(&rule.id, Verdict::NotJudged, about, message.clone());
        let fault = Fault::new(Code::CoolTooSlow, placed, message, remedy);
        report.fault(rule, about, Fault { severity: Severity::Warning, ..fault });
    }
}

#[derive(Debug, Clone, Copy)]
struct Declared {
    /// The core at which the phase ends.
    end: Option<Temperature>,
    allowed: Duration,
    span: Span,
    /// The file says how long it may take, and is held to that. How long it lasts is another matter: it may be cold
    /// long before.
    limited: bool,
    /// What the figures leave open the prediction says.
    followed: bool,
}

/// Asks the prediction how fast it cooled, once the food is cold or is taken on.
pub(super) fn settle(report: &mut Report, lot: &mut Lot) {
    if let Some(began) = lot.cooling_began.take() {
        predicted::cooled(report, lot, began);
    }
}

fn stage(report: &mut Report, about: About, rule: &Rule, to: Option<Limit>, max: Duration, said: Declared) {
    // A phase that ends colder than this stage passes it somewhere on the way.
    let passes_it = match (to, said.end) {
        (Some(to), Some(end)) => end.kelvin() < to.lowest().kelvin() - 0.01,
        (Some(_), None) if said.followed => return,
        (Some(_), None) => return needs_an_end(report, about, rule),
        (None, _) => false,
    };
    if said.allowed <= max {
        if said.followed && to.is_some() {
            return;
        }
        let why = match to {
            Some(to) => say![
                format!("Whether it gets to {to} in time needs the predicted core temperature; "),
                max,
                " are allowed."
            ],
            None => say![
                "By the declared times it takes no longer; whether it is cold by then needs the predicted core temperature."
            ],
        };
        report.judged(&rule.id, Verdict::NotJudged, about, why);
        return;
    }
    if said.followed && to.is_some() && !said.limited {
        return;
    }
    let severity = if passes_it { Severity::Warning } else { Severity::Error };
    // The first stage of a phase that goes on to the end of the last one is a matter for the curve.
    let far_colder =
        matches!((to, said.end), (Some(to), Some(end)) if to.lowest().kelvin() - end.kelvin() > 8.0);
    if far_colder && said.followed {
        return;
    }
    if far_colder {
        let why = say![
            "When it passes the first stage needs the predicted core temperature; ",
            max,
            " are allowed."
        ];
        report.judged(&rule.id, Verdict::NotJudged, about, why);
        return;
    }
    let (name, food) = (report.phase_name(about.phase), report.food_name(about.food));
    let mut message = say![format!("`{name}` allows `{food}` "), said.allowed, " to cool"];
    message.push(match to {
        Some(to) => format!(
            ". It has to be at {to} within {}, from the moment it falls below the heat: {}.",
            max.show(),
            report.cite(rule)
        ),
        None => format!(". It should be in the fridge within {}: {}.", max.show(), report.cite(rule)),
    });
    let remedy = match to {
        Some(to) => say![format!(
            "Cool it faster (flatter, in ice, in a chiller) and type `until core {}, within {}`. If it starts hotter than \
             the rule's clock does, make the first part a phase of its own.",
            typed(to),
            max.show()
        )],
        None => {
            say![format!("Cool it faster (flatter, in ice, in a chiller) and type `within {}`.", max.show())]
        }
    };
    // Where there is more than one way to cool, missing one is not yet a fault for sure.
    let severity = if rule.option.is_some() { Severity::Warning } else { severity };
    let fault = Fault { severity, ..Fault::new(Code::CoolTooSlow, said.span, message, remedy) };
    if severity == Severity::Error && !rule.advice {
        report.broken(rule, about, fault);
    } else {
        report.judged(&rule.id, Verdict::NotJudged, about, fault.message.clone());
        report.fault(rule, about, fault);
    }
}

fn needs_an_end(report: &mut Report, about: About, rule: &Rule) {
    let why = say!["No end says how cold it gets. Add one, such as `until core 5 °C, within 6 h`."];
    report.judged(&rule.id, Verdict::NotJudged, about, why);
}
