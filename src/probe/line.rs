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

/// The phases that it goes through, servings left out, in the order of the file.
pub(super) fn phases<'c>(cook: &'c Cook, line: &[ItemId]) -> Vec<(PhaseId, &'c Phase)> {
    let holds = |phase: &Phase| phase.placings.iter().any(|placing| line.contains(&placing.item));
    cook.phases().filter(|(_, phase)| phase.purpose != Purpose::Serve && holds(phase)).collect()
}
