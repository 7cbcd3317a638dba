//! What to say of a line that does not fit the grammar.
//!
//! The line is cut at its commas, each piece is read alone, and each piece that cannot be read is
//! compared with what it could have been.

use super::reader::{Base, LineRead, read_clause, reads_as_head};
use super::tree::{ClauseKind, HeadKind};
use crate::findings::{Code, Finding, Text};
use crate::say;
use crate::text::Span;

/// Blocks: the word, and how its line reads.
const BLOCKS: &[(&str, &str)] = &[
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

/// Clause words, and how a clause with that word reads.
const CLAUSES: &[(&str, &str)] = &[
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

/// Words that people write for what the language says with a setting.
const HEATING_WORDS: &[&str] = &[
    "bake",
    "roast",
    "grill",
    "smoke",
    "braise",
    "heat",
    "set",
    "temp",
    "temperature",
    "simmer",
    "boil",
    "fry",
    "gas",
    "oven",
    "warm",
    "turn",
    "broil",
    "steam",
];

/// Words for work that belongs in `do "…"`.
const WORK_WORDS: &[&str] = &[
    "add", "mix", "stir", "baste", "slice", "cut", "chop", "remove", "take", "put", "place", "season", "rub",
    "rest", "leave", "wait", "trim", "pour", "turn", "flip", "check", "let", "cover", "wrap", "pull",
    "shred", "carve", "cool", "chill",
];

/// Words of a line with their byte offsets.
pub fn words(line: &str) -> impl Iterator<Item = (usize, &str)> {
    line.split(|c: char| c.is_whitespace() || c.is_control() || matches!(c, ',' | '"' | '“' | '„'))
        .filter(|word| !word.is_empty())
        .map(move |word| (word.as_ptr() as usize - line.as_ptr() as usize, word))
}

/// Does a line that starts with `word` end the block before it? (`cook` only before a quote.)
pub fn is_block_word(word: &str, line: &str) -> bool {
    let known = BLOCKS.iter().any(|(block, _)| block.eq_ignore_ascii_case(word));
    if !word.eq_ignore_ascii_case("cook") {
        return known;
    }
    let after = line.find(word).map_or("", |at| line.get(at + word.len()..).unwrap_or(""));
    after.trim_start().starts_with(['"', '“', '”', '„', '‟'])
}

/// The byte range of the first figure with a comma between digits, outside quotes and comments.
pub fn decimal_comma(line: &str) -> Option<std::ops::Range<usize>> {
    let bytes = line.as_bytes();
    let outside = outside_quotes(line);
    let at = (1..bytes.len().saturating_sub(1)).find(|&at| {
        bytes[at] == b',' && bytes[at - 1].is_ascii_digit() && bytes[at + 1].is_ascii_digit() && outside(at)
    })?;
    let figure = |byte: &u8| byte.is_ascii_digit() || *byte == b',' || *byte == b'.';
    let start = bytes[..at].iter().rposition(|byte| !figure(byte)).map_or(0, |before| before + 1);
    let end = bytes[at..].iter().position(|byte| !figure(byte)).map_or(bytes.len(), |after| at + after);
    Some(start..end)
}

/// Says of a byte offset whether it lies outside quotes and before any comment.
fn outside_quotes(line: &str) -> impl Fn(usize) -> bool {
    let mut quoted: Vec<std::ops::Range<usize>> = Vec::new();
    let mut open: Option<(usize, bool)> = None;
    for (at, c) in line.char_indices() {
        match (c, open) {
            ('"', None) => open = Some((at, false)),
            ('“' | '”' | '„' | '‟', None) => open = Some((at, true)),
            ('"', Some((start, false))) | ('“' | '”' | '‟', Some((start, true))) => {
                quoted.push(start..at + c.len_utf8());
                open = None;
            }
            ('/', None) if line[at..].starts_with("//") => {
                quoted.push(at..line.len());
                break;
            }
            _ => {}
        }
    }
    if let Some((start, _)) = open {
        quoted.push(start..line.len());
    }
    move |at| {
        let next = quoted.partition_point(|range| range.end <= at);
        !quoted.get(next).is_some_and(|range| range.contains(&at))
    }
}

/// Every finding of a line that could not be read.
pub fn explain(line: &str, base: Base) -> Vec<Finding> {
    let place = |range: std::ops::Range<usize>| {
        Span::new(base.file, base.offset + range.start, base.offset + range.end)
    };
    if let Some(range) = decimal_comma(line) {
        return vec![decimal_comma_finding(&line[range.clone()], place(range))];
    }
    if let Some(at) = unclosed_quote(line) {
        return vec![Finding::new(
            Code::QuoteUnclosed,
            place(at..line.trim_end().len().max(at + 1)),
            say!["The text that starts here has no closing quote on this line."],
            say!["Close it with `\"` before the line ends. Text stands on one line."],
        )];
    }
    let mut findings = Vec::new();
    for (nth, range) in pieces(line).into_iter().enumerate() {
        let piece = &line[range.clone()];
        let span = place(range);
        let first = words(piece).next().map_or("", |(_, word)| word);
        if piece.is_empty() {
            findings.push(Finding::new(
                Code::LineUnreadable,
                Span { start: span.start.saturating_sub(u32::from(nth > 0)), ..span },
                say!["Nothing stands between this comma and the next, or the end of the line."],
                say!["Take the comma away, or write the fact that is missing."],
            ));
        } else if nth == 0 && is_block_word(first, piece) {
            if !reads_as_head(piece) {
                findings.push(bad_head(first, piece, span));
            }
        } else if read_clause(piece, base).is_none() {
            findings.push(bad_clause(piece, span));
        }
        // A hostile line must not turn into thousands of findings.
        if findings.len() == 20 {
            break;
        }
    }
    if findings.is_empty() {
        findings.push(Finding::new(
            Code::LineUnreadable,
            place(0..line.trim_end().len()),
            say!["This line cannot be read."],
            say!["Write one fact on a line, or put a comma between two."],
        ));
    }
    findings
}

/// The parts of a line between its commas, trimmed, without a comment.
fn pieces(line: &str) -> Vec<std::ops::Range<usize>> {
    let outside = outside_quotes(line);
    let mut ends: Vec<usize> = line
        .bytes()
        .enumerate()
        .filter(|&(at, byte)| byte == b',' && outside(at))
        .map(|(at, _)| at)
        .collect();
    let comment = line.match_indices("//").map(|(at, _)| at).find(|&at| at == 0 || outside(at - 1));
    ends.push(comment.unwrap_or(line.len()));
    let mut start = 0;
    let mut found = Vec::new();
    for end in ends {
        if end < start {
            continue;
        }
        let piece = &line[start..end];
        let trimmed = piece.trim();
        let lead = piece.len() - piece.trim_start().len();
        let from = if trimmed.is_empty() { start } else { start + lead };
        found.push(from..from + trimmed.len());
        start = end + 1;
    }
    found
}

fn unclosed_quote(line: &str) -> Option<usize> {
    let mut open: Option<(usize, bool)> = None;
    for (at, c) in line.char_indices() {
        match (c, open) {
            ('"', None) => open = Some((at, false)),
            ('“' | '”' | '„' | '‟', None) => open = Some((at, true)),
            ('"', Some((_, false))) | ('“' | '”' | '‟', Some((_, true))) => open = None,
            ('/', None) if line[at..].starts_with("//") => return None,
            _ => {}
        }
    }
    open.map(|(at, _)| at)
}

fn decimal_comma_finding(figure: &str, span: Span) -> Finding {
    let decimal = figure.replacen(',', ".", 1);
    let joined = figure.replace(',', "");
    let thousands = figure.split(',').skip(1).all(|group| group.len() == 3 && !group.contains('.'));
    let remedy = if figure.matches(',').count() > 1 || (figure.contains('.') && thousands) {
        say![format!("Write `{joined}`.")]
    } else if thousands {
        say![format!(
            "Write `{joined}` if you mean the large figure, or `{decimal}` if you mean the small one."
        )]
    } else {
        say![format!("Write `{decimal}`: a decimal takes a point.")]
    };
    Finding::new(
        Code::DecimalComma,
        span,
        say![format!("`{figure}` could be read in two ways, because a comma also parts two facts.")],
        remedy,
    )
}

fn bad_head(word: &str, piece: &str, span: Span) -> Finding {
    let word = word.to_lowercase();
    let example = BLOCKS.iter().find(|(block, _)| *block == word).map_or("", |(_, example)| example);
    let rest = piece.get(word.len()..).unwrap_or("").trim();
    let (message, remedy) = match word.as_str() {
        "serve" if rest.to_lowercase().starts_with("at ") => (
            say!["The time of this serving cannot be read."],
            say![
                "Write a time of day with two dots and 24 hours: `serve at 18:30` in a menu, or `serve shoulder` and below it `at 18:30` in a cook."
            ],
        ),
        "food" | "ingredient" | "kit" | "phase"
            if !rest.to_lowercase().contains(" is ") && !rest.is_empty() =>
        {
            (
                say![format!("After `{word}` and a name, this line needs `is` and what it is.")],
                say![format!("Write it like `{example}`. A name is one word; join two with a hyphen.")],
            )
        }
        "cook" | "menu" => (
            say![format!("A title stands in quotes, and nothing but facts after a comma may follow it.")],
            say![format!("Write it like `{example}`.")],
        ),
        _ => (
            say![format!("This line starts a `{word}` block but does not read on as one.")],
            say![format!("Write it like `{example}`.")],
        ),
    };
    Finding::new(Code::BlockUnreadable, span, message, remedy)
        .also(span, say!["Until the next block, the lines below it are only checked for form."])
}

fn bad_clause(piece: &str, span: Span) -> Finding {
    let all: Vec<&str> = words(piece).map(|(_, word)| word).collect();
    let first = all.first().copied().unwrap_or("").to_lowercase();
    let second = all.get(1).copied().unwrap_or("").to_lowercase();
    let unreadable = |message: Text, remedy: Text| Finding::new(Code::LineUnreadable, span, message, remedy);
    if all.len() == 1 && first.starts_with(char::is_alphabetic) && keyword(&first).is_none() {
        if let Some((near, example)) = nearest(&first) {
            return unreadable(
                say![format!("`{}` is not a word that starts a fact here.", all[0])],
                say![format!("Did you mean `{near}`? It is written `{example}`.")],
            );
        }
        return Finding::new(
            Code::NameAlone,
            span,
            say![format!("`{}` stands here alone, and a name alone says nothing.", all[0])],
            say![format!(
                "If it belongs to the words before it, join them with `and`, or put the whole description in quotes (\"…\")."
            )],
        );
    }
    if let Some(remedy) = everyday(&first, &second, piece) {
        return unreadable(say![format!("`{}` is not a way to state a fact here.", clip(piece))], remedy);
    }
    if let Some(example) = keyword(&first) {
        return unreadable(
            say![format!("This starts like a fact with `{first}` but does not read on as one.")],
            say![format!("It is written `{example}`.")],
        );
    }
    if let Some((near, example)) = nearest(&first) {
        return unreadable(
            say![format!("`{}` is not a word that starts a fact here.", all[0])],
            say![format!("Did you mean `{near}`? It is written `{example}`.")],
        );
    }
    unreadable(
        say![format!("`{}` cannot be read as a fact.", clip(piece))],
        say![
            "If it is something the cook does, put it in quotes after `do`: `do \"…\"`. If it is a remark, `note \"…\"`."
        ],
    )
}

/// Remedies for what people write from habit.
fn everyday(first: &str, second: &str, piece: &str) -> Option<Text> {
    let lower = piece.to_lowercase();
    let figure = piece.find(|c: char| c.is_ascii_digit()).map(|at| {
        let digits: String = piece[at..].chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
        digits
    });
    let shown = figure.clone().unwrap_or_else(|| "110".into());
    if first == "hands" && second == "on" {
        return Some(say!["It is one word: `hands-on`."]);
    }
    if lower.ends_with("thick") && figure.is_some() {
        let length = lower.trim_end_matches("thick").trim();
        return Some(say![format!("Write `thickness {length}`.")]);
    }
    if lower.ends_with("deep") && figure.is_some() {
        let length = lower.trim_end_matches("deep").trim();
        return Some(say![format!("Write `depth {length}`.")]);
    }
    if first == "takes" && matches!(second, "about" | "around" | "roughly" | "ca" | "circa" | "approximately")
    {
        return Some(say!["Write the shortest and the longest you have seen: `takes 1 h 30 min to 2 h`."]);
    }
    if first == "for" && matches!(second, "about" | "around" | "roughly") {
        return Some(say![
            "`for` is a time you set, so it is exact: `for 2 h`. A time the food decides is `takes 2 h to 3 h`."
        ]);
    }
    if first == "starts" && second == "at" {
        return Some(say![
            "For a time of day write `starts at 08:00`, for the food's temperature `starts at 4 °C`."
        ]);
    }
    if first == "at" && !lower.contains("do") {
        return Some(say!["Write a time of day in 24 hours, with two dots: `at 18:30`."]);
    }
    if first == "until" && figure.is_none() {
        return Some(say![
            "Write `until core 84 °C`, or what hands or eyes say, in quotes: `until \"tender\", takes 2 h to 3 h`."
        ]);
    }
    if first == "until" {
        return Some(say![format!("Say of what it is the temperature: `until core {shown} °C`.")]);
    }
    if first == "preheat" && second.starts_with(char::is_alphabetic) {
        return Some(say![format!(
            "Heating up is planned for you. In the `kit` block say how long it takes, `preheat 20 min`; in the phase say the setting, `air {shown} °C`."
        )]);
    }
    if HEATING_WORDS.contains(&first) && figure.is_some() && !lower.contains('"') {
        return Some(say![format!(
            "Say the setting and what it is the temperature of: `air {shown} °C` in an oven or cabinet, `water {shown} °C` in a bath."
        )]);
    }
    if WORK_WORDS.contains(&first) || HEATING_WORDS.contains(&first) && keyword(first).is_none() {
        return Some(say![format!(
            "What the cook does goes in quotes after `do`: `do \"{}\"`.",
            clip(piece).replace('"', "")
        )]);
    }
    None
}

fn keyword(word: &str) -> Option<&'static str> {
    CLAUSES.iter().find(|(known, _)| *known == word).map(|(_, example)| *example)
}

/// The clause word that `word` is most like, if it is much like one.
fn nearest(word: &str) -> Option<(&'static str, &'static str)> {
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

/// The first words of a piece, for quoting in a message.
fn clip(piece: &str) -> String {
    let mut short: String = piece.chars().take(40).collect();
    if short.len() < piece.len() {
        short.push('…');
    }
    short
}

/// A description whose end could be a clause (`soft butter contains milk`) is refused: with a comma
/// it would mean another thing.
pub fn missing_comma(line: &str, read: &LineRead, base: Base) -> Option<Finding> {
    let head = read.head.as_ref().and_then(|head| match &head.kind {
        HeadKind::Food { kind, quoted: false, .. } => Some(*kind),
        HeadKind::Ingredient { words, .. } => *words,
        HeadKind::Kit { class, .. } => Some(*class),
        HeadKind::Phase { purpose, .. } => *purpose,
        _ => None,
    });
    let kinds = read.clauses.iter().filter_map(|clause| match &clause.kind {
        ClauseKind::Becomes { kind, .. } | ClauseKind::Collect { kind, .. } => *kind,
        _ => None,
    });
    head.into_iter().chain(kinds).find_map(|span| {
        let start = span.start as usize - base.offset;
        let description = line.get(start..span.end as usize - base.offset)?;
        // The first word is never the start of a clause: `cooked beans` is a kind of food.
        let (at, tail) = words(description)
            .skip(1)
            .map(|(at, _)| (at, &description[at..]))
            .find(|(_, tail)| ends_as_clause(tail, base))?;
        let whole = &line[..start + at];
        let from = Span::new(base.file, base.offset + start + at, span.end as usize);
        Some(Finding::new(
            Code::CommaMissing,
            from,
            say![format!("`{}` could be part of the description or a fact of its own.", clip(tail))],
            say![format!(
                "If it is a fact, put a comma before it: `{}, {}`. If it belongs to the description, put the whole description in quotes.",
                whole.trim(), tail
            )],
        ))
    })
}

/// Could these last words of a description be a clause? Amounts and places are too common in plain
/// descriptions to count.
fn ends_as_clause(tail: &str, base: Base) -> bool {
    let first = words(tail).next().map_or("", |(_, word)| word).to_lowercase();
    keyword(&first).is_some()
        && first != "on"
        && read_clause(tail, base).is_some_and(|clause| !matches!(clause.kind, ClauseKind::Place { .. }))
}
