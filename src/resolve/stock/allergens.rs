//! Allergens, by their own and by other words.

use super::super::builder::Builder;
use crate::cook::Allergen;
use crate::findings::{Code, Finding};
use crate::say;
use crate::tables::allergens::meant_by;
use crate::text::{Span, Spanned};

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
    let meant = meant_by(&lower);
    let all: Vec<&str> = Allergen::ALL.iter().map(|(_, word)| *word).collect();
    let near = all
        .iter()
        .map(|word| (strsim::osa_distance(word, &lower), *word))
        .min()
        .filter(|(distance, _)| *distance <= 2);
    let remedy = match (meant, near) {
        (Some(allergen), _) => say![format!("Write `contains {}`.", allergen.word())],
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
