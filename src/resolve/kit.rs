//! `kit` blocks.

use std::sync::Arc;

use super::blocks::Block;
use super::builder::Builder;
use crate::cook::{Amount, Medium};
use crate::cook::{Capacity, Kit, KitId, MediumRange};
use crate::findings::{Code, Finding};
use crate::quantity::{Duration, Share, Temperature, TemperatureDifference};
use crate::say;
use crate::syntax::ClauseKind as K;
use crate::text::{Span, Spanned};

/// Types one block and appends it to `all`.
pub fn add(builder: &mut Builder<'_>, block: &Block<'_>, name: Span, class: Span, all: &mut Vec<Kit>) {
    let typed = builder.text(class);
    let named = builder.new_name(name);
    let class = match builder.tables.kit.find(&typed.value) {
        Some(class) => class,
        // Said where its row stands.
        None if builder.tables.kit.is_left_out(&typed.value) => {
            builder.forgive(name);
            return;
        }
        None => {
            let near = builder.tables.kit.suggest(&typed.value).first().map(|name| name.to_string());
            builder.report(Finding::new(
                Code::KitClassUnknown,
                class,
                say![format!("`{}` is not a kind of kit that is known.", typed.value)],
                match near {
                    Some(near) => say![format!("Did you mean `{near}`? `dwell kit` lists them all.")],
                    None => say![
                        "`dwell kit` lists the kinds, for example `oven`, `smoking cabinet`, `water bath`."
                    ],
                },
            ));
            // What is placed in it is not reported as being nowhere.
            builder.forgive(name);
            return;
        }
    };
    if let Some(first) = builder.kit.declare(&named, KitId(all.len() as u32)) {
        let first = all.get(first.0 as usize).map(|kit| kit.name.span);
        builder.taken(name, first, "pieces of kit");
        return;
    }
    let mut kit = from_class(Spanned::new(named, name), block.head.span, class);
    let mut seen: Vec<(&'static str, Option<Medium>)> = Vec::new();
    for clause in &block.clauses {
        let key = (key_of(&clause.kind), medium_of(&clause.kind));
        if seen.contains(&key) && !key.0.is_empty() {
            builder.twice(clause, key.0);
            continue;
        }
        seen.push(key);
        match &clause.kind {
            K::Setting { medium, measure } => {
                if let Some(range) = builder.units.temperature_range(measure) {
                    kit.ranges.retain(|known| known.medium != *medium);
                    kit.ranges.push(MediumRange {
                        medium: *medium,
                        low: range.low,
                        high: range.high.unwrap_or(range.low),
                        span: Some(clause.span),
                    });
                    if let Some(swing) = builder.units.tolerance(measure) {
                        kit.swing = Some(swing);
                    }
                }
            }
            K::Swing(measure) => {
                kit.swing = builder.units.difference(measure.low(), measure.span).or(kit.swing);
            }
            K::Preheat(measure) => kit.preheat = builder.units.duration(measure).or(kit.preheat),
            K::CoolsDown(measure) => kit.cools_down = builder.units.duration(measure).or(kit.cools_down),
            K::Shelves(measure) => {
                let count = builder.units.number_range(measure, &["shelf", "shelves"]);
                kit.shelves = count.map(|count| Spanned::new(count.low, clause.span)).or(kit.shelves);
            }
            K::Holds(measure) => {
                let room = match builder.units.volume_or_mass(measure) {
                    Some(Amount::Mass(mass)) => Some(Capacity::Mass(mass)),
                    Some(Amount::Volume(volume)) => Some(Capacity::Volume(volume)),
                    _ => None,
                };
                kit.holds = room.map(|room| Spanned::new(room, clause.span));
            }
            K::Moisture(measure) => kit.moisture = builder.units.share(measure).or(kit.moisture),
            K::Room(measure) => kit.room = builder.units.temperature(measure).map(|(room, _)| room),
            K::Vented => kit.vented = true,
            K::Programmable => kit.programmable = true,
            K::Note(text) => {
                let note = builder.text(*text);
                builder.notes.push(note);
            }
            K::Allow { code, because } => builder.allow(clause, *code, *because, block.span, None),
            _ => builder.out_of_place(clause, block),
        }
    }
    all.push(kit);
}

/// Clauses that may stand once, by what they say.
fn key_of(kind: &K) -> &'static str {
    match kind {
        K::Setting { .. } => "the range",
        K::Swing(_) => "the swing",
        K::Preheat(_) => "the preheating",
        K::CoolsDown(_) => "the cooling down",
        K::Shelves(_) => "the shelves",
        K::Holds(_) => "what it holds",
        K::Moisture(_) => "the moisture",
        K::Room(_) => "the room",
        _ => "",
    }
}

fn medium_of(kind: &K) -> Option<Medium> {
    match kind {
        K::Setting { medium, .. } => Some(*medium),
        _ => None,
    }
}

/// What a class can do unless its clauses say otherwise.
fn from_class(name: Spanned<String>, span: Span, class: Arc<crate::tables::KitClass>) -> Kit {
    Kit {
        name,
        span,
        ranges: class
            .ranges
            .iter()
            .map(|range| MediumRange {
                medium: range.medium,
                low: Temperature::from_celsius(range.low_c),
                high: Temperature::from_celsius(range.high_c),
                span: None,
            })
            .collect(),
        swing: class.swing_k.map(TemperatureDifference::from_kelvin),
        preheat: class.preheat_min.map(Duration::from_minutes),
        cools_down: class.cools_down_min.map(Duration::from_minutes),
        shelves: None,
        holds: None,
        moisture: class.moisture_percent.map(|percent| Share::from_fraction(percent / 100.0)),
        vented: class.vented,
        programmable: false,
        room: None,
        imported: false,
        class,
    }
}
