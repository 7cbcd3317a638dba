//! Two foods in one place at one time need one setting.

use std::collections::BTreeMap;

use super::moments::{Moments, Presence};
use super::settings::ROUNDING;
use super::{placed, quoted};
use crate::cook::{Cook, KitId, PhaseId, Setting};
use crate::findings::{Code, Finding};
use crate::say;

pub(super) fn check(cook: &Cook, moments: &Moments) -> Vec<Finding> {
    let mut by_kit: BTreeMap<KitId, BTreeMap<PhaseId, Setting>> = BTreeMap::new();
    for (id, phase, kit) in placed(cook) {
        // On a hob every pan has a setting of its own.
        if let (Some(place), Some(setting), false) = (&phase.place, phase.setting, kit.class.own_settings) {
            by_kit.entry(place.value).or_default().insert(id, setting);
        }
    }
    let clashes = by_kit.iter().flat_map(|(kit, settings)| {
        clashes(settings, moments).into_iter().map(|(later, earlier)| {
            clash_of(cook, *kit, (later, &settings[&later]), (earlier, &settings[&earlier]))
        })
    });
    clashes.collect()
}

/// For each phase the first one it clashes with, the later in the file first.
fn clashes(settings: &BTreeMap<PhaseId, Setting>, moments: &Moments) -> BTreeMap<PhaseId, PhaseId> {
    let mut clashes = BTreeMap::new();
    let mut going_on: Vec<(Presence, &Setting)> = Vec::new();
    for next in moments.presences(settings.keys().copied()) {
        let setting = &settings[&next.phase];
        going_on.retain(|(one, _)| one.meets(&next));
        for (one, other) in &going_on {
            if one.phase != next.phase && differ(setting, other) {
                clashes.entry(one.phase.max(next.phase)).or_insert(one.phase.min(next.phase));
            }
        }
        going_on.push((next, setting));
    }
    clashes
}

fn differ(a: &Setting, b: &Setting) -> bool {
    a.medium != b.medium || (a.temperature - b.temperature).kelvin().abs() > ROUNDING.kelvin()
}

fn clash_of(cook: &Cook, kit: KitId, later: (PhaseId, &Setting), earlier: (PhaseId, &Setting)) -> Finding {
    let name = quoted(&cook.kit(kit).name.value);
    let (phase, other) = (cook.phase(later.0), cook.phase(earlier.0));
    let span = if later.1.kept { phase.name_span } else { later.1.span };
    Finding::new(
        Code::SettingsClash,
        span,
        say![
            name.clone(),
            " is needed at ",
            later.1.medium.word(),
            " ",
            later.1.temperature,
            " for ",
            quoted(&phase.name),
            " and at ",
            earlier.1.medium.word(),
            " ",
            earlier.1.temperature,
            " for ",
            quoted(&other.name),
            " at the same time."
        ],
        say![
            "Give both the same setting, use another ",
            cook.kit(kit).class.base_name().to_owned(),
            " for one of them, or do one after the other."
        ],
    )
    .also(earlier.1.span, say!["the other setting"])
    .in_phase(&phase.name)
}
