//! What to say of a line that should open a block and does not read as its first line.

use super::explain::clip;
use super::forms::{self, BLOCKS};
use super::pieces::words;
use super::reader::{reads_as_clause, reads_as_head};
use crate::cook::Purpose;
use crate::findings::{Code, Finding};
use crate::say;
use crate::text::Span;

/// Does a line that starts with `word` end the block before it? (`cook` only before a quote.)
pub fn is_block_word(word: &str, line: &str) -> bool {
    let word = word.trim_end_matches(':');
    let known = BLOCKS.iter().any(|form| form.word.eq_ignore_ascii_case(word));
    if !word.eq_ignore_ascii_case("cook") {
        return known;
    }
    let after = line.find(word).map_or("", |at| line.get(at + word.len()..).unwrap_or(""));
    after.trim_start().starts_with(['"', '“', '”', '„', '‟'])
}

/// `bread is white bread`, `step slice is prep`: no clause of its own has `is` there, so the line was meant
/// to open a block.
pub fn is_like_head(line: &str) -> bool {
    let start: Vec<&str> = words(line).map(|(_, word)| word).take(3).collect();
    let first = start.first().copied().unwrap_or("");
    let is = |nth: usize| start.get(nth).is_some_and(|word| word.eq_ignore_ascii_case("is"));
    let headed =
        (is(1) || is(2)) && !forms::is_clause_word(&first.to_lowercase()) && !is_block_word(first, line);
    headed || step_name(line).is_some()
}

/// What a numbered step is called: `step 1: brown`, `Stage 2 brown the legs`, with hyphens; `step` and
/// the number where nothing follows.
fn step_name(line: &str) -> Option<String> {
    let typed: Vec<&str> = words(line).map(|(_, word)| word).take(8).collect();
    let first = typed.first()?.to_lowercase();
    let number = typed.get(1)?.trim_end_matches([':', '.', ')', '-']);
    let numbered = !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
    if !numbered || !matches!(first.as_str(), "step" | "stage" | "part") {
        return None;
    }
    let called: Vec<String> = typed[2..]
        .iter()
        .map(|word| word.to_lowercase().replace(|c: char| !c.is_alphanumeric() && c != '-', ""))
        .filter(|word| word.starts_with(char::is_alphabetic))
        .collect();
    Some(if called.is_empty() { format!("{first}-{number}") } else { called.join("-") })
}

/// The block word that such a line most likely wanted.
fn kind_of(words: &[&str]) -> &'static str {
    let first = words.first().map_or(String::new(), |word| word.to_lowercase());
    let last = words.last().copied().unwrap_or("");
    let near = BLOCKS.iter().find(|form| first.len() < 20 && strsim::osa_distance(form.word, &first) <= 1);
    let is_purpose = |purpose: &Purpose| {
        purpose.words().rsplit(' ').next().is_some_and(|known| known.eq_ignore_ascii_case(last))
    };
    match near {
        Some(form) => form.word,
        None if Purpose::WRITTEN.iter().any(is_purpose) => "phase",
        None => "food",
    }
}

/// The finding of such a line.
pub fn headless(piece: &str, span: Span) -> Finding {
    if let Some(name) = step_name(piece) {
        let head = format!("phase {name} is cook");
        let head = if reads_as_head(&head) { head } else { "phase brown is cook".to_owned() };
        return Finding::new(
            Code::BlockUnreadable,
            span,
            say![format!("`{}` does not say what kind of thing it is about.", clip(piece))],
            say![format!(
                "A step is a phase, with a name of one word and what it is for: `{head}`, or another \
                 purpose such as `prep`, `rest` or `cool`."
            )],
        )
        .also(span, say!["Until the next block, the lines below it are only checked for form."]);
    }
    let all: Vec<&str> = piece.split_whitespace().collect();
    let skip = usize::from(all.get(2).is_some_and(|word| word.eq_ignore_ascii_case("is")));
    let rest = clip(&all.get(skip..).unwrap_or(&[]).join(" "));
    Finding::new(
        Code::BlockUnreadable,
        span,
        say![format!("`{}` does not say what kind of thing it is about.", clip(piece))],
        say![format!(
            "Start with the word for what it is: `{} {rest}`. The words are `food`, `ingredient`, `kit` and `phase`.",
            kind_of(&all)
        )],
    )
    .also(span, say!["Until the next block, the lines below it are only checked for form."])
}

/// `phase after is cook`: the name, and the line with another one, if that reads.
fn small_name(piece: &str) -> Option<(&str, String)> {
    let (at, name) = words(piece).nth(1)?;
    let other = format!("{}my-{}", piece.get(..at)?, piece.get(at..)?);
    reads_as_head(&other).then_some((name, other))
}

