//! Names: what each stands for, where it is declared, and what is predicted of it.

use super::{View, typed};
use crate::cook::{Cook, Item, Kit, Origin, Phase, PhaseId};
use crate::editor::forecast::{as_predicted, cores_at_end, plan_of, why_none, worked};
use crate::editor::scope::{Scope, in_words};
use crate::output::tables::state_in_words;
use crate::output::timeline::{phase_times, reservation};
use crate::quantity::{Duration, TemperatureDifference};
use crate::resolve::named;
use crate::tables::{FoodKind, KitClass, Tables};
use crate::text::Span;

/// A piece of kit: its class, what it can be set to and where it is declared.
pub fn kit(view: &View<'_>, name: Span) -> Option<Vec<String>> {
    let scope = Scope::of(view);
    let kit = named(scope.kit, |kit| &kit.name.value, typed(view, name))?;
    let mut said = vec![format!("`{}` is a {}. {}", kit.name.value, kit.class.name, kit.class.means)];
    said.extend(settings(view, kit));
    said.extend(declared(view, kit.name.span, name));
    Some(said)
}

fn settings(view: &View<'_>, kit: &Kit) -> Option<String> {
    let scale = view.compiled.scale;
    let ranges = kit.ranges.iter().map(|range| {
        let (low, high) = (range.low.show(scale), range.high.show(scale));
        let ends = if low == high { low } else { format!("{low} to {high}") };
        let usual = if range.span.is_some() { "" } else { " (as such kit usually has it)" };
        format!("{} {ends}{usual}", range.medium.word())
    });
    let swing = kit.swing.map(|swing: TemperatureDifference| format!("swing ± {}", swing.show(scale)));
    let preheat = kit.preheat.map(|preheat: Duration| format!("preheats in {}", preheat.show()));
    let shelves = kit.shelves.map(|shelves| format!("shelves {}", shelves.value));
    let all: Vec<String> = ranges.chain(swing).chain(preheat).chain(shelves).collect();
    (!all.is_empty()).then(|| format!("It has: {}.", all.join(", ")))
}

/// Anything in the store: what it is, its row of the food table, and what is predicted of it.
pub fn stock(view: &View<'_>, name: Span) -> Option<Vec<String>> {
    let cook = Scope::of(view).cook?;
    let (id, item) = named(cook.items(), |(_, item)| &item.name, typed(view, name))?;
    let what = match item.origin {
        Origin::Food(_) => "food",
        Origin::Ingredient(_) => "an ingredient",
        Origin::Made(_) | Origin::Collected { .. } => "food",
        Origin::OnTap => "always there",
    };
    let mut said = vec![format!("`{}` is {what}: {}.", item.name, in_words(cook, item))];
    said.extend(item.kind.as_ref().map(|kind| row(&kind.value)));
    said.extend(history(view, cook, id));
    if !matches!(item.origin, Origin::OnTap) {
        said.extend(declared(view, item.span, name));
    }
    Some(said)
}

/// Its core at the end of each phase it is in.
fn history(view: &View<'_>, cook: &Cook, id: crate::cook::ItemId) -> Option<String> {
    let worked = worked(view)?;
    let item: &Item = cook.item(id);
    if let Some(curve) = worked.curves.foods.iter().find(|food| food.item == id) {
        let ends = curve.exits.iter().filter_map(|(phase, _)| {
            let (_, core) = cores_at_end(view, *phase).into_iter().find(|(food, _)| *food == curve.name)?;
            Some(format!("`{}` {core}", cook.phase(*phase).name))
        });
        return Some(format!(
            "Core at the end of each phase, predicted: {}.",
            ends.collect::<Vec<_>>().join("; ")
        ));
    }
    if let Some(none) = worked.curves.unpredicted.iter().find(|food| food.item == id) {
        return Some(format!(
            "Its temperature cannot be predicted from `{}` on: {}.",
            cook.phase(none.phase).name,
            none.because.trim_end_matches('.')
        ));
    }
    let placed = matches!(item.origin, Origin::Food(_));
    why_none(view).filter(|_| placed).map(str::to_owned)
}

