//! Stock that no rule about animal food is about, by name: raw plants, what keeps in a cupboard, and
//! what is no food at all.

use std::sync::OnceLock;

use serde::Deserialize;

use super::names::NameIndex;

/// As it stands in the data file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Lists {
    plants: Vec<String>,
    keeps: Vec<String>,
    not_food: Vec<String>,
    animal_words: Vec<String>,
}

struct Pantry {
    plants: NameIndex,
    others: NameIndex,
    animal_words: NameIndex,
}

fn pantry() -> &'static Pantry {
    static PANTRY: OnceLock<Pantry> = OnceLock::new();
    PANTRY.get_or_init(|| {
        let text = include_str!("data/pantry.toml");
        let lists: Lists = toml::from_str(text).expect("a test reads the embedded lists");
        let index = |names: Vec<String>| {
            let mut index = NameIndex::default();
            names.iter().for_each(|name| index.insert(name, 0));
            index
        };
        Pantry {
            plants: index(lists.plants),
            others: index([lists.keeps, lists.not_food].concat()),
            animal_words: index(lists.animal_words),
        }
    })
}

/// Is `name` in the pantry list? Letter case, order of words and a plural make no difference.
pub fn holds(name: &str) -> bool {
    is_plant(name) || pantry().others.get(name).is_some()
}

/// Is `name` a raw plant of the pantry list, which needs control once it is cooked?
pub fn is_plant(name: &str) -> bool {
    pantry().plants.get(name).is_some()
}

/// Does `word` say that there is an animal in it?
pub fn speaks_of_animals(word: &str) -> bool {
    pantry().animal_words.get(word).is_some()
}
