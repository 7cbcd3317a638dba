//! What could come next where somebody types.
//!
//! Every form of the language is followed as far as it is typed, and goes on from there. What the compiler would refuse
//! there (a fact that belongs in another block, or was said already) is not offered: it is tried on the block.

mod trial;
mod values;

use std::collections::BTreeSet;
use std::ops::Range;

use super::View;
use super::at::At;
use super::typing::{Place, places};
use crate::syntax::HeadKind;
use crate::syntax::forms::{self, Form, Part, Slot};
use crate::tables::Tables;
use crate::text::Span;
use trial::Trial;
use values::{Value, Values};

/// What an offer is made from besides the file.
#[derive(Debug, Clone, Copy)]
pub struct Around<'a> {
    /// Those in force in the folder.
    pub tables: &'a Tables,
    /// The names of the other files of the folder, as a cook would write them.
    pub files: &'a [String],
}

/// What an offer stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum OfferKind {
    /// The first line of a block.
    Block,
    #[default]
    /// A clause, or the rest of one.
    Clause,
    /// A name that is declared in the file.
    Name,
    /// A word from a table.
    Row,
    Unit,
    File,
}

/// Something that may come next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    pub kind: OfferKind,
    /// What it is called in a list.
    pub label: String,
    /// A few words beside it.
    pub detail: String,
    /// What it says, in a sentence or two.
    pub means: String,
    /// What it takes the place of.
    pub replace: Span,
    pub text: String,
    /// Where in `text` an example stands that is for the cook to fill in, in order.
    pub blanks: Vec<Range<usize>>,
    /// It was found by more than how it begins: a list that is filtered by its beginning has to keep it.
    pub is_near: bool,
}

/// What may come at `offset`, the likeliest first. None in a remark or a text.
pub fn completion(view: &View<'_>, offset: usize, around: &Around<'_>) -> Vec<Offer> {
    let Some(at) = At::of(view, offset) else { return Vec::new() };
    let Some(typed) = at.typed(view) else { return Vec::new() };
    let asked = Asked { view, at: &at, typed, values: Values::new(view, &at, around) };
    let trial = Trial::new(view, &at);
    let mut offers: Vec<Offer> = Vec::new();
    let mut seen = BTreeSet::new();
    for form in candidates(view, &at) {
        for place in places(form, typed) {
            let found = asked.offers(form, &place);
            // One stands for all: what they differ in is for the cook to choose.
            let Some(first) = found.first() else { continue };
            if trial.refuses(first) {
                continue;
            }
            offers.extend(found.into_iter().filter(|offer| seen.insert(offer.label.clone())));
        }
    }
    offers.sort_by_key(|offer| std::cmp::Reverse(offer.kind));
    offers
}

/// The forms that may stand in the piece.
fn candidates(view: &View<'_>, at: &At) -> Vec<&'static Form> {
    // A file is one cook, or one menu.
    let file = view.tree.heads.iter().find_map(|head| match head.kind {
        HeadKind::Cook { .. } => Some("cook"),
        HeadKind::Menu { .. } => Some("menu"),
        _ => None,
    });
    let belongs = |form: &&Form| match file {
        Some(file) => {
            let is_title = matches!(form.word, "cook" | "menu");
            !is_title && (form.blocks.is_empty() || form.blocks.contains(&file))
        }
        None => true,
    };
    let heads = forms::BLOCKS.iter().filter(belongs);
    let word = at.block.as_ref().map_or("", |block| block.word.as_str());
    let inside = |form: &&Form| form.blocks.contains(&word);
    let clauses = forms::WORDLESS.iter().chain(forms::clauses().iter().copied()).filter(inside);
    match (&at.block, at.is_first) {
        (Some(block), true) if block.is_head => heads.collect(),
        (_, true) => clauses.chain(heads).collect(),
        (_, false) => clauses.collect(),
    }
}

/// A place that is asked about.
struct Asked<'v> {
    view: &'v View<'v>,
    at: &'v At,
    typed: &'v str,
    values: Values<'v>,
}

