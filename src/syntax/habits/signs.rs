//! Signs and small words that are too many, and commas that are missing.

use super::{Piece, listed, reading};

/// Words that can be left out where the rest then reads.
const IDLE: &str = "a about and approximately around at bake be cook from go goes heat hold internal is keep leave \
    let now of place poach put rest roast roughly set simmer sit smoke stay temp temperature the then to";

/// `# remark`, `- bread in oven`, `1. bread in oven`.
pub fn before_the_line(piece: &Piece<'_>) -> Option<String> {
    if piece.text.starts_with(['#', ';']) {
        let remark = piece.text.trim_start_matches(['#', ';']).trim();
        return Some(format!("A private remark starts with two strokes: `// {remark}`."));
    }
    let sign = piece.first().trim_end_matches(['.', ')']);
    let number = sign != piece.first() && sign.bytes().all(|byte| byte.is_ascii_digit());
    if !(number || matches!(sign, "-" | "*" | "•" | "–")) {
        return None;
    }
    reading(piece.rest(1)).map(|rest| format!("Lines have no sign before them. Write `{rest}`."))
}

/// `bread in oven at 180 °C`, `uncovered for 2 h`.
pub fn two_facts(piece: &Piece<'_>) -> Option<String> {
    (1..piece.words.len()).rev().find_map(|at| {
        let rest = piece.rest(at);
        // A bare figure reads as an amount, which is not what was meant.
        if [piece.first(), &rest].iter().any(|part| part.starts_with(|c: char| c.is_ascii_digit())) {
            return None;
        }
        let one = reading(piece.start(at))?;
        let setting = rest.strip_prefix("at ").map(|temperature| format!("air {temperature}"));
        let two = reading(rest).or_else(|| reading(setting?))?;
        Some(format!("These are two facts. Write a comma between them: `{one}, {two}`."))
    })
}

/// `air = 110 °C`, `bread & rolls in oven`, `bread into oven`.
pub fn signs_inside(piece: &Piece<'_>) -> Option<String> {
    let plain: Vec<&str> = piece
        .words
        .iter()
        .filter(|word| !matches!(**word, ":" | "="))
        .map(|word| match word.to_lowercase().as_str() {
            "&" | "+" => "and",
            "into" | "inside" => "in",
            "onto" => "on",
            _ => word.trim_end_matches([':', '=', '.']),
        })
        .collect();
    reading(plain.join(" ")).map(|fixed| format!("Write `{fixed}`."))
}

/// `put bread in oven`, `thickness of 4 cm`.
pub fn idle_word(piece: &Piece<'_>) -> Option<String> {
    (0..piece.words.len()).filter(|&at| listed(IDLE, piece.word(at))).find_map(|at| {
        let fixed = format!("{} {}", piece.start(at), piece.rest(at + 1));
        reading(fixed.trim().to_string()).map(|fixed| format!("Leave out `{}`: `{fixed}`.", piece.word(at)))
    })
}
