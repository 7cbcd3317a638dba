//! The names that can be used at a place in a file.

use std::collections::BTreeSet;

use super::View;
use crate::cook::{Amount, Cook, Document, Item, ItemId, Kit, Origin, Part, Phase, PhaseId, Placing, Stock};

/// What is known of the file that is asked about.
#[derive(Debug, Clone, Copy)]
pub struct Scope<'v> {
    pub kit: &'v [Kit],
    pub cook: Option<&'v Cook>,
}

impl<'v> Scope<'v> {
    pub fn of(view: &View<'v>) -> Self {
        match &view.compiled.document {
            Some(Document::Cook(cook)) if cook.file == view.file => Self { kit: &cook.kit, cook: Some(cook) },
            Some(Document::Menu(menu)) if menu.file == view.file => Self { kit: &menu.kit, cook: None },
            Some(Document::Menu(menu)) => {
                let dish = menu.dishes.iter().map(|dish| &dish.cook).find(|cook| cook.file == view.file);
                Self { kit: dish.map_or(&[], |cook| &cook.kit), cook: dish }
            }
            Some(Document::Kitchen(kit)) => Self { kit, cook: None },
            Some(Document::Cook(_)) | None => Self { kit: &[], cook: None },
        }
    }

    /// Phases and servings, with their ids.
    pub fn phases(&self) -> impl Iterator<Item = (PhaseId, &'v Phase)> + use<'v> {
        self.cook.into_iter().flat_map(Cook::phases)
    }

    /// What there is as the block that starts at `block` begins, in order of appearance.
    pub fn store(&self, block: usize) -> Vec<&'v Item> {
        let Some(cook) = self.cook else { return Vec::new() };
        let above = |id: PhaseId| (cook.phase(id).span.start as usize) < block;
        let whole = |placing: &&Placing| matches!(placing.part, Part::Whole | Part::Rest);
        let into_another = cook.phases().filter(|(id, phase)| phase.becomes.is_some() && above(*id));
        let gone: BTreeSet<ItemId> = into_another
            .flat_map(|(_, phase)| phase.placings.iter().filter(whole).map(|placing| placing.item))
            .collect();
        let there = |item: &Item| match item.origin {
            Origin::Food(_) | Origin::Ingredient(_) => true,
            Origin::Made(phase) | Origin::Collected { phase, .. } => above(phase),
            Origin::OnTap => false,
        };
        let items = cook.items().filter(|(id, item)| there(item) && !gone.contains(id));
        items.map(|(_, item)| item).collect()
    }
}

/// What a stock line or a phase says that it is, in a few words.
pub fn in_words(cook: &Cook, item: &Item) -> String {
    let amount = |stock: &Stock| {
        let amount = stock.amount.as_ref().map(|amount| amount.value.show());
        let words = [amount, Some(stock.description.clone())].into_iter().flatten();
        words.filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" of ")
    };
    let kind = item.kind.as_ref().map_or(String::new(), |kind| format!(", {}", kind.value.name));
    match &item.origin {
        Origin::Food(stock) => amount(stock),
        Origin::Ingredient(stock) => match (&stock.amount, stock.to_taste) {
            (Some(amount), _) if counted(&amount.value) => amount.value.show(),
            (_, Some(_)) => format!("{}, to taste", stock.description),
            _ => amount(stock),
        },
        Origin::Made(phase) => format!("made in `{}`{kind}", cook.phase(*phase).name),
        Origin::Collected { phase, .. } => format!("collected in `{}`{kind}", cook.phase(*phase).name),
        Origin::OnTap => "from the tap, the machine or the drawer".into(),
    }
}

/// The word after a bare count says already what it is.
fn counted(amount: &Amount) -> bool {
    matches!(amount, Amount::Count { .. })
}
