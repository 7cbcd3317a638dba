//! Names as a table is asked for them: word order, commas, letter case and a plural do not matter.

use std::collections::BTreeMap;

/// Words that say nothing about which row is meant.
const SMALL_WORDS: [&str; 4] = ["of", "the", "a", "an"];

/// Which row a name means. Built once, asked often.
#[derive(Debug, Clone, Default)]
pub struct NameIndex {
    rows: BTreeMap<String, usize>,
}

impl NameIndex {
    /// A later row of the same name takes the place of an earlier one.
    pub fn insert(&mut self, name: &str, row: usize) {
        self.rows.insert(key(name), row);
    }

    pub fn get(&self, name: &str) -> Option<usize> {
        self.rows.get(&key(name)).copied()
    }

    /// As [`get`](Self::get), passing over `idle` words where the name is not found with them.
    pub fn get_without(&self, name: &str, idle: &[&str]) -> Option<usize> {
        self.get(name).or_else(|| {
            let words: Vec<String> =
                words(name).into_iter().filter(|word| !idle.contains(&word.as_str())).collect();
            self.rows.get(&joined(words)).copied()
        })
    }
}

/// `beans, cooked` and `Cooked Bean` have the same key.
fn key(name: &str) -> String {
    joined(words(name))
}

fn joined(mut words: Vec<String>) -> String {
    words.sort_unstable();
    words.join(" ")
}

fn words(name: &str) -> Vec<String> {
    name.to_lowercase()
        .replace(['\'', '’'], "")
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty() && !SMALL_WORDS.contains(word))
        .map(singular)
        .collect()
}

fn singular(word: &str) -> String {
    for (many, one) in [("ies", "y"), ("oes", "o"), ("shes", "sh"), ("ches", "ch")] {
        if let Some(stem) = word.strip_suffix(many)
            && stem.len() > 1
        {
            return format!("{stem}{one}");
        }
    }
    match word.strip_suffix('s') {
        Some(stem) if stem.len() > 2 && !stem.ends_with('s') => stem.to_owned(),
        _ => word.to_owned(),
    }
}

/// How near two names are: 1 is the same, 0 has nothing in common. Either as spelt, or by the words
/// they share, spelt more or less alike.
fn nearness(asked: &[String], offered: &str) -> f64 {
    let offered = words(offered);
    if asked.is_empty() || offered.is_empty() {
        return 0.0;
    }
    let spelling = strsim::normalized_damerau_levenshtein(&asked.join(" "), &offered.join(" "));
    let shared: f64 = asked
        .iter()
        .map(|word| offered.iter().map(|other| word_nearness(word, other)).fold(0.0, f64::max))
        .sum();
    let by_words = 2.0 * shared / (asked.len() + offered.len()) as f64;
    spelling.max(0.98 * by_words)
}

/// Two words count as one where no more than about one letter in four differs.
fn word_nearness(a: &str, b: &str) -> f64 {
    let near = strsim::normalized_damerau_levenshtein(a, b);
    if near >= 0.7 { near } else { 0.0 }
}

/// The names nearest to `asked`, the nearest first, at most three, none that is far.
/// Each offer is a name to show and the names it goes by.
pub fn nearest<'a>(asked: &str, offers: impl Iterator<Item = (&'a str, &'a [String])>) -> Vec<&'a str> {
    // One word of two shared (`chicken wing`, `chicken thigh`) is still worth showing; less looks like
    // a guess. Tried on trade words.
    const LEAST: f64 = 0.45;
    // Nobody means a name by more than this; a line of a megabyte is not to be compared with anything.
    const LONGEST: usize = 60;
    let asked = words(&asked.chars().take(LONGEST).collect::<String>());
    let mut near: Vec<(f64, &str)> = offers
        .map(|(shown, others)| {
            let others = others.iter().map(|other| nearness(&asked, other));
            (others.fold(nearness(&asked, shown), f64::max), shown)
        })
        .filter(|(score, _)| *score >= LEAST)
        .collect();
    near.sort_by(|a, b| b.0.total_cmp(&a.0));
    near.truncate(3);
    near.into_iter().map(|(_, shown)| shown).collect()
}
