//! Allergens, by their own and by other words.

use super::super::builder::Builder;
use crate::cook::Allergen;
use crate::findings::{Code, Finding};
use crate::say;
use crate::text::{Span, Spanned};

/// Other words for an allergen, from the examples of Regulation (EU) No 1169/2011, annex II, and from
/// common practice.
const ALLERGEN_WORDS: &[(&str, Allergen)] = &[
    ("wheat rye barley oat spelt flour", Allergen::Gluten),
    ("crustacean shellfish prawn shrimp crab lobster crayfish", Allergen::Crustaceans),
    ("peanut groundnut", Allergen::Peanuts),
    ("soy soybean soyabean tofu", Allergen::Soya),
    ("dairy lactose butter cheese cream", Allergen::Milk),
    ("almond hazelnut walnut cashew pecan pistachio macadamia treenut", Allergen::Nuts),
    ("celeriac", Allergen::Celery),
    ("sulphite sulfite sulphur sulfur sulfites", Allergen::Sulphites),
    ("mollusc mollusk mussel clam oyster squid scallop snail", Allergen::Molluscs),
];

pub(super) fn allergen(builder: &mut Builder<'_>, span: Span) -> Option<Spanned<Allergen>> {
    let typed = builder.units.slice(span);
    let lower = typed.to_lowercase();
    // Plurals and the commonest other words; the list itself is closed.
    let known = Allergen::ALL
        .iter()
        .find(|(_, word)| *word == lower || word.trim_end_matches('s') == lower.trim_end_matches('s'));
    if let Some((allergen, _)) = known {
        return Some(Spanned::new(*allergen, span));
    }
    let meant = ALLERGEN_WORDS.iter().find(|(words, _)| {
        words.split(' ').any(|word| word == lower || lower.strip_suffix('s') == Some(word))
    });
    let all: Vec<&str> = Allergen::ALL.iter().map(|(_, word)| *word).collect();
    let near = all
        .iter()
        .map(|word| (strsim::osa_distance(word, &lower), *word))
        .min()
        .filter(|(distance, _)| *distance <= 2);
    let remedy = match (meant, near) {
        (Some((_, allergen)), _) => say![format!("Write `contains {}`.", allergen.word())],
        (None, Some((_, near))) => say![format!("Did you mean `{near}`?")],
        (None, None) => say![format!("They are {}. Anything else goes in a `note`.", all.join(", "))],
    };
    builder.report(Finding::new(
        Code::AllergenUnknown,
        span,
        say![format!("`{typed}` is not one of the allergens that are kept track of.")],
        remedy,
    ));
    None
}
