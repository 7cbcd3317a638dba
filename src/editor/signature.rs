//! How the clause under the cursor is written, and which part of it is being typed.

use std::ops::Range;

use super::View;
use super::at::At;
use super::typing::{Place, places};
use crate::syntax::forms::{self, Form, Part};

/// The forms of a clause.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signature {
    pub forms: Vec<SignatureForm>,
    /// The first that reads on from what is typed.
    pub active: Option<usize>,
    /// Which of its slots is being typed.
    pub slot: Option<usize>,
}

/// One way in which it may be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SignatureForm {
    pub text: String,
    /// Where in the text what is the cook's own stands.
    pub slots: Vec<Range<usize>>,
    pub means: &'static str,
}

/// The forms of the clause around `offset`; `None` where no known one has begun.
pub fn signature(view: &View<'_>, offset: usize) -> Option<Signature> {
    let at = At::of(view, offset)?;
    let typed = at.typed(view)?;
    let first = typed.trim_start().split(|c: char| !c.is_alphanumeric() && c != '-').next()?.to_lowercase();
    // While its first word is being typed, it may still become another.
    if first.is_empty() || typed.trim_start().len() == first.len() {
        return None;
    }
    let block = at.block.as_ref().filter(|_| !at.is_first || !is_head(&at));
    let known = of_word(&first, block.map(|block| block.word.as_str()), at.is_first);
    let found: Vec<(&Form, Option<Place>)> = match known.is_empty() {
        false => known.into_iter().map(|form| (form, places(form, typed).into_iter().next())).collect(),
        // A name comes first: what reads on from it.
        true => {
            let inside = |form: &&Form| block.is_some_and(|block| form.blocks.contains(&block.word.as_str()));
            let place = |form| Some((form, Some(places(form, typed).into_iter().next()?)));
            forms::WORDLESS.iter().filter(inside).filter_map(place).collect()
        }
    };
    if found.is_empty() {
        return None;
    }
    let active = found.iter().position(|(_, place)| place.is_some());
    let slot = active.and_then(|nth| {
        let (form, place) = &found[nth];
        let part = place.as_ref()?.part;
        let slots = form.parts().iter().take(part).filter(|part| matches!(part, Part::Slot { .. })).count();
        matches!(form.parts().get(part), Some(Part::Slot { .. })).then_some(slots)
    });
    let forms = found.into_iter().map(|(form, _)| shown(form)).collect();
    Some(Signature { forms, active, slot })
}

fn is_head(at: &At) -> bool {
    at.block.as_ref().is_some_and(|block| block.is_head)
}

/// The forms that start with a word, those first that belong in this block.
fn of_word(word: &str, block: Option<&str>, is_first: bool) -> Vec<&'static Form> {
    let heads: Vec<&Form> = forms::BLOCKS.iter().filter(|form| is_first && form.word == word).collect();
    if !heads.is_empty() && (block.is_none() || word != "cook") {
        return heads;
    }
    let mut all = forms::of(word).to_vec();
    all.sort_by_key(|form| !block.is_some_and(|block| form.blocks.contains(&block)));
    all
}

fn shown(form: &'static Form) -> SignatureForm {
    let mut text = String::new();
    let mut slots = Vec::new();
    for part in form.parts() {
        if !text.is_empty() {
            text.push(' ');
        }
        match part {
            Part::Word(word) => text.push_str(word),
            Part::Slot { example, .. } => {
                slots.push(text.len()..text.len() + example.len());
                text.push_str(example);
            }
        }
    }
    SignatureForm { text, slots, means: form.means }
}
