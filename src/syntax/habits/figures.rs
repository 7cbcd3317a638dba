//! Temperatures and lengths of time, as people write them.

use super::{Piece, listed, reading};
use crate::quantity::Dimension;

/// Words for heating, whose setting is what the language wants to know.
const HEATING: &str = "at bake boil braise broil cook fan fry grill heat oven poach preheat roast set simmer smoke \
    steam temp temperature turn warm";

/// Words before a length of time that say what is done meanwhile.
const DOING: &str = "bake boil braise broil chill cook cool cure fry grill hold keep leave poach rest roast simmer \
    smoke soak stand steam wait";

const NUMBERS: &str = "zero one two three four five six seven eight nine ten eleven twelve";

/// Lengths of time in words.
const PHRASES: &[(&str, &str)] = &[
    ("half an hour", "30 min"),
    ("half hour", "30 min"),
    ("quarter of an hour", "15 min"),
    ("an hour and a half", "1 h 30 min"),
    ("a couple of hours", "2 h"),
    ("an hour", "1 h"),
    ("every hour", "every 1 h"),
    ("a day", "1 day"),
    ("a week", "1 week"),
];

/// Gas marks 1 to 9 in °C (common practice, no source; makers differ by 10 °C).
const GAS_MARKS: [u32; 9] = [140, 150, 160, 180, 190, 200, 220, 230, 240];

pub fn gas_mark(piece: &Piece<'_>) -> Option<String> {
    let mark: usize = piece.last().parse().ok().filter(|_| piece.has("gas"))?;
    let celsius = GAS_MARKS.get(mark.checked_sub(1)?)?;
    Some(format!("Gas mark {mark} is about {celsius} °C: write `air {celsius} °C`."))
}

/// `takes about 2 hours`, `for about 2 hours`, `about 20 min`.
pub fn roughly(piece: &Piece<'_>) -> Option<String> {
    let timed = piece.figure().is_some_and(|figure| figure.dimension == Some(Dimension::Duration));
    let longest = "Write the shortest and the longest you have seen: `takes 1 h 30 min to 2 h`.";
    let vague = listed("about around approximately roughly ca circa", piece.word(1));
    match piece.first() {
        "takes" => Some(longest.into()),
        "about" | "around" if timed => Some(longest.into()),
        "for" if vague => Some(format!(
            "`for` is a time that you set, so it is exact: `for {}`. If the food or the work decides, write the shortest and the longest: `takes 1 h 30 min to 2 h`.",
            piece.rest(2)
        )),
        _ => None,
    }
}

pub fn overnight(piece: &Piece<'_>) -> Option<String> {
    piece.has("overnight").then(|| "Say how long the night may be: `for 8 h to 12 h`.".into())
}

/// `simmer 20 minutes`.
pub fn how_long(piece: &Piece<'_>) -> Option<String> {
    let figure = piece.figure().filter(|_| piece.figure_at() == Some(1) && listed(DOING, piece.first()))?;
    (figure.dimension == Some(Dimension::Duration)).then(|| {
        format!(
            "Write `for {}` if you decide, or `takes` with the shortest and the longest if the food decides: `takes 15 min to 25 min`.",
            figure.typed
        )
    })
}

/// `sous vide at 57 °C`, `water bath at 57 °C`.
pub fn bath(piece: &Piece<'_>) -> Option<String> {
    let two = (piece.word(0), piece.word(1));
    if !matches!(two, ("sous", "vide") | ("water", "bath")) && piece.first() != "sous-vide" {
        return None;
    }
    let water = piece.figure()?.temperatures("water")?;
    Some(format!("A bath is set by its water: {water}."))
}

/// `bake at 180`, `oven to 180 °C`, `preheat oven to 180`, `at 180 °C`.
pub fn setting(piece: &Piece<'_>) -> Option<String> {
    let figure = piece.figure()?;
    if !listed(HEATING, piece.first()) || piece.quoted() || piece.has("until") {
        return None;
    }
    // A bare number after `at` is more likely a time of day.
    if piece.first() == "at" && figure.dimension.is_none() {
        return None;
    }
    let air = figure.temperatures("air")?;
    if piece.figure_at() != Some(1) && reading(piece.rest(1)).is_some() {
        return None;
    }
    Some(if piece.first() == "preheat" {
        format!("Write the setting, {air}. When to switch it on is worked out for you.")
    } else {
        format!(
            "Write the setting and what it is the temperature of: {air}; in a bath `water`, in a pot `liquid`."
        )
    })
}

/// `air 180C / 350F`.
pub fn two_scales(piece: &Piece<'_>) -> Option<String> {
    let (one, two) = piece.text.split_once('/')?;
    let fixed = reading(format!("{} ({})", one.trim(), two.trim()))?;
    Some(format!("The same in the other scale stands in brackets: `{fixed}`."))
}

/// `until 84`, `until it is 84 °C inside`, `until tender`, `cook until 84 °C`.
pub fn until(piece: &Piece<'_>) -> Option<String> {
    if listed(HEATING, piece.first()) && piece.word(1) == "until" && !piece.quoted() {
        let core = piece.figure()?.temperatures("until core")?;
        return Some(format!("If it is done when the middle is that hot, write {core}."));
    }
    if !listed("until till til untill", piece.first()) || piece.quoted() {
        return None;
    }
    if piece.first() != "until"
        && let Some(fixed) = reading(format!("until {}", piece.rest(1)))
    {
        return Some(format!("Write `{fixed}`."));
    }
    if let Some(figure) = piece.figure() {
        let core = figure.temperatures("until core")?;
        return Some(format!("Say what it is the temperature of; for the middle of the food write {core}."));
    }
    Some(format!(
        "What eyes or a fork tell stands in quotes, with the shortest and the longest it takes: `until \"{}\", takes 1 h to 2 h`.",
        piece.rest(1)
    ))
}

/// `serves four`, `for half an hour`.
pub fn spelt_out(piece: &Piece<'_>) -> Option<String> {
    let lower = piece.lower.join(" ");
    let phrase = PHRASES.iter().find(|(phrase, _)| lower.contains(phrase));
    if let Some(fixed) = phrase.and_then(|(phrase, figure)| reading(lower.replacen(phrase, figure, 1))) {
        return Some(format!("Write it in figures: `{fixed}`."));
    }
    let at = piece.lower.iter().position(|word| listed(NUMBERS, word))?;
    let number = NUMBERS.split(' ').position(|number| number == piece.word(at))?;
    let fixed = reading(format!("{} {number} {}", piece.start(at), piece.rest(at + 1)).trim().to_string())?;
    Some(format!("Write the number in figures: `{fixed}`."))
}

/// `12 × 280 g`, `12 * 280 g`.
pub fn times(piece: &Piece<'_>) -> Option<String> {
    let (number, each) = piece.text.split_once(['×', '*'])?;
    let fixed = reading(format!("{} pieces of {}", number.trim(), each.trim()))?;
    Some(format!("Write `{fixed}`."))
}

/// `12 cm thick`, `6 cm deep`.
pub fn thick_and_deep(piece: &Piece<'_>) -> Option<String> {
    let clause = match piece.last() {
        "thick" => "thickness",
        "deep" => "depth",
        _ => return None,
    };
    let length = piece.start(piece.words.len().checked_sub(1)?);
    reading(format!("{clause} {length}")).map(|fixed| format!("Write `{fixed}`."))
}
