//! How far what is typed follows a form, and what may come next.

use std::ops::Range;

use crate::quantity::find_unit;
use crate::syntax::forms::{Form, Part, Slot};
use crate::text::is_invisible;

/// A word, a figure, a sign or a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Token<'t> {
    start: usize,
    text: &'t str,
}

impl Token<'_> {
    fn is_number(&self) -> bool {
        self.text.trim_start_matches(['-', '−', '+', '.']).starts_with(|c: char| c.is_numeric())
    }

    fn is_text(&self) -> bool {
        self.text.starts_with(['"', '“', '”', '„', '‟'])
    }

    fn is_closed(&self) -> bool {
        self.text.chars().count() > 1 && self.text.ends_with(['"', '“', '”', '‟'])
    }

    fn is(&self, word: &str) -> bool {
        self.text.eq_ignore_ascii_case(word)
    }

    fn end(&self) -> usize {
        self.start + self.text.len()
    }
}

/// A place in a form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The part that is being typed, or comes next; as many as there are where the form is complete.
    pub part: usize,
    /// What of that part is typed already, as a range of what was handed in.
    pub typed: Range<usize>,
}

/// Where in the form somebody is who has typed this much of a clause; none where it does not read so.
pub fn places(form: &Form, typed: &str) -> Vec<Place> {
    let tokens = tokens(typed);
    // The word at the cursor may go on.
    let open = tokens.last().is_some_and(|last| last.end() == typed.len());
    let done = tokens.len() - usize::from(open);
    let walk = Walk { typed, tokens: &tokens, done };
    walk.follow(&form.parts())
}

/// The form that a whole clause reads as: the one most of whose words are in it.
pub fn form_of<'f>(forms: impl Iterator<Item = &'f Form>, clause: &str) -> Option<&'f Form> {
    let whole = format!("{clause} ");
    let complete = |form: &&Form| {
        let parts = form.parts().len();
        places(form, &whole).iter().any(|place| place.part == parts)
            || form.parts().last().is_some_and(|last| {
                matches!(last, Part::Slot { .. })
                    && places(form, &whole)
                        .iter()
                        .any(|place| place.part + 1 == parts && !place.typed.is_empty())
            })
    };
    let words = |form: &&Form| form.parts().iter().filter(|part| matches!(part, Part::Word(_))).count();
    // Of two with as many words the first is meant.
    forms.filter(complete).reduce(|best, next| if words(&next) > words(&best) { next } else { best })
}

struct Walk<'w> {
    typed: &'w str,
    tokens: &'w [Token<'w>],
    /// How many of the tokens cannot go on.
    done: usize,
}

impl Walk<'_> {
    fn follow(&self, parts: &[Part]) -> Vec<Place> {
        let mut at = 0;
        for (nth, part) in parts.iter().enumerate() {
            let next = match part {
                Part::Word(word) => self.word(nth, word, at),
                Part::Slot { slot, .. } => {
                    let stop = match parts.get(nth + 1) {
                        Some(Part::Word(word)) => Some(*word),
                        _ => None,
                    };
                    self.slot(nth, *slot, stop, at)
                }
            };
            match next {
                Ok(next) => at = next,
                Err(places) => return places,
            }
        }
        let whole = at == self.tokens.len();
        if whole { vec![self.here(parts.len(), at)] } else { Vec::new() }
    }

    /// The place `part`, of which the tokens from `from` on are typed.
    fn here(&self, part: usize, from: usize) -> Place {
        let end = self.typed.len();
        let start = self.tokens.get(from).map_or(end, |token| token.start);
        Place { part, typed: start..end }
    }

    /// The token after this word, or where it all ends.
    fn word(&self, nth: usize, word: &str, at: usize) -> Result<usize, Vec<Place>> {
        if at < self.done {
            return if self.tokens[at].is(word) { Ok(at + 1) } else { Err(Vec::new()) };
        }
        let begun = self.tokens.get(at).map_or("", |token| token.text);
        let fits = word.get(..begun.len()).is_some_and(|start| start.eq_ignore_ascii_case(begun));
        Err(if fits { vec![self.here(nth, at)] } else { Vec::new() })
    }

    fn slot(&self, nth: usize, slot: Slot, stop: Option<&str>, at: usize) -> Result<usize, Vec<Place>> {
        match slot {
            Slot::Text | Slot::File => self.text(nth, at),
            _ if is_name(slot) => self.name(nth, slot, at),
            _ => self.run(nth, slot, stop, at),
        }
    }

    fn text(&self, nth: usize, at: usize) -> Result<usize, Vec<Place>> {
        match self.tokens.get(at) {
            Some(token) if !token.is_text() => Err(Vec::new()),
            Some(token) if at < self.done && token.is_closed() => Ok(at + 1),
            _ => Err(vec![self.here(nth, at)]),
        }
    }

    /// One name; several where they are joined.
    fn name(&self, nth: usize, slot: Slot, mut at: usize) -> Result<usize, Vec<Place>> {
        loop {
            if at < self.done && self.tokens[at].is("the") {
                at += 1;
            }
            let Some(token) = self.tokens.get(at) else { return Err(vec![self.here(nth, at)]) };
            let begins = |c: char| c.is_alphabetic();
            if !token.text.starts_with(begins) || (at < self.done && is_small(token.text)) {
                return Err(Vec::new());
            }
            if at >= self.done {
                return Err(vec![self.here(nth, at)]);
            }
            at += 1;
            let joined = matches!(slot, Slot::Food | Slot::Stock | Slot::Allergen);
            if !(joined && at < self.done && self.tokens[at].is("and")) {
                return Ok(at);
            }
            at += 1;
        }
    }

    /// Figures, times or words, up to the word that ends them.
    fn run(&self, nth: usize, slot: Slot, stop: Option<&str>, at: usize) -> Result<usize, Vec<Place>> {
        let tokens = &self.tokens[at..];
        let starts = |token: &Token<'_>| match slot {
            Slot::FoodKind | Slot::KitClass | Slot::Purpose | Slot::Words => !token.is_number(),
            Slot::Clock | Slot::Day => token.is_number() || token.text.starts_with(char::is_alphabetic),
            _ => token.is_number(),
        };
        if tokens.first().is_some_and(|first| !starts(first)) {
            return Err(Vec::new());
        }
        let done = &tokens[..tokens.len().min(self.done.saturating_sub(at))];
        if let Some(end) = stop.and_then(|stop| done.iter().position(|token| token.is(stop))) {
            return if end == 0 { Err(Vec::new()) } else { Ok(at + end) };
        }
        let mut places = vec![self.here(nth, at)];
        let complete = !done.is_empty() && is_complete(slot, done);
        if let Some(stop) = stop.filter(|_| complete) {
            // The next word of the form may come too.
            let begun = tokens.get(done.len()).map_or("", |token| token.text);
            if stop.get(..begun.len()).is_some_and(|start| start.eq_ignore_ascii_case(begun)) {
                places.push(self.here(nth + 1, at + done.len()));
            }
        }
        Err(places)
    }
}

