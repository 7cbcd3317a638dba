//! Clauses: a known word, and the form that it mostly takes.

use super::super::heads::is_block_word;
use super::super::tree::{Bound, Checked, ClauseKind, DrawPart, Test};
use super::cursor::{Cursor, lower};
use super::measure::{measure, starts};
use super::moment::{after, clocks, order, when, whens};
use super::stock::{amount, draw, draws, placing};
use crate::cook::{CoverKind, Edge, Medium, Structure};
use crate::text::Span;

pub fn clause(cursor: &mut Cursor<'_>) -> Option<ClauseKind> {
    if cursor.byte().is_ascii_digit() {
        return amount(cursor);
    }
    let start = cursor.at();
    let word = cursor.word()?;
    let mut room = [0; 12];
    let word = lower(word, &mut room);
    if cursor.ends_here() {
        return alone(word);
    }
    let blank = cursor.blanks();
    match cursor.byte() {
        b'"' => spoken(word, cursor),
        _ if blank && starts(cursor) => figured(word, cursor),
        _ if blank => worded(word, cursor).or_else(|| {
            cursor.back_to(start);
            if is_taken(word) { None } else { placing(cursor) }
        }),
        _ => None,
    }
}

/// Words that are a whole clause.
fn alone(word: &str) -> Option<ClauseKind> {
    use ClauseKind as K;
    Some(match word {
        "uncovered" => K::Cover { kind: CoverKind::Uncovered, stuff: None },
        "covered" => K::Cover { kind: CoverKind::Covered, stuff: None },
        "bagged" => K::Cover { kind: CoverKind::Bagged, stuff: None },
        "hands-on" => K::HandsOn(None),
        "unattended" => K::Unattended,
        "vented" => K::Vented,
        "programmable" => K::Programmable,
        "fan" => K::Fan,
        "still" => K::Still,
        "frozen" => K::Frozen,
        "cooked" => K::Cooked,
        "intact" => K::Structure(Structure::Intact),
        "ground" => K::Structure(Structure::Ground),
        "tenderised" => K::Structure(Structure::Tenderised),
        "injected" => K::Structure(Structure::Injected),
        _ => return None,
    })
}

/// A word and a text in quotes.
fn spoken(word: &str, cursor: &mut Cursor<'_>) -> Option<ClauseKind> {
    use ClauseKind as K;
    Some(match word {
        "do" => K::Do(cursor.quoted()?),
        "note" => K::Note(cursor.quoted()?),
        "about" => K::About(cursor.quoted()?),
        "by" => K::By(cursor.quoted()?),
        "from" => K::Supplier(cursor.quoted()?),
        "until" => K::Until(tests(cursor)?),
        _ => return None,
    })
}

/// A word and a figure.
fn figured(word: &str, cursor: &mut Cursor<'_>) -> Option<ClauseKind> {
    use ClauseKind as K;
    if let Some(medium) = Medium::ALL.into_iter().find(|medium| medium.word() == word) {
        return Some(K::Setting { medium, measure: measure(cursor)? });
    }
    Some(match word {
        "for" => K::For(measure(cursor)?),
        "takes" => K::Takes { measure: measure(cursor)?, each: next_is(cursor, "each") },
        "thickness" => K::Thickness(measure(cursor)?),
        "depth" => K::Depth(measure(cursor)?),
        "shelves" => K::Shelves(measure(cursor)?),
        "holds" => K::Holds(measure(cursor)?),
        "preheat" => K::Preheat(measure(cursor)?),
        "moisture" => K::Moisture(measure(cursor)?),
        "room" => K::Room(measure(cursor)?),
        "within" => K::Within(measure(cursor)?),
        "fills" => K::Fills(measure(cursor)?),
        "hands-on" => K::HandsOn(Some(measure(cursor)?)),
        "core" => check(Checked::Core, false, cursor)?,
        "surface" => check(Checked::Surface, false, cursor)?,
        "serves" => {
            let people = measure(cursor)?;
            let each = if cursor.joined_by("with") {
                let each = measure(cursor)?;
                next_is(cursor, "each").then_some(())?;
                Some(each)
            } else {
                None
            };
            K::Serves { people, each }
        }
        "use" => K::Use(draws(cursor)?),
        "collect" => {
            let measure = measure(cursor)?;
            cursor.joined_by("of").then_some(())?;
            let name = cursor.name()?;
            let from = if cursor.joined_by("from") { Some(cursor.the_name()?) } else { None };
            K::Collect { measure, name, kind: None, from }
        }
        "at" => K::At(when(cursor)?),
        "from" => whens(cursor)?,
        "asleep" => {
            let (from, to) = clocks(cursor)?;
            K::Asleep(from, to)
        }
        "every" => {
            let every = measure(cursor)?;
            K::EveryDo { every, text: do_text(cursor)? }
        }
        _ => return None,
    })
}

