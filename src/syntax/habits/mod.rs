//! What people write from habit, and what to type instead.
//!
//! Each habit looks at a piece of a line that cannot be read. Where it can, it mends the piece, reads
//! the result to be sure, and offers just that.

mod figures;
mod signs;
mod times;
mod words;

use super::reader::reads_as_clause;
use crate::quantity::{Dimension, find_unit};

/// Longer pieces are no slip of the pen, and trying to mend them would take its time.
const LONGEST: usize = 160;

type Habit = fn(&Piece<'_>) -> Option<String>;

/// In the order in which they are tried: what is sure of itself first.
const HABITS: &[Habit] = &[
    signs::before_the_line,
    words::another_word,
    figures::gas_mark,
    figures::roughly,
    figures::overnight,
    figures::how_long,
    figures::bath,
    figures::setting,
    figures::two_scales,
    times::order_of_words,
    times::time_of_day,
    times::hours_off,
    figures::until,
    words::quotes,
    words::every,
    words::vague,
    words::of_missing,
    words::to_taste,
    words::into_the_food,
    words::with_for_in,
    words::hyphen,
    figures::spelt_out,
    figures::times,
    signs::two_facts,
    signs::signs_inside,
    signs::idle_word,
    figures::thick_and_deep,
    times::between,
    times::starts_at,
    times::served_at,
    words::title,
    words::heat,
    words::work,
    words::bare_stock,
    words::place_first,
    words::two_word_name,
];

/// The remedy for a piece of a line that cannot be read, where it is a common one.
pub fn remedy(text: &str) -> Option<String> {
    if text.len() > LONGEST {
        return None;
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let lower = words.iter().map(|word| word.trim_end_matches(':').to_lowercase()).collect();
    let piece = Piece { text, words, lower };
    HABITS.iter().find_map(|habit| habit(&piece))
}

/// A piece of a line, and its words.
struct Piece<'p> {
    text: &'p str,
    words: Vec<&'p str>,
    lower: Vec<String>,
}

/// A figure as typed, and what its unit measures.
struct Figure {
    typed: String,
    dimension: Option<Dimension>,
}

impl Piece<'_> {
    /// In lower case, without a colon; nothing past the end.
    fn word(&self, nth: usize) -> &str {
        self.lower.get(nth).map_or("", String::as_str)
    }

    fn first(&self) -> &str {
        self.word(0)
    }

    fn last(&self) -> &str {
        self.word(self.words.len().saturating_sub(1))
    }

    fn has(&self, word: &str) -> bool {
        self.lower.iter().any(|known| known == word)
    }

    fn quoted(&self) -> bool {
        self.text.contains(['"', '“', '”'])
    }

    /// The words from `from` on.
    fn rest(&self, from: usize) -> String {
        self.words.get(from..).unwrap_or(&[]).join(" ")
    }

    /// The words before `to`.
    fn start(&self, to: usize) -> String {
        self.words.get(..to).unwrap_or(&[]).join(" ")
    }

    /// Where the first word is that starts with a digit.
    fn figure_at(&self) -> Option<usize> {
        self.words.iter().position(|word| word.starts_with(|c: char| c.is_ascii_digit()))
    }

    /// The first figure, with its unit in the same word or in the next one.
    fn figure(&self) -> Option<Figure> {
        let at = self.figure_at()?;
        let word = self.words.get(at)?;
        let attached = word.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
        let next = self.words.get(at + 1).copied().unwrap_or("");
        let (typed, unit) = if !attached.is_empty() {
            (word.to_string(), find_unit(attached))
        } else if let Some(unit) = find_unit(next) {
            (format!("{word} {next}"), Some(unit))
        } else {
            (word.to_string(), None)
        };
        Some(Figure { typed, dimension: unit.map(|unit| unit.dimension) })
    }
}

impl Figure {
    /// As a temperature, in both scales where it has no unit.
    fn temperatures(&self, before: &str) -> Option<String> {
        match self.dimension {
            Some(Dimension::Temperature) => Some(format!("`{before} {}`", self.typed)),
            None if self.typed.bytes().all(|byte| byte.is_ascii_digit()) => {
                Some(format!("`{before} {typed} °C` or `{before} {typed} °F`", typed = self.typed))
            }
            _ => None,
        }
    }
}

/// `fixed`, if it reads.
fn reading(fixed: String) -> Option<String> {
    reads_as_clause(&fixed).then_some(fixed)
}

/// Is `word` one of a list of words?
fn listed(list: &str, word: &str) -> bool {
    list.split(' ').any(|known| known == word)
}
