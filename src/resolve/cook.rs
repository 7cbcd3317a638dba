//! A whole cook, or a kitchen that other files share.

use super::blocks::{Block, Blocks};
use super::builder::Builder;
use super::flow::Flow;
use super::{kit, phase, stock};
use crate::cook::{
    Amount, Cook, Crew, Document, Kit, KitId, Moment, OrderBound, Phase, PhaseId, Purpose, Serves,
};
use crate::findings::{Code, Finding};
use crate::quantity::{KitchenMeasures, Length};
use crate::say;
use crate::syntax::{ClauseKind as K, Head, HeadKind};
use crate::text::{FileId, Span, Spanned};

/// What the `cook` block says.
#[derive(Default)]
struct Facts {
    title: Option<Spanned<String>>,
    about: Option<Spanned<String>>,
    by: Option<Spanned<String>>,
    adapted_from: Option<Spanned<String>>,
    serves: Option<Serves>,
    rules: Option<Spanned<String>>,
    vulnerable_guests: Option<Span>,
    elevation: Option<Spanned<Length>>,
}

/// Types all blocks of a file that is no menu.
pub fn build(builder: &mut Builder<'_>, blocks: &Blocks<'_>, file: FileId, imported: Vec<Kit>) -> Document {
    measures(builder, blocks);
    let mut facts = Facts::default();
    let mut crew: Option<Crew> = None;
    let mut items = Vec::new();
    let mut all_kit = adopt(builder, imported);
    for block in &blocks.blocks {
        match &block.head.kind {
            HeadKind::Edition { number } => edition(builder, block.head, *number),
            HeadKind::Cook { title } => {
                if facts.title.is_some() {
                    builder.taken(block.head.span, None, "titles in this file, and one is");
                }
                let title = builder.text(*title);
                cook_block(builder, block, &mut facts);
                facts.title.get_or_insert(title);
            }
            HeadKind::Kit { name, class } => kit::add(builder, block, *name, *class, &mut all_kit),
            HeadKind::Food { .. } | HeadKind::Ingredient { .. } => stock::add(builder, block, &mut items),
            HeadKind::Crew => {
                let typed = self::crew(builder, block);
                if crew.replace(typed).is_some() {
                    builder.report(Finding::new(
                        Code::ClauseTwice,
                        block.head.span,
                        say!["There are two `crew` blocks."],
                        say!["Put everybody into one."],
                    ));
                }
            }
            HeadKind::Dish { .. } | HeadKind::ServeMenu { .. } => builder.report(Finding::new(
                Code::ClauseOutOfPlace,
                block.head.span,
                say!["This is how a menu of several cooks says it, and this file is one cook."],
                say!["In a cook, name the food and write the time below it: `serve shoulder`, then `at 18:30`. A menu starts with `menu \"Title\"`."],
            )),
            _ => {}
        }
        if is_one_line(&block.head.kind) {
            for clause in &block.clauses {
                builder.out_of_place(clause, block);
            }
        }
    }
    let phases: Vec<&Block<'_>> = blocks
        .blocks
        .iter()
        .filter(|block| matches!(block.head.kind, HeadKind::Phase { .. } | HeadKind::Serve { .. }))
        .collect();
    let only_kit = facts.title.is_none()
        && phases.is_empty()
        && items.is_empty()
        && crew.is_none()
        && !blocks.block_lost;
    if only_kit {
        return Document::Kitchen(all_kit);
    }
    if facts.title.is_none() && !blocks.block_lost {
        let first = blocks.blocks.first().map_or(Span::new(file, 0, 0), |block| block.head.span);
        builder.report(Finding::new(
            Code::TitleMissing,
            first,
            say!["This file has phases or stock but does not say what it is."],
            say!["Put `cook \"Title\"` at the top."],
        ));
    }
    let serving_lost = blocks.block_lost
        || blocks.blocks.iter().any(|block| matches!(block.head.kind, HeadKind::ServeMenu { .. }));
    let (items, phases) = self::phases(builder, &phases, items, &all_kit, serving_lost);
    Document::Cook(Box::new(Cook {
        file,
        title: facts.title.unwrap_or_else(|| Spanned::new(String::new(), Span::new(file, 0, 0))),
        about: facts.about,
        by: facts.by,
        adapted_from: facts.adapted_from,
        serves: facts.serves,
        rules: facts.rules,
        vulnerable_guests: facts.vulnerable_guests,
        elevation: facts.elevation,
        scale: builder.units.scale(),
        crew,
        kit: all_kit,
        items,
        phases,
        notes: std::mem::take(&mut builder.notes),
        allows: std::mem::take(&mut builder.allows),
    }))
}

/// A head that has nothing below it.
fn is_one_line(head: &HeadKind) -> bool {
    matches!(head, HeadKind::Edition { .. } | HeadKind::KitFrom { .. })
}

