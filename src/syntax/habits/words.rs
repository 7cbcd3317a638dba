//! Other words for what the language can say.

use super::{Piece, listed, reading};
use crate::quantity::Dimension;

/// Words for work, which belongs in `do "…"`.
const WORK: &str = "add baste brush carve check chill chop cool cover cut drain flip fold glaze let mix mop place \
    pour pull put remove rest rinse rub season shred slice spray sprinkle stir take toss trim turn wash wrap";

/// Words for what goes into a food and has to come from the store.
const ADDING: &str = "add drizzle fold mix pour rub sprinkle stir";

/// What people say, and the word for it here.
const OTHERS: &[(&str, &str)] = &[
    ("allergen", "contains"),
    ("allergens", "contains"),
    ("cover", "covered"),
    ("humidity", "moisture"),
    ("seal", "sealed"),
    ("wrap", "wrapped"),
    ("smoke with", "smoke from"),
    ("smoked with", "smoke from"),
    ("smoke using", "smoke from"),
    ("at least", "for at least"),
    ("for at most", "for up to"),
    ("for max", "for up to"),
];

/// `allergens gluten`, `smoke with beech`.
pub fn another_word(piece: &Piece<'_>) -> Option<String> {
    let lower = piece.lower.join(" ");
    OTHERS.iter().find_map(|(typed, meant)| {
        let rest = lower.strip_prefix(typed).filter(|rest| rest.is_empty() || rest.starts_with(' '))?;
        reading(format!("{meant}{rest}")).map(|fixed| format!("Write `{fixed}`."))
    })
}

/// `do stir well`, `note turn the tray`, `from butcher`, `every 20 min do stir`, `do 'stir'`.
pub fn quotes(piece: &Piece<'_>) -> Option<String> {
    let starts = piece.lower.iter().position(|word| listed("do note about by from", word))?;
    let bare = piece.rest(starts + 1);
    let bare = bare.trim_matches(['\'', '‘', '’', '"', '`']);
    let figure = bare.starts_with(|c: char| c.is_ascii_digit()) && !listed("do note", piece.word(starts));
    if bare.is_empty() || bare.contains('"') || figure {
        return None;
    }
    let before = piece.start(starts + 1);
    let fixed = reading(format!("{} \"{bare}\"", before.trim_end_matches(':')))?;
    Some(format!("What follows `{}` stands in quotes: `{fixed}`.", piece.word(starts)))
}

/// `stir every 20 minutes`, `every 20 minutes stir`.
pub fn every(piece: &Piece<'_>) -> Option<String> {
    let at = piece.lower.iter().position(|word| word == "every")?;
    let (often, work) =
        if at == 0 { (piece.start(3), piece.rest(3)) } else { (piece.rest(at), piece.start(at)) };
    let fixed = reading(format!("{often} do \"{}\"", work.trim_matches(['"', '\''])))?;
    Some(format!("Write how often first, then the work in quotes: `{fixed}`."))
}

/// `use some butter`, `collect the juices`.
pub fn vague(piece: &Piece<'_>) -> Option<String> {
    let name = piece.words.last().filter(|_| piece.figure().is_none() && piece.words.len() > 1)?;
    reading(format!("use all {name}"))?;
    match piece.first() {
        "use" => Some(format!("Say how much: `use 40 g of {name}`, or `use all {name}`.")),
        "collect" => Some(format!("Say how much you expect: `collect 250 ml of {name}`.")),
        _ => None,
    }
}

/// `use 50 g butter`, `collect 250 ml juices`.
pub fn of_missing(piece: &Piece<'_>) -> Option<String> {
    if !listed("use collect with", piece.first()) {
        return None;
    }
    let fixed = (2..piece.words.len())
        .find_map(|at| reading(format!("{} of {}", piece.start(at), piece.rest(at))))?;
    Some(format!("Put `of` before the name: `{fixed}`."))
}

