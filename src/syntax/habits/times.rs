//! Times of day and days, as people write them.

use super::{Piece, listed, reading};

const DAYS: &[&str] = &["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

const MONTHS: &str = "january february march april may june july august september october november december jan feb \
    mar apr jun jul aug sep sept oct nov dec";

const CLOCK: &str = "Write hours and minutes of 24 hours with a colon between: `at 18:30`.";
const DATE: &str = "Write the date as year, month and day: `at 2026-12-31 18:30`.";

/// `18:30`, `Saturday at 18:30`, `at 18:30 on Saturday`, `by 18:30`.
pub fn order_of_words(piece: &Piece<'_>) -> Option<String> {
    let clock = |word: &str| word.contains(':') && word.starts_with(|c: char| c.is_ascii_digit());
    let at =
        piece.words.iter().position(|word| clock(word)).filter(|_| !piece.quoted() && !piece.has("do"))?;
    let time = piece.words.get(at)?;
    let bare =
        at == 0 && piece.words.len() == 1 || at == 1 && listed("by before around about", piece.first());
    if bare {
        return reading(format!("at {time}")).map(|fixed| format!("Write `{fixed}`."));
    }
    let day = piece.words.iter().find(|word| DAYS.iter().any(|day| day.eq_ignore_ascii_case(word)))?;
    reading(format!("at {day} {time}")).map(|fixed| format!("Write `{fixed}`."))
}

/// `at half past six`, `at 1830`, `at Saterday 18:30`, `at 31/12/2026 18:30`, `on 12 December at 18:30`.
pub fn time_of_day(piece: &Piece<'_>) -> Option<String> {
    if !listed("at on", piece.first()) || piece.has("do") || piece.quoted() {
        return None;
    }
    let typed = piece.word(1);
    if piece.lower.iter().any(|word| listed(MONTHS, word))
        || typed.contains('/')
        || typed.matches(['.', '-']).count() == 2
    {
        return Some(DATE.into());
    }
    let near = DAYS.iter().find(|day| strsim::osa_distance(&day.to_lowercase(), typed) <= 2);
    if let Some(fixed) = near.and_then(|day| reading(format!("at {day} {}", piece.rest(2)))) {
        return Some(format!("Did you mean `{fixed}`?"));
    }
    if piece.first() == "on" {
        return None;
    }
    let digits = piece.words.get(1).filter(|word| word.bytes().all(|byte| byte.is_ascii_digit()));
    let clock = digits.filter(|_| piece.words.len() == 2).and_then(|digits| {
        let (hour, minute) = digits.split_at_checked(digits.len().saturating_sub(2))?;
        reading(if digits.len() < 3 { format!("at {digits}:00") } else { format!("at {hour}:{minute}") })
    });
    Some(match clock {
        Some(clock) => format!("Write hours and minutes with a colon between: `{clock}`."),
        None => CLOCK.into(),
    })
}

/// `asleep 23:00-06:30`, `awake 07:00 to 23:00`.
pub fn hours_off(piece: &Piece<'_>) -> Option<String> {
    match piece.first() {
        "asleep" | "away" => {
            let fixed = reading(piece.text.replace(['-', '–'], " to "))?;
            Some(format!("Write `{}`.", fixed.split_whitespace().collect::<Vec<_>>().join(" ")))
        }
        "awake" => {
            let fixed = reading(format!("asleep {} to {}", piece.word(3), piece.word(1)))?;
            Some(format!("Write when everybody is asleep: `{fixed}`."))
        }
        _ => None,
    }
}

/// `between 12:00 and 14:00`.
pub fn between(piece: &Piece<'_>) -> Option<String> {
    let guests = reading(format!("guests {}", piece.text)).filter(|_| piece.first() == "between")?;
    let through = format!("from {} to {}", piece.words.get(1)?, piece.words.last()?);
    Some(format!("Write `{guests}` if they come when they like, or `{through}` if you serve all the while."))
}

/// `dish "soup.dwell", serve at 19:15`: behind a comma the time stands by itself.
pub fn served_at(piece: &Piece<'_>) -> Option<String> {
    let rest = piece.text.split_once(char::is_whitespace).filter(|_| piece.first().starts_with("serve"))?.1;
    reading(rest.trim_start().to_owned()).map(|clause| format!("Write `{clause}`."))
}

pub fn starts_at(piece: &Piece<'_>) -> Option<String> {
    (piece.first() == "starts" && piece.word(1) == "at").then(|| {
        "For a time of day write `starts at 08:00`, for the food's temperature `starts at 4 °C`.".into()
    })
}
