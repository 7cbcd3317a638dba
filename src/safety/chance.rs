//! Could the heat that is declared satisfy a cooking rule?

use super::declared::Heat;
use super::need::Need;
use super::report::Report;
use crate::cook::{PhaseId, Purpose};
use crate::quantity::{Duration, Temperature};
use crate::tables::{Demand, Limit, Point, Rule};

/// How one point of a chart comes out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Chance {
    Never,
    Possible,
    Sure,
}

/// The cooking rules of the set for one raw food, before this purpose.
pub(super) fn rules_for<'a>(report: &Report<'a>, need: &Need, purpose: Purpose) -> Vec<&'a Rule> {
    let before = purpose.words().replace(' ', "-");
    report
        .rules()
        .filter(|rule| rule.is_about(need.subject()))
        .filter(|rule| match &rule.demand {
            Demand::Cook { then, .. } => then.as_ref().is_none_or(|then| *then == before),
            Demand::CookSurface { .. } => true,
            _ => false,
        })
        .collect()
}

/// Could the heat that is declared satisfy the rule?
pub(super) fn chance(rule: &Rule, need: &Need) -> Chance {
    match &rule.demand {
        Demand::Cook { points, .. } => {
            points.iter().map(|point| point_chance(point, rule.strict, need)).max().unwrap_or(Chance::Never)
        }
        Demand::CookSurface { surface } => {
            let declared = need.heats.iter().filter_map(|(_, heat)| heat.surface);
            let hot = |at: Temperature| surface.is_none_or(|limit| limit.at_least(at, rule.strict));
            // Without a published figure, any heat may do.
            let any = surface.is_none() || declared.into_iter().any(hot);
            if any { Chance::Possible } else { Chance::Never }
        }
        _ => Chance::Never,
    }
}

pub(super) fn point_chance(point: &Point, strict: bool, need: &Need) -> Chance {
    let limit = point.limit();
    let mut time = Duration::ZERO;
    for (at, (_, heat)) in need.heats.iter().enumerate() {
        if heat.sure.is_some_and(|sure| point.at_once() && limit.at_least(sure, strict)) {
            return Chance::Sure;
        }
        if most(need, at).is_none_or(|most| limit.at_least(most, strict)) {
            time = time + heat.longest;
        }
    }
    if time > Duration::ZERO && time >= point.hold() { Chance::Possible } else { Chance::Never }
}

/// The hottest that the core can have been in one phase of a run: a later phase that ends as the core
/// gets to a figure says that it was not there before.
pub(super) fn most(need: &Need, at: usize) -> Option<Temperature> {
    let (_, heat) = need.heats.get(at)?;
    let later = need.heats.iter().skip(at + 1).filter(|(_, later)| later.exact).filter_map(|(_, l)| l.sure);
    let cap = if heat.sure.is_some() { None } else { later.reduce(Temperature::min) };
    match (heat.most, cap) {
        (Some(most), Some(cap)) => Some(most.min(cap)),
        (most, cap) => most.or(cap),
    }
}

/// The lowest temperature that these rules let count the moment it is reached.
pub(super) fn reach_only(rules: &[&Rule]) -> Option<Limit> {
    let points = rules.iter().filter_map(|rule| match &rule.demand {
        Demand::Cook { points, .. } => Some(points),
        _ => None,
    });
    points
        .flatten()
        .filter(|point| point.at_once())
        .map(Point::limit)
        .min_by(|a, b| a.lowest().kelvin().total_cmp(&b.lowest().kelvin()))
}

/// As a cook types it.
pub(super) fn typed(limit: Limit) -> String {
    match (limit.c, limit.f) {
        (Some(c), _) => format!("{c} °C"),
        (None, Some(f)) => format!("{f} °F"),
        (None, None) => String::new(),
    }
}

pub(super) fn points(rule: &Rule) -> &[Point] {
    match &rule.demand {
        Demand::Cook { points, .. } => points,
        _ => &[],
    }
}

/// Could these heats satisfy a point? Shared with reheating.
pub(super) fn could_reach(point: &Point, strict: bool, heats: &[(PhaseId, Heat)]) -> bool {
    let limit = point.limit();
    let time: Duration = heats
        .iter()
        .filter(|(_, heat)| heat.most.is_none_or(|most| limit.at_least(most, strict)))
        .map(|(_, heat)| heat.longest)
        .sum();
    time > Duration::ZERO && time >= point.hold()
}

/// Is the kill of this need at least possible by now? What is collected earlier is raw.
pub(super) fn may_be_killed(report: &Report, need: &Need) -> bool {
    !need.untouched()
        && rules_for(report, need, Purpose::Serve).iter().any(|rule| chance(rule, need) != Chance::Never)
}
