//! What is said of a stretch that was held against a rule.

use super::Place;
use crate::cook::PhaseId;
use crate::findings::{CitedRule, Code, Finding, Severity, Text};
use crate::probe::told;
use crate::safety::history::{Margin, Outcome};
use crate::say;
use crate::tables::Aim;

impl Place<'_> {
    /// What a rule asks, and the figure that is held against it.
    pub(super) fn why(&self, outcome: &Outcome) -> Text {
        let mut why = say![format!("{} ", outcome.rule.asks)];
        match &outcome.measured {
            Some(measured) => {
                why = why.followed_by(say!["Here: "]).followed_by(told::figures(measured));
                if let Some(moment) = outcome.moment {
                    why = why.followed_by(say![", at "]).followed_by(told::moment(self.log, moment));
                }
                why.push(".");
            }
            None => why.push("There is no figure to hold against it."),
        }
        if let Some(because) = outcome.why {
            why.push(format!(" ({because}.)"));
        }
        if let Some(condition) = &outcome.rule.condition {
            why.push(format!(" It counts {condition}."));
        }
        why
    }

    pub(super) fn finding(&self, outcome: &Outcome) -> Finding {
        let (code, what, remedy) = self.fault(outcome);
        let mut message = say![format!("`{}`, measured: {what}: ", self.food)];
        if let Some(measured) = &outcome.measured {
            message = message.followed_by(told::figures(measured));
        }
        if let Some(moment) = outcome.moment {
            message = message.followed_by(say![", at "]).followed_by(told::moment(self.log, moment));
        }
        if let Some(because) = outcome.why {
            message.push(format!(" ({because})"));
        }
        message.push(".");
        let severity = if outcome.may_be_an_error() { Severity::Error } else { Severity::Warning };
        let phase: PhaseId = self.stretch.last;
        Finding::new(code, self.cook.phase(phase).span, message, say![remedy])
            .with_severity(severity)
            .in_phase(self.stretch.phases.clone())
            .about_food(self.food)
            .citing(CitedRule {
                id: outcome.rule.id.clone(),
                set: self.set.id.clone(),
                source: self.set.cite(outcome.rule),
            })
    }

    fn fault(&self, outcome: &Outcome) -> (Code, &'static str, &'static str) {
        let slow = outcome.measured.is_some_and(|it| matches!(it.margin, Margin::Time(_)));
        match self.aim {
            Aim::Cook => (
                Code::CookEndTooCool,
                "not hot enough for long enough to count as cooked",
                "Heat it further, in the coldest place, before anybody eats it; if it has cooled since, do not serve it.",
            ),
            Aim::ComeUp | Aim::TimeControl => (
                Code::TimeWithoutControl,
                "too long between cold and hot on the way up",
                "Heat does not undo toxins: do not serve it. Next time heat it faster, or in thinner pieces.",
            ),
            Aim::HotHold => (
                Code::HoldTooCool,
                "not kept hot",
                "Unless you can show for how short a time it was, do not serve it.",
            ),
            Aim::Cool => (
                Code::CoolTooSlow,
                "cooled too slowly",
                "Do not keep it: heat does not undo toxins and spores. Next time cool it in shallow trays or in ice.",
            ),
            Aim::ColdHold => (
                Code::HoldTooWarm,
                "not kept cold",
                "Unless you can show for how short a time it was, do not serve it.",
            ),
            Aim::ReheatNow | Aim::ReheatToHold if slow => (
                Code::ReheatTooSlow,
                "reheated too slowly, or not for long enough",
                "Do not serve it. Next time heat it fast, before it goes to where it is kept hot.",
            ),
            Aim::ReheatNow | Aim::ReheatToHold => (
                Code::ReheatTooCool,
                "not reheated hot enough",
                "Heat it further before it is served or kept hot.",
            ),
            Aim::Thaw => (
                Code::ThawTooWarm,
                "thawed too warm",
                "Unless you can show for how short a time it was, do not serve it.",
            ),
        }
    }
}