/// Which cups the writer means has to be known before any figure is typed.
fn measures(builder: &mut Builder<'_>, blocks: &Blocks<'_>) {
    for block in &blocks.blocks {
        let clauses = block.clauses.iter().filter_map(|clause| match clause.kind {
            K::Measures(name) => Some(name),
            _ => None,
        });
        for name in clauses {
            let typed = builder.units.slice(name);
            builder.units.measures = match typed.to_lowercase().as_str() {
                "us" => Some(KitchenMeasures::Us),
                "imperial" => Some(KitchenMeasures::Imperial),
                "metric" => Some(KitchenMeasures::Metric),
                _ => {
                    builder.report(Finding::new(
                        Code::NameUnknown,
                        name,
                        say![format!("`{typed}` is not a set of kitchen measures.")],
                        say!["Write `measures us`, `measures imperial` or `measures metric`."],
                    ));
                    None
                }
            };
        }
    }
}

/// Kit from other files takes its name first.
pub fn adopt(builder: &mut Builder<'_>, imported: Vec<Kit>) -> Vec<Kit> {
    let mut all: Vec<Kit> = Vec::with_capacity(imported.len());
    for kit in imported {
        if builder.kit.declare(&kit.name.value, KitId(all.len() as u32)).is_none() {
            all.push(kit);
        }
    }
    all
}

pub fn edition(builder: &mut Builder<'_>, head: &Head, number: Span) {
    let typed = builder.units.slice(number);
    if typed != "1" {
        builder.report(Finding::new(
            Code::EditionUnknown,
            head.span,
            say![format!(
                "This file is written in edition {typed} of the language, and only edition 1 is known."
            )],
            say!["Write `dwell 1`, or use a newer `dwell`."],
        ));
    }
}

fn cook_block(builder: &mut Builder<'_>, block: &Block<'_>, facts: &mut Facts) {
    for clause in &block.clauses {
        match &clause.kind {
            K::Serves { people, each } => {
                let serves = builder.units.number_range(people, &["people", "guests", "portions"]);
                let Some(serves) = serves else { continue };
                if serves.high.is_some() || serves.low < 1.0 || serves.low.fract() != 0.0 {
                    builder.units.impossible(people.span, "it is a whole number of people, one or more");
                    continue;
                }
                let each = each.as_ref().and_then(|each| {
                    builder.units.amount(each).map(|amount: Amount| Spanned::new(amount, each.span))
                });
                let value = Serves { people: serves.low as u32, each, span: clause.span };
                builder.set(&mut facts.serves, Some(value), clause, "for how many it is");
            }
            K::Rules(name) => {
                let value = rules(builder, *name);
                builder.set(&mut facts.rules, value, clause, "the rules");
            }
            K::About(text) => {
                let value = Some(builder.text(*text));
                builder.set(&mut facts.about, value, clause, "what it is about");
            }
            K::By(text) => {
                let value = Some(builder.text(*text));
                builder.set(&mut facts.by, value, clause, "who wrote it");
            }
            K::AdaptedFrom(text) => {
                let value = Some(builder.text(*text));
                builder.set(&mut facts.adapted_from, value, clause, "where it comes from");
            }
            K::Measures(_) => {}
            K::Elevation(measure) => {
                let value = elevation(builder, measure).map(|height| Spanned::new(height, clause.span));
                builder.set(&mut facts.elevation, value, clause, "the elevation");
            }
            K::VulnerableGuests => {
                builder.set(&mut facts.vulnerable_guests, Some(clause.span), clause, "who it is for");
            }
            K::Note(text) => {
                let note = builder.text(*text);
                builder.notes.push(note);
            }
            K::Allow { code, because } => builder.allow(clause, *code, *because, block.span, None),
            _ => builder.out_of_place(clause, block),
        }
    }
}

fn elevation(builder: &mut Builder<'_>, measure: &crate::syntax::Measure) -> Option<Length> {
    let (height, _) = builder.units.length(measure)?;
    if height.metres() > 6000.0 {
        builder.units.impossible(measure.span, "nobody cooks dinner that high up");
        return None;
    }
    Some(height)
}

/// The name of a rule set that exists.
pub fn rules(builder: &mut Builder<'_>, name: Span) -> Option<Spanned<String>> {
    let typed = builder.units.slice(name).to_lowercase();
    if builder.rule_sets.contains(&typed) {
        return Some(Spanned::new(typed, name));
    }
    let all = builder.rule_sets.join("`, `");
    builder.report(Finding::new(
        Code::RulesUnknown,
        name,
        say![format!("There is no rule set called `{typed}`.")],
        say![format!("Those that are known are `{all}`. `dwell rules` lists them.")],
    ));
    // The writer named a set: none is assumed in its place.
    Some(Spanned::new(typed, name))
}

