//! Smoke: made where it can be made, and led outside.
//!
//! Smouldering wood gives off carbon monoxide, which has neither colour nor smell (US Consumer
//! Product Safety Commission, warnings on burning charcoal indoors).

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::{one, placed, quoted};
use crate::cook::{Cook, KitId};
use crate::findings::{Code, Finding};
use crate::say;

pub(super) fn check(cook: &Cook) -> Vec<Finding> {
    let mut findings = Vec::new();
    // The way out for the smoke is a fact of the cabinet: one finding for all that is smoked in it.
    let mut unvented: BTreeMap<KitId, Finding> = BTreeMap::new();
    for (_, phase, kit) in placed(cook) {
        let (Some(smoke), Some(place)) = (&phase.smoke, &phase.place) else { continue };
        let name = quoted(&kit.name.value);
        if !kit.class.smokes {
            findings.push(
                Finding::new(
                    Code::SmokeNotHad,
                    smoke.span,
                    say![name, " is ", one(kit.class.base_name()), ", which makes no smoke."],
                    say!["Smoke in a smoking cabinet, or take this line out."],
                )
                .in_phase(&phase.name),
            );
            continue;
        }
        if kit.vented {
            continue;
        }
        match unvented.entry(place.value) {
            Entry::Occupied(mut entry) => {
                entry.get_mut().also.push((smoke.span, say!["and smoke is made here"]));
            }
            Entry::Vacant(entry) => {
                entry.insert(
                    Finding::new(
                        Code::SmokeUnvented,
                        smoke.span,
                        say![
                            "Nothing says that the smoke of ",
                            name.clone(),
                            " is led outside. Smoke carries carbon monoxide, which kills and cannot be smelt."
                        ],
                        say![
                            "If a flue or hood takes it outside, add `vented` to the block of ",
                            name,
                            ". If nothing does, do not smoke indoors; an open window is not enough."
                        ],
                    )
                    .also(kit.span, say!["this kit is not said to be vented"])
                    .in_phase(&phase.name),
                );
            }
        }
    }
    findings.extend(unvented.into_values());
    findings
}