pub fn bad_head(word: &str, piece: &str, span: Span) -> Finding {
    let rest = piece.get(word.len()..).unwrap_or("").trim();
    let word = word.trim_end_matches(':').to_lowercase();
    let example = forms::block(&word).unwrap_or_default();
    let named = matches!(word.as_str(), "food" | "ingredient" | "kit" | "phase");
    let (message, remedy) = if word == "serve" && rest.to_lowercase().starts_with("at ") {
        (
            say!["The time of this serving cannot be read."],
            say![
                "Write `serve` with the name of the food, and below it the time of day in 24 hours: `at 18:30`."
            ],
        )
    } else if let Some((name, other)) = small_name(piece).filter(|_| named) {
        (
            say![format!("`{name}` is a word of the language and cannot be a name.")],
            say![format!("Choose another name: `{other}`.")],
        )
    } else if let Some(mended) = mended_head(piece) {
        (say!["This line does not read on as it should."], say![format!("Write `{mended}`.")])
    } else if named && rest.starts_with(|c: char| c.is_ascii_digit()) {
        let name = rest.split_whitespace().next().unwrap_or("1");
        (say!["A name starts with a letter."], say![format!("Put a word before the number: `step-{name}`.")])
    } else if let Some(joined) = joined_name(&word, rest).filter(|_| named) {
        (say!["A name is one word."], say![format!("Join the words with hyphens: `{joined}`.")])
    } else if named && !rest.is_empty() && !rest.to_lowercase().contains(" is ") {
        (
            say![format!("After `{word}` and a name, this line needs `is` and what it is.")],
            say![format!("Write it like `{example}`. A name is one word; join two with a hyphen.")],
        )
    } else if matches!(word.as_str(), "cook" | "menu" | "dish") {
        (
            say![format!("After `{word}` stands text in quotes, and further facts only after a comma.")],
            say![format!("Write it like `{example}`.")],
        )
    } else if word == "crew" {
        (
            say!["`crew` stands alone on its line."],
            say![format!("Write `crew`, and on a line of its own below it `{}`.", or(rest, "2 people"))],
        )
    } else {
        (
            say![format!("This line starts with `{word}` but does not read on as it should.")],
            say![format!("Write it like `{example}`.")],
        )
    };
    Finding::new(Code::BlockUnreadable, span, message, remedy)
        .also(span, say!["Until the next block, the lines below it are only checked for form."])
}

/// `serve bread at 18:30`, `ingredient butter: 200 g`, `food: bread is white bread`: a comma or an `is`
/// put where it belongs, if the line then reads.
fn mended_head(piece: &str) -> Option<String> {
    let typed: Vec<&str> =
        piece.split_whitespace().take(40).filter(|word| !matches!(*word, ":" | "=")).collect();
    let plain: Vec<&str> = typed.iter().map(|word| word.trim_end_matches([':', '='])).collect();
    let with_is = |at: usize| {
        format!(
            "{} is {}",
            plain.get(..at).unwrap_or(&[]).join(" "),
            plain.get(at..).unwrap_or(&[]).join(" ")
        )
    };
    if plain != typed && !plain.is_empty() && reads_as_head(&plain.join(" ")) {
        return Some(plain.join(" "));
    }
    let has_is = plain.iter().any(|word| word.eq_ignore_ascii_case("is"));
    let mended = if has_is { plain.join(" ") } else { with_is(2) };
    if plain.len() > 2 && reads_as_head(&mended) {
        return Some(mended);
    }
    (1..plain.len()).rev().find_map(|at| {
        let (head, clause) = (plain.get(..at)?.join(" "), plain.get(at..)?.join(" "));
        (reads_as_head(&head) && reads_as_clause(&clause)).then(|| format!("{head}, {clause}"))
    })
}

/// `kit big oven is fan oven` with its name joined, if it then reads.
fn joined_name(word: &str, rest: &str) -> Option<String> {
    let words: Vec<&str> = rest.split_whitespace().take(40).collect();
    let is = words.iter().position(|word| word.eq_ignore_ascii_case("is"))?;
    if is < 2 {
        return None;
    }
    let joined = format!("{word} {} {}", words.get(..is)?.join("-"), words.get(is..)?.join(" "));
    reads_as_head(&joined).then_some(joined)
}

fn or<'t>(text: &'t str, otherwise: &'t str) -> &'t str {
    if text.is_empty() { otherwise } else { text }
}
