//! How blocks and clauses read: every form with an example, the blocks it belongs in and what it says.
//!
//! The one list of the words that start a line. Messages, hovers, offers and help with a clause are all made from it, and
//! tests hold it against the compiler.

mod blocks;
mod clauses_a_to_f;
mod clauses_g_to_r;
mod clauses_s_to_w;
mod places;
mod settings;
mod wordless;

use std::sync::OnceLock;

/// What is typed in one place of a form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Slot {
    /// A name that is given here.
    NewName,
    Kit,
    /// Food that can be placed.
    Food,
    /// Anything in the store, or made before.
    Stock,
    /// What food is wrapped or sealed in.
    Wrap,
    /// Wood to smoke with.
    Wood,
    Phase,
    KitClass,
    FoodKind,
    Purpose,
    RuleSet,
    Code,
    Allergen,
    Shape,
    KitchenMeasures,
    /// The name of another file, in quotes.
    File,
    /// Words for people, in quotes.
    Text,
    /// Words for people, without quotes.
    Words,
    Temperature,
    Difference,
    Time,
    /// A weight, a volume, a length or a count.
    Amount,
    /// A weight or a volume.
    Content,
    Length,
    Share,
    Number,
    /// A time of day, with a day and a zone where they matter.
    Clock,
    /// A weekday or a date.
    Day,
}

/// A stretch of a form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    Word(&'static str),
    Slot { slot: Slot, example: &'static str },
}

/// One way in which a block or a clause reads.
#[derive(Debug)]
pub struct Form {
    /// The word it is found by, in lower case; empty where it starts with a name or a figure.
    pub word: &'static str,
    /// An example; what is the cook's own stands in brackets.
    pattern: &'static str,
    /// What goes into each of the brackets.
    slots: &'static [Slot],
    /// It opens a block.
    pub is_head: bool,
    /// The words of the blocks it belongs in. Of a head: what the file has to be, where that matters.
    pub blocks: &'static [&'static str],
    /// What it says, in a cook's words.
    pub means: &'static str,
}

impl Form {
    /// As somebody might write it.
    pub fn example(&self) -> String {
        self.pattern.replace(['[', ']'], "")
    }

    /// Its words and slots, in order.
    pub fn parts(&self) -> Vec<Part> {
        let mut slots = self.slots.iter();
        let mut parts = Vec::new();
        for stretch in self.pattern.split_inclusive(']') {
            let (words, example) = stretch.split_once('[').unwrap_or((stretch, ""));
            parts.extend(words.split_whitespace().map(Part::Word));
            if let (Some(example), Some(slot)) = (example.strip_suffix(']'), slots.next()) {
                parts.push(Part::Slot { slot: *slot, example });
            }
        }
        parts
    }
}

/// A row of the lists.
const fn clause(
    word: &'static str,
    pattern: &'static str,
    slots: &'static [Slot],
    blocks: &'static [&'static str],
    means: &'static str,
) -> Form {
    Form { word, pattern, slots, is_head: false, blocks, means }
}

/// The first lines of blocks.
pub const BLOCKS: &[Form] = blocks::FORMS;

/// Clauses that start with a name or a figure, or with a small word.
pub const WORDLESS: &[Form] = wordless::FORMS;

/// Clauses that start with a word of their own, in the order of the alphabet.
pub fn clauses() -> &'static [&'static Form] {
    static ALL: OnceLock<Vec<&'static Form>> = OnceLock::new();
    ALL.get_or_init(|| {
        let mut all: Vec<&Form> =
            [clauses_a_to_f::FORMS, clauses_g_to_r::FORMS, clauses_s_to_w::FORMS, settings::FORMS]
                .into_iter()
                .flatten()
                .collect();
        all.sort_by_key(|form| form.word);
        all
    })
}

/// The words that start a clause, in the order of the alphabet.
pub fn words() -> impl Iterator<Item = &'static str> {
    clauses().chunk_by(|one, next| one.word == next.word).map(|same| same[0].word)
}

/// The forms of the clauses that start with `word`, which is in lower case.
pub fn of(word: &str) -> &'static [&'static Form] {
    let all = clauses();
    let start = all.partition_point(|form| form.word < word);
    let length = all[start..].partition_point(|form| form.word == word);
    &all[start..start + length]
}

/// Does a clause start with this word, which is in lower case?
pub fn is_clause_word(word: &str) -> bool {
    !of(word).is_empty()
}

/// Examples of the clause that starts with `word`, to stand between backticks.
pub fn keyword(word: &str) -> Option<String> {
    examples(of(word).iter().copied())
}

/// Examples of the first line of the block with this word, as [`keyword`].
pub fn block(word: &str) -> Option<String> {
    let mut forms = BLOCKS.iter().filter(|form| form.word == word).peekable();
    let place = forms.peek()?.blocks;
    examples(forms.take_while(|form| form.blocks == place))
}

/// The first three; more would not be read.
fn examples<'f>(forms: impl Iterator<Item = &'f Form>) -> Option<String> {
    let all: Vec<String> = forms.take(3).map(Form::example).collect();
    let (last, before) = all.split_last()?;
    Some(if before.is_empty() { last.clone() } else { format!("{}` or `{last}", before.join("`, `")) })
}

/// The clause word that `word` is most like, if it is much like one, and examples of it.
pub fn nearest(word: &str) -> Option<(&'static str, String)> {
    if word.chars().count() < 3 || word.len() > 40 {
        return None;
    }
    let allowed = if word.chars().count() < 6 { 1 } else { 2 };
    words()
        .map(|known| (strsim::osa_distance(known, word), known))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, _)| *distance)
        .and_then(|(_, known)| Some((known, keyword(known)?)))
}