/// A word and further words.
fn worded(word: &str, cursor: &mut Cursor<'_>) -> Option<ClauseKind> {
    use ClauseKind as K;
    Some(match word {
        "on" | "in" => K::Place { parts: Vec::new(), place: place(cursor)? },
        "until" => K::Until(tests(cursor)?),
        "use" => K::Use(draws(cursor)?),
        "rules" => K::Rules(cursor.name()?),
        "for" => {
            let first = cursor.word()?;
            cursor.blanks();
            if first.eq_ignore_ascii_case("up") {
                cursor.keyword("to")?;
                K::ForUpTo(measure(cursor)?)
            } else {
                cursor.keyword("least").filter(|()| first.eq_ignore_ascii_case("at"))?;
                K::ForAtLeast(measure(cursor)?)
            }
        }
        "at" if cursor.starts_with("end") => {
            cursor.word().filter(|end| end.eq_ignore_ascii_case("end"))?;
            K::AtEndDo(do_text(cursor)?)
        }
        "at" => K::At(when(cursor)?),
        "from" => whens(cursor)?,
        "starts" => order(Edge::Start, cursor)?,
        "ends" => order(Edge::End, cursor)?,
        "up" => {
            cursor.keyword("to")?;
            let late = measure(cursor)?;
            next_is(cursor, "late").then_some(())?;
            K::UpToLate(late)
        }
        "trim" => K::TrimLoss(after("loss", cursor)?),
        "cooked" => K::CookedYield(after("yield", cursor)?),
        "vacuum" => {
            cursor.word().filter(|bagged| bagged.eq_ignore_ascii_case("bagged"))?;
            cursor.ends_here().then_some(K::Cover { kind: CoverKind::VacuumBagged, stuff: None })?
        }
        "contains" => {
            let mut all = vec![cursor.name()?];
            while cursor.joined_by("and") {
                all.push(cursor.name()?);
            }
            K::Contains(all)
        }
        "expect" => {
            let what = checked(cursor)?;
            check(what, true, cursor)?
        }
        "wrapped" | "sealed" => {
            cursor.keyword("in")?;
            let kind = if word == "wrapped" { CoverKind::Wrapped } else { CoverKind::Sealed };
            K::Cover { kind, stuff: Some(cursor.the_name()?) }
        }
        "becomes" => {
            let name = cursor.name()?;
            let kind = if cursor.joined_by("is") { Some(cursor.description()?) } else { None };
            K::Becomes { name, kind }
        }
        "smoke" => {
            cursor.keyword("from")?;
            let draw = draw(cursor)?;
            (draw.name.is_some() && !matches!(draw.part, DrawPart::All)).then_some(K::Smoke(draw))?
        }
        _ => return None,
    })
}

/// Does a placing never start with this word?
fn is_taken(word: &str) -> bool {
    matches!(word, "" | "uncovered" | "covered" | "wrapped" | "sealed" | "bagged" | "vacuum")
        || is_block_word(word, word)
}

/// The kit after `on` or `in`, which is no weekday and ends the clause.
fn place(cursor: &mut Cursor<'_>) -> Option<Span> {
    let name = cursor.the_name()?;
    let word = cursor.typed(name);
    let day = word.get(..3).is_some_and(|day| {
        ["mon", "tue", "wed", "thu", "fri", "sat", "sun"].iter().any(|short| short.eq_ignore_ascii_case(day))
    });
    (!day && cursor.ends_here()).then_some(name)
}

fn tests(cursor: &mut Cursor<'_>) -> Option<Vec<Test>> {
    let mut all = Vec::with_capacity(1);
    loop {
        all.push(if cursor.byte() == b'"' {
            Test::Spoken(cursor.quoted()?)
        } else {
            Test::Figure { what: checked(cursor)?, measure: measure(cursor)? }
        });
        if !cursor.joined_by("and") {
            return Some(all);
        }
    }
}

fn checked(cursor: &mut Cursor<'_>) -> Option<Checked> {
    let mut room = [0; 12];
    let checked = match lower(cursor.word()?, &mut room) {
        "core" => Checked::Core,
        "surface" => Checked::Surface,
        "weight" => Checked::Weight,
        "ph" => Checked::Ph,
        "salt" => Checked::Salt,
        _ => return None,
    };
    cursor.blanks().then_some(checked)
}

fn check(what: Checked, expect: bool, cursor: &mut Cursor<'_>) -> Option<ClauseKind> {
    let measure = measure(cursor)?;
    let bound = if cursor.joined_by("or") {
        let mut room = [0; 12];
        match lower(cursor.word()?, &mut room) {
            "above" | "more" => Some(Bound::OrMore),
            "below" | "less" => Some(Bound::OrLess),
            _ => return None,
        }
    } else {
        None
    };
    Some(ClauseKind::Check { what, measure, bound, expect })
}

/// `do "…"`, after blanks.
fn do_text(cursor: &mut Cursor<'_>) -> Option<Span> {
    cursor.blanks().then_some(())?;
    cursor.keyword("do")?;
    cursor.quoted()
}

pub fn next_is(cursor: &mut Cursor<'_>, word: &str) -> bool {
    let end = cursor.at();
    let is_it = cursor.blanks() && cursor.word().is_some_and(|next| next.eq_ignore_ascii_case(word));
    if !is_it {
        cursor.back_to(end);
    }
    is_it
}
