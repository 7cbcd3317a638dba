//! How blocks and clauses read: the words that start them, each with an example.

/// Blocks: the word, and how its line reads.
pub const BLOCKS: &[(&str, &str)] = &[
    ("dwell", "dwell 1"),
    ("cook", "cook \"Title\""),
    ("kit", "kit oven is fan oven` or `kit from \"kitchen.dwell\""),
    ("food", "food shoulder is pork shoulder"),
    ("ingredient", "ingredient salt is 70 g sea salt"),
    ("phase", "phase roast is cook"),
    ("serve", "serve shoulder"),
    ("crew", "crew"),
    ("menu", "menu \"Title\""),
    ("dish", "dish \"beans.dwell\" for 40"),
];

/// Clause words in the order of the alphabet, and how a clause with that word reads.
pub const CLAUSES: &[(&str, &str)] = &[
    ("about", "about \"Pulls apart.\""),
    ("adapted", "adapted from \"a neighbour's method\""),
    ("air", "air 110 °C"),
    ("allow", "allow hold-too-cool because \"your reason\""),
    ("asleep", "asleep 23:00 to 06:30"),
    ("at", "at 18:30` or `at end do \"Save the juices.\""),
    ("away", "away 09:00 to 17:00"),
    ("bagged", "bagged"),
    ("becomes", "becomes gravy is gravy"),
    ("by", "by \"your name\""),
    ("collect", "collect 250 ml of drippings from shoulder"),
    ("contains", "contains milk and egg"),
    ("cooked", "cooked` or `cooked yield 60 %"),
    ("cools", "cools down 30 min"),
    ("core", "core 60 °C or above"),
    ("covered", "covered"),
    ("depth", "depth 6 cm"),
    ("do", "do \"Salt every face.\""),
    ("elevation", "elevation 1200 m"),
    ("ends", "ends by 12:00` or `ends when roast ends"),
    ("every", "every 45 min do \"Baste.\""),
    ("expect", "expect core 60 °C to 72 °C"),
    ("fan", "fan"),
    ("fills", "fills 2 shelves"),
    ("for", "for 5 h`, `for 8 h to 14 h` or `for up to 1 h"),
    ("from", "from \"butcher\"` or `from 12:00 to 14:00"),
    ("frozen", "frozen"),
    ("ground", "ground"),
    ("guests", "guests between 12:30 and 14:00"),
    ("hands-on", "hands-on` or `hands-on 10 min"),
    ("holds", "holds 12 kg"),
    ("injected", "injected"),
    ("intact", "intact"),
    ("liquid", "liquid 95 °C"),
    ("look", "look in every 1 h"),
    ("measures", "measures metric"),
    ("moisture", "moisture 40 %"),
    ("nitrite", "nitrite 6.25 %"),
    ("note", "note \"Two parts ice to one of water.\""),
    ("oil", "oil 175 °C"),
    ("on", "on hob` or `on hand 500 g"),
    ("ph", "pH 4.6"),
    ("plate", "plate 250 °C"),
    ("preheat", "preheat 20 min"),
    ("programmable", "programmable"),
    ("room", "room 20 °C"),
    ("rules", "rules us-food-code"),
    ("salt", "salt 2.5 %"),
    ("same", "same for any number"),
    ("sealed", "sealed in foil"),
    ("serves", "serves 16 with 170 g each"),
    ("shape", "shape slab"),
    ("shelves", "shelves 3"),
    ("smoke", "smoke from beech` or `smoke from 150 g of beech"),
    ("starts", "starts at 4 °C`, `starts at 08:00` or `starts after roast ends"),
    ("steam", "steam 100 °C"),
    ("still", "still"),
    ("surface", "surface 63 °C or above"),
    ("swing", "swing ± 5 °C"),
    ("takes", "takes 15 min to 25 min"),
    ("tenderised", "tenderised"),
    ("thickness", "thickness 11 cm ± 1 cm"),
    ("to", "to taste"),
    ("trim", "trim loss 8 %"),
    ("unattended", "unattended"),
    ("uncovered", "uncovered"),
    ("until", "until core 84 °C"),
    ("up", "up to 15 min late"),
    ("use", "use 40 g of salt` or `use all salt"),
    ("vacuum", "vacuum bagged"),
    ("vented", "vented"),
    ("water", "water 57 °C"),
    ("weight", "expect weight 80 % to 84 %"),
    ("with", "with 120 ml of water"),
    ("within", "within 90 min"),
    ("wrapped", "wrapped in paper"),
];

/// The example of the clause that starts with `word`.
pub fn keyword(word: &str) -> Option<&'static str> {
    let at = CLAUSES.binary_search_by_key(&word, |(known, _)| known).ok()?;
    CLAUSES.get(at).map(|(_, example)| *example)
}

/// The clause word that `word` is most like, if it is much like one.
pub fn nearest(word: &str) -> Option<(&'static str, &'static str)> {
    if word.chars().count() < 3 || word.len() > 40 {
        return None;
    }
    let allowed = if word.chars().count() < 6 { 1 } else { 2 };
    CLAUSES
        .iter()
        .map(|(known, example)| (strsim::osa_distance(known, word), *known, *example))
        .filter(|(distance, ..)| *distance <= allowed)
        .min_by_key(|(distance, ..)| *distance)
        .map(|(_, known, example)| (known, example))
}

#[cfg(test)]
#[test]
fn clause_words_stand_in_order() {
    assert!(CLAUSES.is_sorted_by_key(|(word, _)| *word));
}
