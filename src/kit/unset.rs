//! Kit whose setting nothing gives, where a phase depends on it.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::{is_fixed, placed, quoted};
use crate::cook::{Check, Cook, Kit, KitId, Lasts, Medium, Phase, Purpose};
use crate::findings::{Code, Finding, Severity};
use crate::quantity::{Duration, Temperature};
use crate::say;

pub(super) fn check(cook: &Cook) -> Vec<Finding> {
    let mut findings = Vec::new();
    // How cold a fridge is is a fact of the fridge: one finding for all that stands in it.
    let mut cold: BTreeMap<KitId, Finding> = BTreeMap::new();
    for (_, phase, kit) in placed(cook) {
        let Some(severity) = missed(phase, kit) else { continue };
        let (name, example) = (quoted(&kit.name.value), example(phase, kit));
        let Some((medium, usual)) = example else { continue };
        let finding = if kit.class.cold {
            Finding::new(
                Code::SettingMissing,
                phase.name_span,
                say!["Nothing says how cold ", name.clone(), " is."],
                say![
                    "Add its temperature to the block of ",
                    name,
                    ", such as `",
                    medium.word(),
                    " ",
                    usual,
                    "`."
                ],
            )
        } else {
            Finding::new(
                Code::SettingMissing,
                phase.name_span,
                say!["Nothing says what ", name, " is set to in ", quoted(&phase.name), "."],
                say!["Add a line with the setting, such as `", medium.word(), " ", usual, "`."],
            )
        };
        let finding = finding.with_severity(severity).in_phase(&phase.name);
        match phase.place.as_ref().filter(|_| kit.class.cold).map(|place| cold.entry(place.value)) {
            Some(Entry::Vacant(entry)) => {
                entry.insert(finding);
            }
            Some(Entry::Occupied(mut entry)) => {
                entry.get_mut().also.push((phase.name_span, say!["it is needed here too"]));
            }
            None => findings.push(finding),
        }
    }
    findings.extend(cold.into_values());
    findings.extend(placed(cook).filter_map(|(_, phase, kit)| left_on(phase, kit)));
    findings
}

/// Hotter than any room: food that stands here is being heated.
pub(super) const NO_ROOM_C: f64 = 45.0;

/// A setting lasts until another is named. Whoever writes that food rests where it was cooked may well
/// mean that the heat is off, and then it stands lukewarm for hours.
fn left_on(phase: &Phase, kit: &Kit) -> Option<Finding> {
    let setting =
        phase.setting.filter(|setting| setting.kept && setting.temperature.celsius() > NO_ROOM_C)?;
    if phase.damaged || !matches!(phase.purpose, Purpose::Rest | Purpose::Prep | Purpose::Cool) {
        return None;
    }
    let name = quoted(&kit.name.value);
    let message = say![
        "Nothing new is said of ",
        name.clone(),
        ", so in ",
        quoted(&phase.name),
        " it stays at ",
        setting.medium.word(),
        " ",
        setting.temperature,
        "."
    ];
    let remedy = say![
        "If that is meant, write the setting in this phase too. If the heat is off, name the place where the food \
         stands instead, such as `on bench`."
    ];
    let finding = Finding::new(Code::SettingMissing, phase.name_span, message, remedy);
    Some(finding.with_severity(Severity::Warning).in_phase(&phase.name))
}

/// The longest that any set of rules lets food be neither hot nor cold: FDA Food Code 2022, 3-501.19.
const LONGEST_OUT: Duration = Duration::from_seconds(4.0 * 3600.0);

/// How much a missing setting weighs, where one is missed: heat that nobody knows cannot be judged at
/// all, cold and ripening can still be probed.
fn missed(phase: &Phase, kit: &Kit) -> Option<Severity> {
    let known = phase.setting.is_some() || kit.ranges.iter().any(is_fixed);
    if known || phase.damaged {
        return None;
    }
    if !kit.class.thermostat {
        return for_hours(phase, kit).then_some(Severity::Warning);
    }
    match phase.purpose {
        Purpose::Cook | Purpose::HotHold | Purpose::Reheat if !kit.class.cold => Some(Severity::Error),
        Purpose::Cool | Purpose::ColdHold | Purpose::Freeze if kit.class.cold => Some(Severity::Warning),
        Purpose::Thaw | Purpose::Cure | Purpose::Ferment => Some(Severity::Warning),
        _ => None,
    }
}

/// Heat without a setting and without an end, for longer than food may be out of the heat by any published set.
/// A quick pan is the cook's business; a pot that nobody is bound to keep hot for half a day is not.
fn for_hours(phase: &Phase, kit: &Kit) -> bool {
    let long = match phase.lasts {
        Lasts::Fixed(time)
        | Lasts::Chosen { high: Some(time), .. }
        | Lasts::Chosen { low: time, high: None } => time,
        Lasts::Nature { low, .. } => low,
        Lasts::Open | Lasts::Unsaid | Lasts::Serving => return false,
    };
    let checked = phase.checks.iter().any(|check| matches!(check.value, Check::Core { .. }));
    let cooks = matches!(phase.purpose, Purpose::Cook | Purpose::Reheat) && !kit.class.cold;
    cooks && !checked && phase.until.is_none() && long > LONGEST_OUT
}

/// A setting to show: what is usual for the purpose, within what the kit can do.
/// Common practice, no source.
fn example(phase: &Phase, kit: &Kit) -> Option<(Medium, Temperature)> {
    let range = kit.ranges.first()?;
    let degrees = match (phase.purpose, range.medium) {
        (Purpose::HotHold, _) => 75.0,
        (Purpose::Cook, Medium::Air) => 150.0,
        (Purpose::Reheat, Medium::Air) => 165.0,
        (Purpose::Cook | Purpose::Reheat, Medium::Oil) => 170.0,
        (Purpose::Cook | Purpose::Reheat, Medium::Water) => 65.0,
        (Purpose::Cook | Purpose::Reheat, _) => 95.0,
        (Purpose::Ferment, _) => 26.0,
        (Purpose::Freeze, _) => -20.0,
        _ => 3.0,
    };
    Some((range.medium, Temperature::from_celsius(degrees).max(range.low).min(range.high)))
}
