//! The kit that a cook needs, what to set it to and when, and how long it takes to get there.

use maud::{Markup, html};

use super::Scope;
use super::marks::{Depth, heading, said, times};
use crate::compile::CompiledCook;
use crate::cook::{Cook, Kit, KitId, Phase, Setting};
use crate::quantity::{Duration, Scale};

/// Its class name in the table.
const PROBE: &str = "probe thermometer";

pub fn table(worked: &CompiledCook<'_>, scale: Scale, scope: &Scope<'_>, depth: Depth) -> Markup {
    let needed = worked.cook.kit.iter().enumerate().map(|(n, kit)| (KitId(n as u32), kit));
    let needed: Vec<_> = needed
        .filter(|(id, kit)| {
            kit.class.base_name() == PROBE || is_used(worked.cook, *id) && scope.holds_kit(*id)
        })
        .collect();
    html! {
        (heading(depth, "Kit"))
        table {
            thead { tr {
                th scope="col" { "Kit" }
                th scope="col" { "Set to" }
                th scope="col" { "Heats up in" }
            } }
            tbody { @for (id, kit) in needed { (row(worked, id, kit, scale)) } }
        }
    }
}

fn is_used(cook: &Cook, id: KitId) -> bool {
    cook.phases.iter().any(|phase| phase.place.as_ref().is_some_and(|place| place.value == id))
}

fn row(worked: &CompiledCook<'_>, id: KitId, kit: &Kit, scale: Scale) -> Markup {
    let numbered = worked.cook.phases.iter().enumerate();
    let of_kit = numbered.filter(|(_, phase)| phase.place.as_ref().is_some_and(|place| place.value == id));
    let set: Vec<(usize, &Phase, Setting)> = of_kit
        .filter_map(|(n, phase)| Some((n, phase, phase.setting.filter(|setting| !setting.kept)?)))
        .collect();
    html! {
        tr {
            td { bdi { (kit.name.value) } @if kit.class.name != kit.name.value { ", " bdi { (kit.class.name) } } }
            td {
                @if set.is_empty() { "–" } @else {
                    ul.plain { @for (n, phase, setting) in &set { li { (of_phase(worked, *n, phase, setting, scale)) } } }
                }
            }
            td {
                @match kit.preheat { Some(preheat) if !set.is_empty() && preheat > Duration::ZERO => (preheat.show()), _ => "–" }
            }
        }
    }
}

/// "smoke: air 110 °C, from 22:30 to 22:55"
fn of_phase(worked: &CompiledCook<'_>, n: usize, phase: &Phase, setting: &Setting, scale: Scale) -> Markup {
    let planned = worked.timeline.and_then(|plan| Some((plan, plan.phases.get(n)?.start?)));
    html! {
        (said(&phase.name)) ": " (setting.medium.word()) " " strong { (setting.temperature.show(scale)) }
        @if let Some(tolerance) = setting.tolerance { " ± " (tolerance.show(scale)) }
        @if let Some((plan, start)) = planned { ", starts " (times(&plan.clock, start)) }
    }
}
