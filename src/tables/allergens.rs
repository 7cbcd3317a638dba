//! Which words name food that holds an allergen.

use std::sync::OnceLock;

use serde::Deserialize;

use super::Species;
use crate::cook::Allergen;

/// As it stands in the data file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Lists {
    except: Vec<String>,
    allergen: Vec<Row>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    name: String,
    words: Vec<String>,
    #[serde(default)]
    species: Vec<Species>,
}

fn lists() -> &'static Lists {
    static LISTS: OnceLock<Lists> = OnceLock::new();
    LISTS.get_or_init(|| {
        toml::from_str(include_str!("data/allergens.toml")).expect("a test reads the embedded lists")
    })
}

/// The allergens that stock of this description and kind holds by what it is called; more may stand on its label.
pub fn named(description: &str, species: Option<Species>) -> Vec<Allergen> {
    let whole = singular(description);
    let rest = lists().except.iter().fold(whole.clone(), |rest, name| rest.replace(&singular(name), " "));
    let holds = |word: &String| {
        let text = if word.contains(' ') { &whole } else { &rest };
        text.contains(&singular(word))
    };
    let has = |row: &&Row| {
        species.is_some_and(|species| row.species.contains(&species)) || row.words.iter().any(holds)
    };
    lists().allergen.iter().filter(has).filter_map(|row| Allergen::find(&row.name)).collect()
}

/// What is meant by another word for an allergen.
pub fn meant_by(word: &str) -> Option<Allergen> {
    named(word, None).first().copied()
}

/// Lower case, single spaces, no plural, a space at either end.
fn singular(text: &str) -> String {
    let lower = text.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let single = words.map(|word| match word.strip_suffix('s') {
        Some(single) if !single.ends_with('s') && single.len() > 2 => single,
        _ => word,
    });
    format!(" {} ", single.collect::<Vec<_>>().join(" "))
}