/// The people of a cook or menu.
pub fn crew(builder: &mut Builder<'_>, block: &Block<'_>) -> Crew {
    let mut crew = Crew { span: block.head.span, people: 1, asleep: Vec::new(), away: Vec::new() };
    let mut counted = None;
    for clause in &block.clauses {
        match &clause.kind {
            K::Amount { measure, of: None, each: false } => {
                let count =
                    builder.units.number_range(measure, &["people", "person", "cooks", "cook", "hands"]);
                if let Some(count) = count {
                    if count.high.is_some()
                        || count.low < 1.0
                        || count.low.fract() != 0.0
                        || count.low > 1000.0
                    {
                        builder.units.impossible(measure.span, "it is a whole number of people, one or more");
                        continue;
                    }
                    builder.set(&mut counted, Some(count.low as u32), clause, "how many there are");
                }
            }
            K::Asleep(from, to) | K::Away(from, to) => {
                let Some(hours) = builder.units.clock(*from).zip(builder.units.clock(*to)) else { continue };
                if hours.0 == hours.1 {
                    builder.units.impossible(clause.span, "it begins and ends at the same minute");
                    continue;
                }
                let hours = Spanned::new(hours, clause.span);
                if matches!(clause.kind, K::Asleep(..)) {
                    crew.asleep.push(hours)
                } else {
                    crew.away.push(hours)
                }
            }
            K::Note(text) => {
                let note = builder.text(*text);
                builder.notes.push(note);
            }
            K::Allow { code, because } => builder.allow(clause, *code, *because, block.span, None),
            _ => builder.out_of_place(clause, block),
        }
    }
    crew.people = counted.unwrap_or(1);
    crew
}

/// Types the phases in the order of the file, following each food.
fn phases(
    builder: &mut Builder<'_>,
    blocks: &[&Block<'_>],
    items: Vec<crate::cook::Item>,
    kit: &[Kit],
    serving_lost: bool,
) -> (Vec<crate::cook::Item>, Vec<Phase>) {
    for (nth, block) in blocks.iter().enumerate() {
        if let HeadKind::Phase { name, .. } = block.head.kind {
            // `phase cook` is named after its purpose, like any other.
            let named = builder.units.slice(name);
            let named = if named.eq_ignore_ascii_case(Purpose::Cook.words()) {
                named.to_string()
            } else {
                builder.new_name(name)
            };
            if builder.phases.declare(&named, PhaseId(nth as u32)).is_some() {
                builder.taken(name, None, "phases");
            }
        }
        builder.note_made_names(block);
    }
    let mut flow = Flow::new(items);
    let mut phases: Vec<Phase> = Vec::with_capacity(blocks.len());
    for (nth, block) in blocks.iter().enumerate() {
        phases.push(phase::build(builder, &mut flow, block, PhaseId(nth as u32), kit));
    }
    point_to_servings(builder, &mut phases);
    flow.idle(builder);
    if !phases.is_empty() && !phases.iter().any(|phase| phase.service.is_some()) && !serving_lost {
        let last = phases.last().map_or(Span::default(), |phase| phase.span);
        builder.report(Finding::new(
            Code::NothingServed,
            last,
            say!["Nothing is ever served, so there is no time to work back from."],
            say!["Add `serve` with the name of the food, and below it the time: `at 18:30`."],
        ));
    }
    (flow.items, phases)
}

/// `serving` is the first `serve` below the phase that names it.
fn point_to_servings(builder: &mut Builder<'_>, phases: &mut [Phase]) {
    let servings: Vec<usize> = (0..phases.len()).filter(|&nth| phases[nth].service.is_some()).collect();
    for (nth, phase) in phases.iter_mut().enumerate() {
        let below = servings.iter().copied().find(|&serving| serving > nth);
        let mut lost = Vec::new();
        for order in &mut phase.orders {
            let moment = match &mut order.bound {
                OrderBound::When(moment) | OrderBound::NoSooner(moment) | OrderBound::NoLater(moment) => {
                    moment
                }
                OrderBound::Before { moment, .. } | OrderBound::After { moment, .. } => moment,
                OrderBound::OnDay(_) => continue,
            };
            if let Moment::Serving(serving) = moment {
                match below {
                    Some(below) => *serving = PhaseId(below as u32),
                    None => lost.push(order.span),
                }
            }
        }
        for span in lost {
            phase.orders.retain(|order| order.span != span);
            builder.report(Finding::new(
                Code::NameUnknown,
                span,
                say!["There is no `serve` below this, so `serving` means nothing here."],
                say!["Add a `serve` block below, or name a phase or a clock time."],
            ));
        }
    }
}
