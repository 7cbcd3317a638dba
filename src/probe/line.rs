//! A food through all that it becomes: the probe stays where it is.

use crate::cook::{Cook, ItemId, Origin, Phase, PhaseId, Purpose};

/// What it was made of first, and what becomes of it.
pub(super) fn of(cook: &Cook, item: ItemId) -> Vec<ItemId> {
    let mut line = vec![item];
    while let Origin::Made(phase) = &cook.item(line[0]).origin {
        match cook.phase(*phase).placings.first() {
            Some(placing) if !line.contains(&placing.item) => line.insert(0, placing.item),
            _ => break,
        }
    }
    loop {
        let last = line[line.len() - 1];
        let made = |phase: &&Phase| phase.placings.iter().any(|placing| placing.item == last);
        let becomes = cook.phases.iter().filter(made).find_map(|phase| phase.becomes.as_ref());
        match becomes {
            Some(becomes) if !line.contains(&becomes.item) => line.push(becomes.item),
            _ => return line,
        }
    }
}

/// The phases that it goes through, servings left out, in the order of the file. What is left of a food once a part of it
/// has become another is not in them: the probe is in that part.
pub(super) fn phases<'c>(cook: &'c Cook, line: &[ItemId]) -> Vec<(PhaseId, &'c Phase)> {
    let made_in = |item: &ItemId| match &cook.item(*item).origin {
        Origin::Made(phase) => Some(*phase),
        _ => None,
    };
    let until = |nth: usize| line.get(nth + 1).and_then(made_in);
    let holds = |id: PhaseId, phase: &Phase| {
        let mut items =
            line.iter().enumerate().filter(|(nth, _)| until(*nth).is_none_or(|until| id <= until));
        items.any(|(_, item)| phase.placings.iter().any(|placing| placing.item == *item))
    };
    cook.phases().filter(|(id, phase)| phase.purpose != Purpose::Serve && holds(*id, phase)).collect()
}