impl Asked<'_> {
    /// What may come at this place of a form.
    fn offers(&self, form: &'static Form, place: &Place) -> Vec<Offer> {
        let parts = form.parts();
        let typed = self.typed.get(place.typed.clone()).unwrap_or("");
        if place.part > 0 && !self.begins_with_a_name(&parts) {
            return Vec::new();
        }
        let mut to_come = parts.iter().skip(place.part);
        let lacks = |part: &Part| matches!(part, Part::Slot { slot, .. } if self.values.lacks(*slot));
        if to_come.any(lacks) {
            return Vec::new();
        }
        match parts.get(place.part) {
            None => Vec::new(),
            // Before what stands there already, a new beginning makes no sense.
            Some(Part::Word(_)) if place.part == 0 && !self.after(self.word()).trim().is_empty() => {
                Vec::new()
            }
            Some(Part::Word(word)) => {
                let kind = match place.part == 0 && form.is_head {
                    true => OfferKind::Block,
                    false => OfferKind::Clause,
                };
                vec![self.offer(form, &parts, place, Value { kind, ..Value::of_word(word) })]
            }
            Some(Part::Slot { slot, example }) => {
                let said = self.typed.get(..place.typed.start).unwrap_or("");
                let joined = said.trim_end().ends_with(" and");
                let again = |value: &Value| joined && said.split_whitespace().any(|word| word == value.text);
                let values = self.values.of(*slot, example, typed);
                values
                    .into_iter()
                    .filter(|value| !again(value))
                    .map(|value| self.offer(form, &parts, place, value))
                    .collect()
            }
        }
    }

    /// The length of what of the word under the cursor stands behind it: that is replaced too.
    fn word(&self) -> usize {
        let after = self.after(0);
        after.find(|c: char| !c.is_alphanumeric() && c != '-').unwrap_or(after.len())
    }

    /// The rest of the piece from so many bytes behind the cursor on.
    fn after(&self, skip: usize) -> &str {
        self.view.text().get(self.at.offset + skip..self.at.piece.end).unwrap_or("")
    }

    /// A form that starts with a name goes on only after one that is known.
    fn begins_with_a_name(&self, parts: &[Part]) -> bool {
        let first = self.typed.split_whitespace().next().unwrap_or("");
        match parts.first() {
            Some(Part::Slot { slot: Slot::Food, .. }) => self.values.knows(first),
            _ => true,
        }
    }

    /// The value, and the rest of the form after it where nothing stands there yet.
    fn offer(&self, form: &'static Form, parts: &[Part], place: &Place, value: Value) -> Offer {
        let Value { kind, mut text, mut blanks, detail, means, appends, skip, is_near } = value;
        // The quote that closes a text is replaced with it.
        let word = self.word();
        let word = word + usize::from(kind == OfferKind::File && self.after(word).starts_with('"'));
        let mut label = text.trim_start().to_owned();
        if appends && self.after(word).trim().is_empty() {
            self.append(&parts[place.part + 1..], &mut text, &mut blanks);
            let is_rest = matches!(kind, OfferKind::Clause | OfferKind::Block) || place.part == 0;
            if is_rest {
                label.clone_from(&text);
            }
        }
        let start = self.at.piece.start + place.typed.start + skip;
        let before = self.view.text()[self.at.line.start..start].chars().next_back();
        if before.is_some_and(|before| !before.is_whitespace()) && !text.starts_with(' ') {
            text.insert(0, ' ');
            blanks.iter_mut().for_each(|blank| *blank = blank.start + 1..blank.end + 1);
        }
        let detail = match detail.is_empty() && !blanks.is_empty() {
            true => "an example, to write over".to_owned(),
            false => detail,
        };
        let means = if means.is_empty() { form.means.to_owned() } else { means };
        let replace = Span::new(self.view.file, start, self.at.offset + word);
        Offer { kind, label, detail, means, replace, text, blanks, is_near }
    }

    /// The parts of a form, with what is the cook's own to be filled in.
    fn append(&self, parts: &[Part], text: &mut String, blanks: &mut Vec<Range<usize>>) {
        for part in parts {
            text.push(' ');
            match part {
                Part::Word(word) => text.push_str(word),
                Part::Slot { slot, example } => {
                    let filled = self.values.default(*slot, example).unwrap_or_else(|| (*example).to_owned());
                    blanks.push(inside(&filled, text.len()));
                    text.push_str(&filled);
                }
            }
        }
    }
}

/// What there is to write over of an example that is put at `start`: of a text, all between its quotes.
pub(super) fn inside(example: &str, start: usize) -> Range<usize> {
    let quote = usize::from(example.starts_with('"'));
    start + quote..start + example.len() - quote
}

impl Offer {
    /// The text up to the first thing that is for the cook to fill in.
    pub fn without_examples(&self) -> &str {
        let end = self.blanks.first().map_or(self.text.len(), |blank| blank.start);
        &self.text[..end]
    }
}
