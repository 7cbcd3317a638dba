//! Kit used for what it is not made for.

use super::unset::NO_ROOM_C;
use super::{one, placed, quoted};
use crate::cook::{Cook, Kit, Medium, Origin, Phase, Placing, Purpose};
use crate::findings::{Code, Finding};
use crate::quantity::Temperature;
use crate::say;
use crate::tables::{Species, Unfit, UnfitUse};

pub(super) fn check(cook: &Cook) -> Vec<Finding> {
    placed(cook)
        .flat_map(|(_, phase, kit)| {
            let wrong = wrong_kind(phase, kit);
            let unfit = kit.class.unfit.iter().filter_map(|unfit| held_against(cook, phase, kit, unfit));
            let spits = frozen_into_oil(cook, phase, kit);
            wrong.into_iter().chain(unfit).chain(spits).chain(cools_in_heat(phase, kit)).collect::<Vec<_>>()
        })
        .collect()
}

/// Heat from a fridge, cold from an oven, food on a thermometer.
fn wrong_kind(phase: &Phase, kit: &Kit) -> Option<Finding> {
    let class = &kit.class;
    let above_freezing = |lowest: f64| kit.ranges.iter().all(|range| range.low.celsius() > lowest);
    let remedy = match phase.purpose {
        _ if !class.holds_food => "Name the place where the food is, such as `in oven` or `on bench`.",
        Purpose::Cook | Purpose::HotHold | Purpose::Reheat if class.cold => {
            "Name kit that heats, or change what the phase is for."
        }
        Purpose::ColdHold if class.thermostat && !class.cold => {
            "Name kit that cools, such as a fridge, or change what the phase is for."
        }
        Purpose::Freeze if !class.cold => "Name a freezer or a blast chiller.",
        // Food starts to freeze a little below 0 °C: about -2 °C for meat (ASHRAE Handbook -
        // Refrigeration, initial freezing points; from memory).
        Purpose::Freeze if class.cold && above_freezing(-2.0) => "Name a freezer or a blast chiller.",
        _ => return None,
    };
    let place = phase.place.as_ref()?;
    let message = if class.holds_food {
        say![
            quoted(&kit.name.value),
            " is ",
            one(class.base_name()),
            ", which cannot ",
            phase.purpose.words(),
            "."
        ]
    } else {
        say![quoted(&kit.name.value), " is ", one(class.base_name()), ": food cannot be put in it."]
    };
    Some(Finding::new(Code::KitUnfit, place.span, message, say![remedy]).in_phase(&phase.name))
}

fn held_against(cook: &Cook, phase: &Phase, kit: &Kit, unfit: &Unfit) -> Option<Finding> {
    let finding = match unfit.used_for {
        UnfitUse::Cook if phase.purpose == Purpose::Cook => {
            say![quoted(&kit.name.value), " is ", one(kit.class.base_name()), ", which cannot cook."]
        }
        UnfitUse::Reheat if phase.purpose == Purpose::Reheat => {
            say![
                quoted(&kit.name.value),
                " is ",
                one(kit.class.base_name()),
                ", which must not be used to reheat."
            ]
        }
        UnfitUse::Frozen if heats(phase, kit) => return frozen_into(cook, phase, kit, &unfit.because),
        _ => return None,
    };
    let place = phase.place.as_ref()?;
    Some(Finding::new(Code::KitUnfit, place.span, finding, say![unfit.because.clone()]).in_phase(&phase.name))
}

fn cools_in_heat(phase: &Phase, kit: &Kit) -> Option<Finding> {
    let heated =
        phase.setting.filter(|setting| !setting.kept && setting.temperature.celsius() > NO_ROOM_C)?;
    if phase.damaged || phase.purpose != Purpose::Cool {
        return None;
    }
    let message = say![
        "Food is to cool in ",
        quoted(&phase.name),
        ", and ",
        quoted(&kit.name.value),
        " is set to ",
        heated.temperature,
        "."
    ];
    let remedy =
        say!["Name kit that cools, such as a blast chiller or an ice bath, or take the setting out."];
    Some(Finding::new(Code::KitUnfit, heated.span, message, remedy).in_phase(&phase.name))
}

/// A fryer, or a pan of oil on a hob. USDA Food Safety and Inspection Service, deep fat frying: thaw fully
/// first (from memory).
fn frozen_into_oil(cook: &Cook, phase: &Phase, kit: &Kit) -> Option<Finding> {
    phase.setting.filter(|setting| setting.medium == Medium::Oil)?;
    let because = "Ice boils at once in hot oil and throws it out of the pan, where it burns people and catches fire. \
                   Thaw the food fully and dry it first. If it is sold to be fried from frozen: \
                   `allow kit-unfit because \"…\"`.";
    frozen_into(cook, phase, kit, because)
}

fn frozen_into(cook: &Cook, phase: &Phase, kit: &Kit, because: &str) -> Option<Finding> {
    let placing = phase.placings.iter().find(|placing| goes_in_frozen(cook, placing))?;
    let food = &cook.item(placing.item).name;
    let message = say![quoted(food), " goes into ", quoted(&kit.name.value), " frozen."];
    let finding = Finding::new(Code::KitUnfit, placing.span, message, say![because.to_string()]);
    Some(finding.in_phase(&phase.name).about_food(food))
}

fn heats(phase: &Phase, kit: &Kit) -> bool {
    !kit.class.cold && matches!(phase.purpose, Purpose::Cook | Purpose::HotHold | Purpose::Reheat)
}

/// Bought frozen, and until now only ever kept below freezing. Vegetables and grain are left out: the
/// advice is about meat, fish and the like.
fn goes_in_frozen(cook: &Cook, placing: &Placing) -> bool {
    let item = cook.item(placing.item);
    let Origin::Food(stock) = &item.origin else { return false };
    let plant = item
        .kind
        .as_ref()
        .is_some_and(|kind| matches!(kind.value.species, Species::Vegetable | Species::Grain));
    if plant {
        return false;
    }
    let mut before = placing.before;
    while let Some(id) = before {
        let phase = cook.phase(id);
        let kept_frozen =
            phase.setting.is_some_and(|setting| setting.temperature < Temperature::from_celsius(0.0))
                || phase.place.as_ref().is_some_and(|place| {
                    let ranges = &cook.kit(place.value).ranges;
                    !ranges.is_empty() && ranges.iter().all(|range| range.high.celsius() < 0.0)
                });
        if !kept_frozen {
            return false;
        }
        before = earlier(phase, placing, id);
    }
    stock.frozen.is_some()
}

/// The phase that had the same food before `phase`. Phases only ever follow earlier ones; anything
/// else would go round for ever.
fn earlier(phase: &Phase, placing: &Placing, id: crate::cook::PhaseId) -> Option<crate::cook::PhaseId> {
    phase.placings.iter().find(|other| other.item == placing.item)?.before.filter(|before| *before < id)
}