/// Is one word typed there, which is a name or a row of a short list?
pub fn is_name(slot: Slot) -> bool {
    use Slot as S;
    matches!(
        slot,
        S::NewName
            | S::Kit
            | S::Food
            | S::Stock
            | S::Wrap
            | S::Wood
            | S::Phase
            | S::RuleSet
            | S::Code
            | S::Allergen
            | S::Shape
            | S::KitchenMeasures
    )
}

/// Words that are never a name, as far as a form may go on with one where a name could stand.
fn is_small(word: &str) -> bool {
    let small = [
        "all", "half", "of", "in", "on", "is", "and", "to", "for", "from", "at", "by", "after", "before",
        "when",
    ];
    small.iter().any(|known| known.eq_ignore_ascii_case(word))
}

/// Does a figure with its unit stand there, or a time?
fn is_complete(slot: Slot, done: &[Token<'_>]) -> bool {
    let last = done[done.len() - 1];
    match slot {
        Slot::Number | Slot::Clock | Slot::Day => last.is_number() || done.len() > 1,
        Slot::Amount => !last.is_number() || done.len() > 1,
        _ => find_unit(last.text).is_some(),
    }
}

fn tokens(typed: &str) -> Vec<Token<'_>> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(first) = typed[at..].chars().next() {
        let rest = &typed[at..];
        let length = if is_invisible(first) {
            at += first.len_utf8();
            continue;
        } else {
            length(rest, first)
        };
        found.push(Token { start: at, text: &rest[..length] });
        at += length;
    }
    found
}

fn length(rest: &str, first: char) -> usize {
    let up_to = |ends: fn(char) -> bool| rest.find(ends).unwrap_or(rest.len());
    let signed = rest.chars().nth(1).is_some_and(char::is_numeric);
    match first {
        '"' => rest[1..].find('"').map_or(rest.len(), |end| end + 2),
        '“' | '”' | '„' | '‟' => {
            let inside = first.len_utf8();
            let end = rest[inside..].char_indices().find(|(_, c)| matches!(c, '”' | '“' | '‟'));
            end.map_or(rest.len(), |(end, c)| inside + end + c.len_utf8())
        }
        '-' | '−' | '+' | '.' if signed => {
            let sign = first.len_utf8();
            sign + rest[sign..].find(|c: char| !is_of_number(c)).unwrap_or(rest.len() - sign)
        }
        c if c.is_numeric() => up_to(|c| !is_of_number(c)),
        c if c.is_alphabetic() => up_to(|c| !c.is_alphanumeric() && !matches!(c, '-' | '/' | '_')),
        '°' | 'º' | '˚' => {
            let sign = first.len_utf8();
            sign + rest[sign..].find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len() - sign)
        }
        c => c.len_utf8(),
    }
}

fn is_of_number(c: char) -> bool {
    c.is_numeric() || matches!(c, '.' | '/' | ':' | '-' | '–')
}
