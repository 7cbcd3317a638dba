//! Where each food has been: the graph of states, built phase by phase in the order of the file.

use std::sync::Arc;

use super::blocks::Block;
use super::builder::Builder;
use super::names::folded;
use crate::cook::{Becomes, Item, ItemId, KitId, Origin, Part, Phase, PhaseId, Setting};
use crate::findings::{Code, Finding};
use crate::say;
use crate::tables::FoodKind;
use crate::text::{Span, Spanned};

mod checks;

/// What is always there and needs no stock line.
pub const ON_TAP: [&str; 3] = ["water", "ice", "foil"];

/// Where an item is now.
#[derive(Debug, Clone, Copy, Default)]
struct State {
    /// The last phase that had it.
    phase: Option<PhaseId>,
    /// The phase in which all of it became something else.
    gone: Option<PhaseId>,
    place: Option<KitId>,
    setting: Option<Setting>,
    touched: bool,
}

/// A food that a phase makes or collects, as its clause names it.
#[derive(Debug, Clone)]
pub struct Named {
    pub name: Span,
    pub kind: Option<Spanned<Arc<FoodKind>>>,
    /// The whole clause.
    pub span: Span,
}

/// Where something was before the phase that now takes it.
#[derive(Debug, Clone, Copy)]
pub struct Before {
    pub phase: Option<PhaseId>,
}

/// The store over time.
#[derive(Debug, Default)]
pub struct Flow {
    pub items: Vec<Item>,
    states: Vec<State>,
}

impl Flow {
    /// Starts with what is bought.
    pub fn new(items: Vec<Item>) -> Self {
        let states = vec![State::default(); items.len()];
        Self { items, states }
    }

    fn state(&mut self, item: ItemId) -> &mut State {
        &mut self.states[item.0 as usize]
    }

    fn item(&self, item: ItemId) -> &Item {
        &self.items[item.0 as usize]
    }

    fn push(&mut self, item: Item, phase: Option<PhaseId>) -> ItemId {
        self.items.push(item);
        self.states.push(State { phase, ..State::default() });
        ItemId(self.items.len() as u32 - 1)
    }

    /// Water, ice and foil come into the store when they are first drawn.
    pub fn on_tap(&mut self, builder: &mut Builder<'_>, name: Span) {
        let word = builder.units.slice(name).to_lowercase();
        if ON_TAP.contains(&word.as_str()) && builder.items.find(&word).is_none() {
            let id =
                self.push(Item { name: word.clone(), span: name, kind: None, origin: Origin::OnTap }, None);
            builder.items.declare(&word, id);
        }
    }

    /// The phase that last had the item, if it can still be had.
    pub fn before(
        &mut self,
        builder: &mut Builder<'_>,
        item: ItemId,
        span: Span,
        phase: PhaseId,
    ) -> Option<Before> {
        let state = *self.state(item);
        if let Some(gone) = state.gone.filter(|gone| *gone != phase) {
            let name = self.item(item).name.clone();
            let into = self.items.iter().find(|other| other.origin == Origin::Made(gone));
            let remedy = match into {
                Some(into) => say![format!("From there on it is called `{}`.", into.name)],
                None => say!["Name what it became."],
            };
            builder.report(Finding::new(
                Code::FoodEatenUp,
                span,
                say![format!("There is no `{name}` left: all of it became something else.")],
                remedy,
            ));
            return None;
        }
        self.state(item).touched = true;
        // What a phase makes or collects does not exist yet as it starts.
        let made_here = match self.item(item).origin {
            Origin::Made(made) | Origin::Collected { phase: made, .. } => made == phase,
            _ => false,
        };
        if made_here {
            builder.too_early(span, &self.item(item).name.clone());
            return None;
        }
        Some(Before { phase: state.phase })
    }

    /// `becomes NAME`: from the start of the phase, all that is placed or used in it is one food.
    pub fn make(&mut self, builder: &mut Builder<'_>, named: Named, phase: PhaseId) -> Option<Becomes> {
        let span = named.span;
        let item = self.declare(builder, named, Origin::Made(phase), phase)?;
        Some(Becomes { item, span })
    }