/// `200 g butter`, `200 g of soft butter` on a line of its own.
pub fn bare_stock(piece: &Piece<'_>) -> Option<String> {
    let figure = piece.figure().filter(|_| piece.figure_at() == Some(0) && !piece.quoted())?;
    if !matches!(figure.dimension, Some(Dimension::Mass | Dimension::Volume)) {
        return None;
    }
    let typed = figure.typed.split(' ').count();
    let words = piece.rest(if piece.word(typed) == "of" { typed + 1 } else { typed });
    let name = words.split(' ').next_back()?.to_lowercase();
    reading(format!("use all {name}"))?;
    let draw = reading(format!("use {} of {name}", figure.typed))?;
    Some(format!(
        "What is bought has a line with a name of its own: `ingredient {name} is {} {words}`. In a phase write `{draw}`.",
        figure.typed
    ))
}

/// `oven: bread`.
pub fn place_first(piece: &Piece<'_>) -> Option<String> {
    let place = piece.words.first()?.strip_suffix(':')?;
    if piece.figure_at().is_some() || piece.quoted() {
        return None;
    }
    let fixed = reading(format!("{} in {place}", piece.rest(1)))?;
    Some(format!("If that is where it goes, name the food first: `{fixed}`."))
}

/// `lamb shoulder in oven`: a name is one word.
pub fn two_word_name(piece: &Piece<'_>) -> Option<String> {
    let at = piece.lower.iter().rposition(|word| listed("in on", word)).filter(|at| *at > 1)?;
    if piece.figure_at().is_some() || piece.quoted() || piece.words.len() != at + 2 {
        return None;
    }
    let place = piece.rest(at);
    let short = reading(format!("{} {place}", piece.words.first()?))?;
    let joined = reading(format!("{} {place}", piece.words.get(..at)?.join("-")))?;
    Some(format!(
        "A name is one word, the one that follows `food` above: `{short}`. Or join it with hyphens, there and here: `{joined}`."
    ))
}

/// `salt to taste` in a phase.
pub fn to_taste(piece: &Piece<'_>) -> Option<String> {
    if !(piece.words.len() == 3 && piece.word(1) == "to" && piece.word(2) == "taste") {
        return None;
    }
    let name = piece.first();
    Some(format!(
        "Write `use all {name}` here, and where it is bought that the amount does not matter: `ingredient {name} is {name}, to taste`."
    ))
}

/// `add 50 g of butter`.
pub fn into_the_food(piece: &Piece<'_>) -> Option<String> {
    if !listed(ADDING, piece.first()) {
        return None;
    }
    let skip = if piece.word(1) == "in" { 2 } else { 1 };
    let fixed = reading(format!("use {}", piece.rest(skip)))?;
    Some(format!("What goes into the food is drawn from stock: `{fixed}`."))
}

/// `wrapped with foil`.
pub fn with_for_in(piece: &Piece<'_>) -> Option<String> {
    if !(listed("covered wrapped sealed bagged wrap", piece.first()) && listed("with by", piece.word(1))) {
        return None;
    }
    let cover = if piece.first() == "wrap" { "wrapped" } else { piece.first() };
    reading(format!("{cover} in {}", piece.rest(2))).map(|fixed| format!("Write `{fixed}`."))
}

/// `hands on`, `hands-on for 10 min`.
pub fn hyphen(piece: &Piece<'_>) -> Option<String> {
    let skip = match (piece.first(), piece.word(1)) {
        ("hands-on", "for") => 2,
        ("hands", "on") if piece.word(2) == "for" => 3,
        ("hands", "on") => 2,
        _ => return None,
    };
    let fixed = reading(format!("hands-on {}", piece.rest(skip)).trim_end().to_string())?;
    Some(format!("Write `{fixed}`, with a hyphen."))
}

/// `cook Bread for the crew`.
pub fn title(piece: &Piece<'_>) -> Option<String> {
    (piece.first() == "cook" && piece.words.len() > 1)
        .then(|| format!("A title stands in quotes: `cook \"{}\"`.", piece.rest(1).replace('"', "")))
}

/// `medium heat`.
pub fn heat(piece: &Piece<'_>) -> Option<String> {
    listed("heat flame", piece.last()).then(|| {
        "A setting is a temperature: `liquid 95 °C` in a pot, `plate 200 °C` on a griddle or in a pan, `air 180 °C` in an oven.".into()
    })
}

pub fn work(piece: &Piece<'_>) -> Option<String> {
    listed(WORK, piece.first()).then(|| {
        format!("What the cook does goes in quotes after `do`: `do \"{}\"`.", piece.text.replace('"', ""))
    })
}