/// A phase: when it is, and how warm the food gets.
pub fn phase(view: &View<'_>, name: Span) -> Option<Vec<String>> {
    let scope = Scope::of(view);
    let found = scope.phases().enumerate().filter(|(_, (_, phase))| phase.service.is_none());
    let (nth, (id, phase)) = named(found, |(_, (_, phase))| &phase.name, typed(view, name))?;
    let mut said =
        vec![format!("Phase `{}`, {}: {}", phase.name, phase.purpose.words(), phase.purpose.means())];
    said.extend(when(view, nth, id));
    said.extend(declared(view, phase.name_span, name));
    Some(said)
}

/// A serving, by the line that opens it.
pub fn serving(view: &View<'_>, line: Span) -> Vec<String> {
    let mut found = Scope::of(view).phases().enumerate();
    let same = |(_, (_, phase)): &(usize, (PhaseId, &Phase))| phase.span == line;
    found.find(same).map_or(Vec::new(), |(nth, (id, _))| when(view, nth, id))
}

fn when(view: &View<'_>, nth: usize, id: PhaseId) -> Vec<String> {
    if let Some(why) = why_none(view) {
        return vec![why.to_owned()];
    }
    let plan = plan_of(view);
    let times = plan.and_then(|plan| {
        let line = plan.phases.get(nth)?;
        let times = phase_times(&plan.clock, line)?;
        let times = as_predicted(times, &view.compiled.cooks(), line.end);
        Some([format!("By the plan it {times}."), reservation(plan)].join(" ").trim().to_owned())
    });
    let cores = cores_at_end(view, id);
    let cores = cores.iter().map(|(food, core)| format!("Core of `{food}` at its end: predicted {core}."));
    times.or_else(|| Some("It cannot be timed.".to_owned())).into_iter().chain(cores).collect()
}

/// Where the name is declared, if not here.
fn declared(view: &View<'_>, span: Span, here: Span) -> Option<String> {
    if span.file == here.file && span.range() == here.range() {
        return None;
    }
    let source = view.compiled.sources.get(span.file);
    let (line, _) = source.line_column(span.start as usize);
    let file = if span.file == view.file { String::new() } else { format!(" of {}", source.name) };
    Some(format!("Declared on line {line}{file}."))
}

/// A row of the food table, by the name that is typed.
pub fn food_kind(view: &View<'_>, words: Span) -> Option<Vec<String>> {
    let typed = typed(view, words);
    let items = Scope::of(view).cook.into_iter().flat_map(|cook| &cook.items);
    let of_item = items.filter_map(|item| item.kind.as_ref()).find(|kind| kind.span == words);
    let kind = of_item.map(|kind| kind.value.clone()).or_else(|| Tables::built_in().foods.find(typed))?;
    Some(vec![row(&kind)])
}

fn row(kind: &FoodKind) -> String {
    let note = kind.also_note.as_ref().map_or(String::new(), |note| format!(" ({note})"));
    format!(
        "`{}` in the food table: {}, {}{note}. Source: {}, {}.",
        kind.name,
        kind.species.word(),
        state_in_words(kind.state),
        kind.source_edition,
        kind.source_id
    )
}

/// A class of kit, by the name that is typed.
pub fn kit_class(view: &View<'_>, words: Span) -> Option<Vec<String>> {
    let named =
        |kit: &&Kit| kit.name.span.file == words.file && kit.span.range().contains(&(words.start as usize));
    let of_kit = Scope::of(view).kit.iter().find(named).map(|kit| kit.class.clone());
    let class = of_kit.or_else(|| Tables::built_in().kit.find(typed(view, words)))?;
    Some(class_in_words(view, &class))
}

fn class_in_words(view: &View<'_>, class: &KitClass) -> Vec<String> {
    let scale = view.compiled.scale;
    let show = |celsius| crate::quantity::Temperature::from_celsius(celsius).show(scale);
    let ranges = class.ranges.iter();
    let ranges: Vec<String> = ranges
        .map(|range| format!("{} {} to {}", range.medium.word(), show(range.low_c), show(range.high_c)))
        .collect();
    let usual = format!("Such kit usually has: {}.", ranges.join(", "));
    [class.means.clone()].into_iter().chain((!ranges.is_empty()).then_some(usual)).collect()
}