    /// `collect … of NAME`: the new item and its parent. The parent has to be one food.
    pub fn collect(
        &mut self,
        builder: &mut Builder<'_>,
        named: Named,
        id: PhaseId,
        from: Option<ItemId>,
        phase: &Phase,
    ) -> Option<(ItemId, Option<ItemId>)> {
        let span = named.span;
        let parent = match (from, phase.becomes, phase.placings.as_slice()) {
            (Some(from), becomes, placings) => {
                let here = becomes.is_some_and(|made| made.item == from)
                    || placings.iter().any(|placing| placing.item == from);
                if !here && !phase.damaged {
                    let name = self.item(from).name.clone();
                    builder.report(Finding::new(
                        Code::FoodUnclear,
                        span,
                        say![format!("`{name}` is not in this phase, so nothing can be collected from it.")],
                        say!["Name a food that is placed in this phase."],
                    ));
                }
                Some(from)
            }
            (None, Some(made), _) => Some(made.item),
            (None, None, [one]) => Some(one.item),
            (None, None, []) => None,
            (None, None, _) => {
                builder.report(Finding::new(
                    Code::FoodUnclear,
                    span,
                    say!["There are several foods in this phase, and it is not said which one gives this."],
                    say![format!("Add `from {}`.", self.item(phase.placings[0].item).name)],
                ));
                None
            }
        };
        let item = self.declare(builder, named, Origin::Collected { phase: id, from: parent }, id)?;
        Some((item, parent))
    }

    fn declare(
        &mut self,
        builder: &mut Builder<'_>,
        named: Named,
        origin: Origin,
        phase: PhaseId,
    ) -> Option<ItemId> {
        let Named { name, kind, .. } = named;
        let named = builder.new_name(name);
        let id = ItemId(self.items.len() as u32);
        if let Some(first) = builder.items.declare(&named, id) {
            let first = self.items.get(first.0 as usize).map(|item| item.span);
            builder.taken(name, first, "things in the store");
            return None;
        }
        builder.made_later.retain(|later| folded(later) != folded(&named));
        Some(self.push(Item { name: named, span: name, kind, origin }, Some(phase)))
    }

    /// Closes a phase: checks what its foods have to agree on, and moves them on.
    pub fn settle(&mut self, builder: &mut Builder<'_>, block: &Block<'_>, id: PhaseId, phase: &mut Phase) {
        self.check_placings(builder, phase);
        if phase.placings.is_empty() && phase.becomes.is_none() && phase.service.is_none() {
            if phase.place.is_some() && !block.damaged && !phase.damaged {
                builder.report(Finding::new(
                    Code::BecomesMissing,
                    phase.span,
                    say![format!(
                        "No food is placed in `{}`, so something has to be made in it.",
                        phase.name
                    )],
                    say![
                        "Say what it becomes: `becomes gravy is gravy`. Or name the food: `shoulder in oven`."
                    ],
                ));
            }
        } else if phase.placings.len() > 1 && phase.becomes.is_none() && phase.service.is_none() {
            self.refuse_shape(builder, phase);
        }
        self.keep_setting(phase);
        let place = phase.place.map(|place| place.value);
        let setting = phase.setting;
        for placing in phase.placings.clone() {
            let whole = matches!(placing.part, Part::Whole | Part::Rest);
            let state = self.state(placing.item);
            if whole && phase.becomes.is_some() {
                state.gone = Some(id);
            } else if whole || phase.becomes.is_none() {
                *state = State { phase: Some(id), place, setting, ..*state };
            }
        }
        // What is collected stays beside its parent, in the same medium.
        let made = phase.becomes.map(|made| made.item);
        for item in made.into_iter().chain(phase.collects.iter().map(|collect| collect.item)) {
            let state = self.state(item);
            *state = State { place, setting, ..*state };
        }
    }

    /// A setting lasts while the food stays in that kit and no other is named; a food stays where it
    /// was unless a place is named, and is served on the table.
    fn keep_setting(&mut self, phase: &mut Phase) {
        let Some(place) = phase.place else { return };
        if phase.setting.is_some() {
            return;
        }
        let mut kept: Option<Setting> = None;
        for placing in &phase.placings {
            let state = self.states[placing.item.0 as usize];
            if state.place != Some(place.value) {
                return;
            }
            match (kept, state.setting) {
                (None, Some(setting)) => kept = Some(setting),
                (Some(kept), Some(setting)) if kept.temperature == setting.temperature => {}
                _ => return,
            }
        }
        phase.setting = kept.map(|setting| Setting { kept: true, ..setting });
    }
}
