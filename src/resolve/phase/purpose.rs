//! What a phase is for.

use super::super::blocks::Block;
use super::super::builder::Builder;
use crate::cook::Purpose;
use crate::findings::{Code, Finding};
use crate::say;
use crate::text::Span;

/// A phase named after a purpose has it.
pub(super) fn purpose(
    builder: &mut Builder<'_>,
    block: &Block<'_>,
    name: Span,
    typed: Option<Span>,
) -> Purpose {
    let words = builder.text(typed.unwrap_or(name)).value;
    if let Some(purpose) = Purpose::named(&words) {
        return purpose;
    }
    let all: Vec<&str> = Purpose::WRITTEN.iter().map(|purpose| purpose.words()).collect();
    match typed {
        Some(span) => {
            let near = purpose_of(&words.to_lowercase()).map(|purpose| (0, purpose.words())).or_else(|| {
                all.iter()
                    .map(|known| (strsim::osa_distance(known, &words.to_lowercase()), *known))
                    .min_by_key(|(distance, _)| *distance)
                    .filter(|(distance, _)| *distance <= 2)
            });
            builder.report(Finding::new(
                Code::PurposeUnknown,
                span,
                say![format!("`{words}` is not a purpose that a phase can have.")],
                match near {
                    Some((_, near)) => say![format!("Did you mean `{near}`?")],
                    None => say![format!("The purposes are {}.", all.join(", "))],
                },
            ));
        }
        None => builder.report(Finding::new(
            Code::PurposeMissing,
            block.head.span,
            say![format!("It is not said what `{words}` is for, and that decides which rules judge it.")],
            say![format!(
                "Write `phase {words} is {}`, or another of {}.",
                purpose_of(&words.to_lowercase()).unwrap_or(Purpose::Cook).words(),
                all.join(", ")
            )],
        )),
    }
    Purpose::Prep
}

/// Kitchen words, by the purpose they most often have.
const PURPOSE_WORDS: &[(&str, Purpose)] = &[
    ("prepare preparation prepping mise trim season slice cut chop carve wrap mix", Purpose::Prep),
    ("defrost thawing", Purpose::Thaw),
    ("brine marinate pickle salting", Purpose::Cure),
    ("prove proof rise", Purpose::Ferment),
    ("cooking bake boil braise fry grill poach roast sear simmer smoke steam stew", Purpose::Cook),
    ("resting stand", Purpose::Rest),
    ("hold holding warm keep", Purpose::HotHold),
    ("chill cooling", Purpose::Cool),
    ("refrigerate store fridge", Purpose::ColdHold),
    ("freezing", Purpose::Freeze),
    ("rewarm reheating", Purpose::Reheat),
];

/// The purpose of a phase that somebody calls `roasting`.
fn purpose_of(word: &str) -> Option<Purpose> {
    let stem = word.trim_end_matches("ing");
    let same = |known: &str| known == word || known.trim_end_matches(['e']) == stem;
    PURPOSE_WORDS.iter().find(|(words, _)| words.split(' ').any(same)).map(|(_, purpose)| *purpose)
}
