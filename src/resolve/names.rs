//! Names: one space each for kit, the store and phases.

use std::collections::HashMap;

use unicode_normalization::UnicodeNormalization;

use crate::quantity::find_unit;

/// Words that can never be names. The grammar keeps the small words out already.
const RESERVED: &[&str] = &[
    "dwell",
    "cook",
    "kit",
    "food",
    "ingredient",
    "phase",
    "serve",
    "crew",
    "menu",
    "dish",
    "covered",
    "uncovered",
    "wrapped",
    "sealed",
    "bagged",
    "frozen",
    "cooked",
    "intact",
    "ground",
    "tenderised",
    "injected",
    "starts",
    "ends",
    "serving",
    "look",
    "vacuum",
];

/// Is `name` a block word, a cover, a state or a unit?
pub fn is_reserved(name: &str) -> bool {
    RESERVED.iter().any(|word| word.eq_ignore_ascii_case(name)) || find_unit(name).is_some()
}

/// How a looked-up name fared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Found<T> {
    Yes(T),
    /// Not declared, but a line without effect may have meant to.
    Damped,
    No,
}

/// The names of one space.
#[derive(Debug)]
pub struct Names<T> {
    ids: HashMap<String, T>,
    /// In order of declaration, for suggestions.
    spelt: Vec<String>,
}

impl<T> Default for Names<T> {
    fn default() -> Self {
        Self { ids: HashMap::new(), spelt: Vec::new() }
    }
}

impl<T: Copy + PartialEq> Names<T> {
    /// The id that already has the name, if any; otherwise the name is taken now.
    pub fn declare(&mut self, name: &str, id: T) -> Option<T> {
        if let Some(&taken) = self.ids.get(folded(name).as_ref()) {
            return Some(taken);
        }
        self.ids.insert(folded(name).into_owned(), id);
        self.spelt.push(name.to_string());
        None
    }

    /// Looks a name up in any letter case; a final `s` more or less is forgiven where one fits.
    pub fn find(&self, name: &str) -> Option<T> {
        let name = folded(name);
        if let Some(&id) = self.ids.get(name.as_ref()) {
            return Some(id);
        }
        match name.strip_suffix('s') {
            Some(shorter) => self.ids.get(shorter).copied(),
            None => self.ids.get(&format!("{name}s")).copied(),
        }
    }

    /// The declared name that is spelt most like this one.
    pub fn nearest(&self, name: &str) -> Option<&str> {
        let name = folded(name);
        if name.len() > 60 {
            return None;
        }
        let allowed = (name.chars().count() / 3).clamp(1, 3);
        // A hostile file may declare thousands; the first few hundred are enough for a hint.
        self.spelt
            .iter()
            .take(300)
            .map(|known| (strsim::osa_distance(folded(known).as_ref(), &name), known))
            .filter(|(distance, _)| *distance <= allowed)
            .min_by_key(|(distance, _)| *distance)
            .map(|(_, known)| known.as_str())
    }
}

/// What `typed` names, in any letter case; a final `s` more or less is forgiven where one fits.
pub fn named<'t, T>(
    all: impl IntoIterator<Item = T>,
    name: impl Fn(&T) -> &'t str,
    typed: &str,
) -> Option<T> {
    let mut names = Names::default();
    let mut all: Vec<Option<T>> = all.into_iter().map(Some).collect();
    for (nth, one) in all.iter().flatten().enumerate() {
        names.declare(name(one), nth);
    }
    all.get_mut(names.find(typed)?)?.take()
}

/// A name as it is compared: in lower case, with each letter and its accents as one sign however they
/// were typed, and without marks that take no room. No copy where nothing changes.
pub fn folded(name: &str) -> std::borrow::Cow<'_, str> {
    if name.bytes().all(|byte| byte.is_ascii() && !byte.is_ascii_uppercase()) {
        return name.into();
    }
    let no_room = |c: &char| matches!(c, '\u{200B}'..='\u{200F}' | '\u{FE00}'..='\u{FE0F}');
    name.nfc().filter(|c| !no_room(c)).flat_map(char::to_lowercase).collect::<String>().into()
}
