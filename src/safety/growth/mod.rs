//! Predicted growth above the limit that somebody has published for it: a remark, where no rule has said anything.
//!
//! The rules decide what is an error. They cannot see everything: a set may have no figure, and a course may keep to each
//! figure and still be warm for long. What is not said of a food that a finding about its time or its temperature names
//! already, is said here. Nothing is said where the figures were not measured: in cured, fermented, acid and dry food.

mod lives;

use std::collections::{BTreeMap, BTreeSet};

use lives::{Lives, Most};

use super::microbial::Line;
use crate::cook::{Cook, Phase, PhaseId, Purpose};
use crate::findings::{Code, Finding, Severity};
use crate::heat::Curves;
use crate::quantity::plain_number;
use crate::say;
use crate::tables::microbes::{GrowthLimit, Organism, Survives};

/// More than this is not told apart, log10.
const MOST_LOG10: f64 = 6.0;

/// Faults of time and temperature. Where one is found of a food, growth is what it is about.
const TIME_AND_TEMPERATURE: [Code; 11] = [
    Code::HoldTooCool,
    Code::HoldTooWarm,
    Code::HoldEnteredCold,
    Code::CookEndTooCool,
    Code::ComeUpTooSlow,
    Code::ReheatTooSlow,
    Code::CoolTooSlow,
    Code::KeptTooLong,
    Code::ThawTooWarm,
    Code::TimeWithoutControl,
    Code::RawIntoCooked,
];

/// One organism that grows further than its limit.
struct TooFar {
    organism: &'static Organism,
    limit: &'static GrowthLimit,
    most: Most,
}

/// What is predicted to grow too far in each food, beyond what `said` is about: one finding for each phase.
pub fn growth(cook: &Cook, curves: &Curves, said: &[Finding]) -> Vec<Finding> {
    let mut lives = Lives::new(cook, curves);
    let mut found = Vec::new();
    let mut told: BTreeSet<PhaseId> = BTreeSet::new();
    for food in &curves.foods {
        let mut phases: BTreeMap<PhaseId, Vec<TooFar>> = BTreeMap::new();
        for (organism, limit, most) in lives.most(food) {
            if most.log10 > limit.log10 {
                phases.entry(most.phase).or_default().push(TooFar { organism, limit, most });
            }
        }
        for (id, too_far) in phases {
            let name = &cook.phase(id).name;
            let about = |finding: &Finding| {
                TIME_AND_TEMPERATURE.contains(&finding.code)
                    && finding.severity != Severity::Note
                    && (finding.food.as_ref() == Some(&food.name) || finding.phase.as_ref() == Some(name))
            };
            if !said.iter().any(about) && told.insert(id) {
                found.push(finding(cook.phase(id), &food.name, &too_far));
            }
        }
    }
    found
}

fn finding(phase: &Phase, food: &str, too_far: &[TooFar]) -> Finding {
    let each: Vec<String> = too_far.iter().map(words).collect();
    let mut message = say![format!(
        "As predicted, more grows in `{food}` than is published as the most, nearly all of it in `{}`: {}. A prediction, \
         good to one power of ten (tenfold) either way.",
        phase.name,
        each.join("; "),
    )];
    if too_far.iter().any(|one| one.organism.survives == Some(Survives::Spores)) {
        message.push(" Spores live through any cook.");
    }
    if too_far.iter().any(|one| one.organism.survives == Some(Survives::Toxin)) {
        message.push(" A toxin that is there is not undone by heat.");
    }
    let remedy = match phase.purpose {
        Purpose::Cook | Purpose::Reheat => {
            "Get it hot sooner: smaller or thinner pieces, or a hotter start. Heat at the end undoes no toxin."
        }
        Purpose::Cool => "Cool it faster: flatter, in smaller pieces, in ice, or in a blast chiller.",
        Purpose::ColdHold | Purpose::Thaw => "Keep it colder or for less time, or freeze it.",
        _ => "Keep it hot, or cool it fast and keep it cold; or let it stand for less time.",
    };
    Finding::new(Code::GrowthAboveLimit, phase.lasts_span, message, say![remedy])
        .in_phase(phase.name.clone())
        .about_food(food)
}

/// "Clostridium perfringens 3.2 powers of ten in the core (the most is 1: …)"
fn words(TooFar { organism, limit, most }: &TooFar) -> String {
    let figure = match most.log10 > MOST_LOG10 {
        true => format!("at least {MOST_LOG10}"),
        false => plain_number(most.log10, 1),
    };
    let place = if most.along == Line::Surface { "on the surface" } else { "in the core" };
    let limit_log10 = plain_number(limit.log10, 1);
    format!("{} {figure} powers of ten {place} (the most is {limit_log10}: {})", organism.name, limit.source)
}
