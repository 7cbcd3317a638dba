//! The grammar at work. pest and its types stay inside this module.
//!
//! Lines come in with [`plain_blanks`](crate::text::plain_blanks).

use pest::Parser;
use pest::iterators::{Pair, Pairs};
use pest_derive::Parser;

use super::tree::{
    Bound, Checked, Clause, ClauseKind, Draw, DrawPart, Figure, Head, HeadKind, Measure, MomentWords,
    Nearness, Test, WhenWords,
};
use crate::cook::{CoverKind, Edge, Medium, Structure};
use crate::text::{FileId, Span};

#[derive(Parser)]
#[grammar = "../grammar/dwell.pest"]
struct Grammar;

/// What one line holds.
#[derive(Debug, Default)]
pub struct LineRead {
    pub head: Option<Head>,
    pub clauses: Vec<Clause>,
    pub comment: Option<Span>,
}

/// Whether a line is read as the head of a block: its first word tells.
fn start(line: &str) -> Rule {
    let trimmed = line.trim_start();
    let end = trimmed.find(|c: char| !c.is_alphanumeric() && c != '-').unwrap_or(trimmed.len());
    let word = trimmed.get(..end).unwrap_or(trimmed);
    if super::heads::is_block_word(word, trimmed) { Rule::head_line } else { Rule::clause_line }
}

/// `beef dripping from the joint`: the words before the last `from`, and the name after it.
fn kind_and_parent(words: &Pair<'_, Rule>, base: Base) -> (Option<Span>, Option<Span>) {
    let whole = words_span(words, base);
    let text = words.as_str().trim_end();
    let lower = text.to_ascii_lowercase();
    let Some(at) = lower.rfind(" from ") else { return (Some(whole), None) };
    let after = &text[at + " from ".len()..];
    let name = after.trim_start();
    let name =
        name.get(..4).filter(|the| the.eq_ignore_ascii_case("the ")).map_or(name, |_| name[4..].trim_start());
    if name.is_empty() || name.contains(' ') {
        return (Some(whole), None);
    }
    let start = whole.start as usize;
    let kind = Span::new(base.file, start, start + text[..at].trim_end().len());
    let from = Span::new(base.file, start + text.len() - name.len(), start + text.len());
    (Some(kind), Some(from))
}

/// A description without the blanks at its end.
fn words_span(words: &Pair<'_, Rule>, base: Base) -> Span {
    let span = base.span(words);
    let blanks = words.as_str().len() - words.as_str().trim_end().len();
    Span { end: span.end - blanks as u32, ..span }
}

/// What a stretch of a line is, for the formatter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TokenKind {
    Number,
    Unit,
    To,
    PlusMinus,
    Clock,
    Weekday,
    /// Names, codes, zones and dates: as typed.
    Literal,
    /// A description.
    Words,
    Text,
    Comment,
}

/// Turns offsets in one line into spans of the file.
#[derive(Clone, Copy)]
pub struct Base {
    pub file: FileId,
    pub offset: usize,
}

impl Base {
    fn span(self, pair: &Pair<'_, Rule>) -> Span {
        let span = pair.as_span();
        Span::new(self.file, self.offset + span.start(), self.offset + span.end())
    }
}

/// Reads a whole line; `Err` holds the offset up to which it could be read.
pub fn read_line(line: &str, base: Base) -> Result<LineRead, usize> {
    let pairs = Grammar::parse(start(line), line).map_err(|error| offset_of(&error))?;
    let mut read = LineRead::default();
    for pair in pairs {
        let span = base.span(&pair);
        match pair.as_rule() {
            Rule::EOI => {}
            Rule::comment => read.comment = Some(span),
            rule => {
                if let Some(kind) = clause(rule, &pair, base) {
                    read.clauses.push(Clause { span, kind });
                } else if let Some(kind) = head(rule, pair, base) {
                    read.head = Some(Head { span, kind });
                }
            }
        }
    }
    Ok(read)
}

/// Reads one clause alone.
pub fn read_clause(piece: &str, base: Base) -> Option<Clause> {
    let pair = Grammar::parse(Rule::only_clause, piece).ok()?.next()?;
    let span = base.span(&pair);
    clause(pair.as_rule(), &pair, base).map(|kind| Clause { span, kind })
}

/// Is `piece` one clause and nothing else?
pub fn reads_as_clause(piece: &str) -> bool {
    Grammar::parse(Rule::only_clause, piece).is_ok()
}

/// Is `piece` the head of a block and nothing else?
pub fn reads_as_head(piece: &str) -> bool {
    Grammar::parse(Rule::only_head, piece).is_ok()
}

/// The tokens of a line that can be read, in order. What lies between them are keywords and signs.
pub fn tokens(line: &str) -> Option<Vec<(TokenKind, std::ops::Range<usize>)>> {
    let mut found = Vec::new();
    for pair in Grammar::parse(start(line), line).ok()?.flatten() {
        let kind = match pair.as_rule() {
            Rule::number => TokenKind::Number,
            Rule::unit => TokenKind::Unit,
            Rule::to => TokenKind::To,
            Rule::tolerance => {
                let start = pair.as_span().start();
                let sign = if pair.as_str().starts_with('±') {
                    '±'.len_utf8()
                } else {
                    pair.as_str().find(|c: char| c.is_ascii_digit() || c == ' ').unwrap_or(1)
                };
                found.push((TokenKind::PlusMinus, start..start + sign));
                continue;
            }
            Rule::clock => TokenKind::Clock,
            Rule::weekday => TokenKind::Weekday,
            Rule::name | Rule::date | Rule::zone => TokenKind::Literal,
            Rule::words => TokenKind::Words,
            Rule::text => TokenKind::Text,
            Rule::comment => TokenKind::Comment,
            _ => continue,
        };
        let span = pair.as_span();
        found.push((kind, span.start()..span.end()));
    }
    Some(found)
}

fn offset_of(error: &pest::error::Error<Rule>) -> usize {
    match error.location {
        pest::error::InputLocation::Pos(at) => at,
        pest::error::InputLocation::Span((start, _)) => start,
    }
}

fn head(rule: Rule, pair: Pair<'_, Rule>, base: Base) -> Option<HeadKind> {
    let mut inner = pair.into_inner();
    Some(match rule {
        Rule::edition_head => HeadKind::Edition { number: base.span(&inner.next()?) },
        Rule::cook_head => HeadKind::Cook { title: text_of(inner.next()?, base) },
        Rule::menu_head => HeadKind::Menu { title: text_of(inner.next()?, base) },
        Rule::kit_from => HeadKind::KitFrom { file: text_of(inner.next()?, base) },
        Rule::kit_head => {
            HeadKind::Kit { name: base.span(&inner.next()?), class: words_span(&inner.next()?, base) }
        }
        Rule::food_head => {
            let name = base.span(&inner.next()?);
            let kind = inner.next()?;
            let quoted = kind.as_rule() == Rule::text;
            HeadKind::Food { name, kind: words_or_text(kind, base), quoted }
        }
        Rule::ingredient_head => {
            let name = base.span(&inner.next()?);
            let (mut amount, mut words, mut text) = (None, None, None);
            for part in inner {
                match part.as_rule() {
                    Rule::measure => amount = Some(measure(part, base)),
                    Rule::words => words = Some(words_span(&part, base)),
                    _ => text = Some(text_of(part, base)),
                }
            }
            HeadKind::Ingredient { name, amount, words, text }
        }
        Rule::phase_head => {
            let name = base.span(&inner.next()?);
            HeadKind::Phase { name, purpose: inner.next().map(|pair| words_span(&pair, base)) }
        }
        Rule::serve_head => HeadKind::Serve { parts: inner.filter_map(|pair| part(pair, base)).collect() },
        Rule::serve_menu => HeadKind::ServeMenu { when: when(inner.next()?, base) },
        Rule::crew_head => HeadKind::Crew,
        Rule::dish_head => HeadKind::Dish {
            file: text_of(inner.next()?, base),
            serves: inner.next().map(|pair| measure(pair, base)),
        },
        _ => return None,
    })
}

fn clause(rule: Rule, pair: &Pair<'_, Rule>, base: Base) -> Option<ClauseKind> {
    use ClauseKind as K;
    let mut inner = pair.clone().into_inner();
    let one_measure = |inner: &mut Pairs<'_, Rule>| inner.next().map(|pair| measure(pair, base));
    let one_span = |inner: &mut Pairs<'_, Rule>| inner.next().map(|pair| base.span(&pair));
    let one_text = |inner: &mut Pairs<'_, Rule>| inner.next().map(|pair| text_of(pair, base));
    Some(match rule {
        Rule::setting => {
            K::Setting { medium: medium(inner.next()?.as_str())?, measure: one_measure(&mut inner)? }
        }
        Rule::placing => {
            let mut parts: Vec<_> = inner.collect();
            let place = base.span(&parts.pop()?);
            K::Place { parts: parts.into_iter().filter_map(|pair| part(pair, base)).collect(), place }
        }
        Rule::only_place => K::Place { parts: Vec::new(), place: one_span(&mut inner)? },
        Rule::serves => K::Serves { people: one_measure(&mut inner)?, each: one_measure(&mut inner) },
        Rule::rules => K::Rules(one_span(&mut inner)?),
        Rule::about => K::About(one_text(&mut inner)?),
        Rule::by => K::By(one_text(&mut inner)?),
        Rule::adapted_from => K::AdaptedFrom(one_text(&mut inner)?),
        Rule::measures => K::Measures(one_span(&mut inner)?),
        Rule::elevation => K::Elevation(one_measure(&mut inner)?),
        Rule::for_clause => {
            let first = inner.next()?;
            match first.as_rule() {
                Rule::vulnerable => K::VulnerableGuests,
                Rule::up_to => K::ForUpTo(one_measure(&mut inner)?),
                Rule::at_least => K::ForAtLeast(one_measure(&mut inner)?),
                _ => K::For(measure(first, base)),
            }
        }
        Rule::swing => K::Swing(bare_measure(pair.clone(), base)),
        Rule::preheat => K::Preheat(one_measure(&mut inner)?),
        Rule::cools_down => K::CoolsDown(one_measure(&mut inner)?),
        Rule::shelves => K::Shelves(one_measure(&mut inner)?),
        Rule::holds => K::Holds(one_measure(&mut inner)?),
        Rule::moisture => K::Moisture(one_measure(&mut inner)?),
        Rule::room => K::Room(one_measure(&mut inner)?),
        Rule::flag_vented => K::Vented,
        Rule::flag_programmable => K::Programmable,
        Rule::flag_fan => K::Fan,
        Rule::flag_still => K::Still,
        Rule::amount => {
            let amount = one_measure(&mut inner)?;
            let (mut of, mut each) = (None, false);
            for part in inner {
                match part.as_rule() {
                    Rule::measure => of = Some(measure(part, base)),
                    _ => each = true,
                }
            }
            K::Amount { measure: amount, of, each }
        }
        Rule::thickness => K::Thickness(one_measure(&mut inner)?),
        Rule::depth => K::Depth(one_measure(&mut inner)?),
        Rule::shape => K::Shape(one_span(&mut inner)?),
        Rule::starts_at => K::StartsAt(one_measure(&mut inner)?),
        Rule::flag_frozen => K::Frozen,
        Rule::flag_cooked => K::Cooked,
        Rule::trim_loss => K::TrimLoss(one_measure(&mut inner)?),
        Rule::cooked_yield => K::CookedYield(one_measure(&mut inner)?),
        Rule::flag_intact => K::Structure(Structure::Intact),
        Rule::flag_ground => K::Structure(Structure::Ground),
        Rule::flag_tenderised => K::Structure(Structure::Tenderised),
        Rule::flag_injected => K::Structure(Structure::Injected),
        Rule::contains => K::Contains(inner.map(|pair| base.span(&pair)).collect()),
        Rule::from_text => K::Supplier(one_text(&mut inner)?),
        Rule::on_hand => K::OnHand(one_measure(&mut inner)?),
        Rule::flag_same => K::SameForAnyNumber,
        Rule::flag_taste => K::ToTaste,
        Rule::nitrite => K::Nitrite(one_measure(&mut inner)?),
        Rule::becomes => {
            K::Becomes { name: one_span(&mut inner)?, kind: inner.next().map(|pair| words_span(&pair, base)) }
        }
        Rule::cover => K::Cover { kind: cover_kind(inner.next()?.as_str()), stuff: one_span(&mut inner) },
        Rule::with => K::With { measure: one_measure(&mut inner)?, name: one_span(&mut inner)? },
        Rule::smoke => K::Smoke(draw_of(inner.next()?, base)?),
        Rule::takes => K::Takes { measure: one_measure(&mut inner)?, each: inner.next().is_some() },
        Rule::until => K::Until(inner.filter_map(|pair| test(pair, base)).collect()),
        Rule::within => K::Within(one_measure(&mut inner)?),
        Rule::check => {
            let what = checked(inner.next()?.as_str())?;
            let measure = one_measure(&mut inner)?;
            let bound = inner.next().map(|pair| match pair.as_str().as_bytes()[0].to_ascii_lowercase() {
                b'a' | b'm' => Bound::OrMore,
                _ => Bound::OrLess,
            });
            let expect = pair.as_str().as_bytes().first().is_some_and(|b| b.eq_ignore_ascii_case(&b'e'));
            K::Check { what, measure, bound, expect }
        }
        Rule::r#use => K::Use(inner.filter_map(|pair| draw(pair, base)).collect()),
        Rule::collect => {
            let measure = one_measure(&mut inner)?;
            let name = one_span(&mut inner)?;
            let (kind, from) = match inner.next() {
                None => (None, None),
                Some(part) if part.as_rule() == Rule::words => kind_and_parent(&part, base),
                Some(part) => (None, Some(base.span(&part))),
            };
            K::Collect { measure, name, kind, from }
        }
        Rule::do_job => K::Do(one_text(&mut inner)?),
        Rule::at_job => {
            let first = inner.next()?;
            match first.as_rule() {
                Rule::at_end => K::AtEndDo(one_text(&mut inner)?),
                _ => K::AtCoreDo { core: measure(first, base), text: one_text(&mut inner)? },
            }
        }
        Rule::every_job => K::EveryDo { every: one_measure(&mut inner)?, text: one_text(&mut inner)? },
        Rule::hands_on => K::HandsOn(one_measure(&mut inner)),
        Rule::look_in => K::LookIn(one_measure(&mut inner)?),
        Rule::flag_unattended => K::Unattended,
        Rule::order => order(inner, base)?,
        Rule::fills => K::Fills(one_measure(&mut inner)?),
        Rule::note => K::Note(one_text(&mut inner)?),
        Rule::allow => K::Allow { code: one_span(&mut inner)?, because: one_text(&mut inner) },
        Rule::at_when | Rule::on_when => K::At(when(inner.next()?, base)),
        Rule::up_to_late => K::UpToLate(one_measure(&mut inner)?),
        Rule::from_to => {
            let from = when(inner.next()?, base);
            inner.next()?;
            K::FromTo(from, when(inner.next()?, base))
        }
        Rule::guests => K::Guests(when(inner.next()?, base), when(inner.next()?, base)),
        Rule::asleep | Rule::away => {
            let from = one_span(&mut inner)?;
            inner.next()?;
            let to = one_span(&mut inner)?;
            if rule == Rule::asleep { K::Asleep(from, to) } else { K::Away(from, to) }
        }
        _ => return None,
    })
}

fn order(mut inner: Pairs<'_, Rule>, base: Base) -> Option<ClauseKind> {
    let edge = edge(inner.next()?.as_str());
    let mut next = inner.next()?;
    let mut at_least = false;
    if next.as_rule() == Rule::at_least {
        at_least = true;
        next = inner.next()?;
    }
    let nearness = match next.as_rule() {
        Rule::order_word => {
            let nearness = match next.as_str().as_bytes()[0].to_ascii_lowercase() {
                b'w' => Nearness::When,
                b'a' => Nearness::After,
                _ => Nearness::NoLater,
            };
            next = inner.next()?;
            nearness
        }
        Rule::measure => {
            let by = measure(next, base);
            let before = inner.next()?.as_str().as_bytes()[0].eq_ignore_ascii_case(&b'b');
            next = inner.next()?;
            if before { Nearness::Before { by, at_least } } else { Nearness::AfterBy { by, at_least } }
        }
        Rule::on_day => Nearness::OnDay,
        _ => Nearness::When,
    };
    let moment = match next.as_rule() {
        Rule::moment => {
            let span = base.span(&next);
            let mut parts = next.into_inner();
            let first = parts.next()?;
            match first.as_rule() {
                Rule::serving => MomentWords::Serving(span),
                _ => MomentWords::Phase { name: base.span(&first), edge: self::edge(parts.next()?.as_str()) },
            }
        }
        _ => MomentWords::When(when(next, base)),
    };
    Some(ClauseKind::Order { edge, nearness, moment })
}

fn edge(word: &str) -> Edge {
    if word.as_bytes()[0].eq_ignore_ascii_case(&b's') { Edge::Start } else { Edge::End }
}

fn when(pair: Pair<'_, Rule>, base: Base) -> WhenWords {
    let mut found = WhenWords { span: base.span(&pair), weekday: None, date: None, clock: None, zone: None };
    for part in pair.into_inner() {
        let span = Some(base.span(&part));
        match part.as_rule() {
            Rule::weekday => found.weekday = span,
            Rule::date => found.date = span,
            Rule::clock => found.clock = span,
            _ => found.zone = span,
        }
    }
    found
}

fn test(pair: Pair<'_, Rule>, base: Base) -> Option<Test> {
    let mut inner = pair.into_inner();
    let first = inner.next()?;
    Some(match first.as_rule() {
        Rule::text => Test::Spoken(text_of(first, base)),
        _ => Test::Figure { what: checked(first.as_str())?, measure: measure(inner.next()?, base) },
    })
}

/// `part` and `draw` hold one alternative; a plain measure stands alone.
fn part(pair: Pair<'_, Rule>, base: Base) -> Option<Draw> {
    draw(pair, base)
}

fn draw(pair: Pair<'_, Rule>, base: Base) -> Option<Draw> {
    draw_of(pair.into_inner().next()?, base)
}

fn draw_of(pair: Pair<'_, Rule>, base: Base) -> Option<Draw> {
    let span = base.span(&pair);
    let rule = pair.as_rule();
    if rule == Rule::measure {
        return Some(Draw { span, part: DrawPart::Measure(measure(pair, base)), name: None });
    }
    let mut inner = pair.into_inner();
    let first = inner.next()?;
    let part = match rule {
        Rule::whole_of => DrawPart::All,
        Rule::half_of => DrawPart::Half,
        Rule::rest_of => DrawPart::Rest,
        Rule::amount_of => {
            let name = base.span(&inner.next()?);
            return Some(Draw { span, part: DrawPart::Amount(measure(first, base)), name: Some(name) });
        }
        _ => DrawPart::Plain,
    };
    Some(Draw { span, part, name: Some(base.span(&first)) })
}

fn measure(pair: Pair<'_, Rule>, base: Base) -> Measure {
    bare_measure(pair, base)
}

/// A measure from any pair whose children are figures, `to`, `twin` and `tolerance`.
fn bare_measure(pair: Pair<'_, Rule>, base: Base) -> Measure {
    let mut found = Measure { span: base.span(&pair), ..Measure::default() };
    let mut twin: Vec<Figure> = Vec::new();
    let mut tolerance: Vec<Figure> = Vec::new();
    let mut past_to = false;
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::figure => {
                found.figures.push(figure(part, base));
                if past_to {
                    found.high = found.high.saturating_add(1);
                } else {
                    found.low = found.low.saturating_add(1);
                }
            }
            Rule::to => past_to = true,
            Rule::twin => {
                let mut past = false;
                for inner in part.into_inner() {
                    if inner.as_rule() == Rule::to {
                        past = true;
                        continue;
                    }
                    twin.push(figure(inner, base));
                    if past {
                        found.twin_high = found.twin_high.saturating_add(1);
                    } else {
                        found.twin = found.twin.saturating_add(1);
                    }
                }
            }
            Rule::tolerance => {
                for inner in part.into_inner() {
                    tolerance.push(figure(inner, base));
                    found.tolerance = found.tolerance.saturating_add(1);
                }
            }
            _ => {}
        }
    }
    found.figures.append(&mut twin);
    found.figures.append(&mut tolerance);
    found
}

fn figure(pair: Pair<'_, Rule>, base: Base) -> Figure {
    let span = base.span(&pair);
    let mut inner = pair.into_inner();
    let value = inner.next().map_or(f64::NAN, |number| number_value(number.as_str()));
    Figure { value, span, unit: inner.next().map(|unit| base.span(&unit)) }
}

/// `12`, `1.5`, `1/2`, `1 1/2`, `½`, `1½`, with a sign.
fn number_value(text: &str) -> f64 {
    let (sign, text) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    if let Ok(value) = text.parse::<f64>() {
        return sign * value;
    }
    let mut total = 0.0;
    let whole: String = text.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
    let rest =
        text[whole.len()..].trim_matches(|c: char| !c.is_ascii_digit() && c != '/' && fraction(c).is_none());
    if let Some(value) = rest.chars().next().and_then(fraction) {
        total += value + whole.parse::<f64>().unwrap_or(0.0);
    } else if let Some(below) = rest.strip_prefix('/') {
        total += whole.parse::<f64>().unwrap_or(f64::NAN) / below.parse::<f64>().unwrap_or(f64::NAN);
    } else if let Some((above, below)) = rest.split_once('/') {
        total += whole.parse::<f64>().unwrap_or(f64::NAN);
        total += above.parse::<f64>().unwrap_or(f64::NAN) / below.parse::<f64>().unwrap_or(f64::NAN);
    } else {
        total = f64::NAN;
    }
    sign * total
}

fn fraction(sign: char) -> Option<f64> {
    Some(match sign {
        '½' => 1.0 / 2.0,
        '⅓' => 1.0 / 3.0,
        '⅔' => 2.0 / 3.0,
        '¼' => 1.0 / 4.0,
        '¾' => 3.0 / 4.0,
        '⅕' => 1.0 / 5.0,
        '⅖' => 2.0 / 5.0,
        '⅗' => 3.0 / 5.0,
        '⅘' => 4.0 / 5.0,
        '⅙' => 1.0 / 6.0,
        '⅚' => 5.0 / 6.0,
        '⅐' => 1.0 / 7.0,
        '⅛' => 1.0 / 8.0,
        '⅜' => 3.0 / 8.0,
        '⅝' => 5.0 / 8.0,
        '⅞' => 7.0 / 8.0,
        '⅑' => 1.0 / 9.0,
        '⅒' => 1.0 / 10.0,
        _ => return None,
    })
}

fn medium(word: &str) -> Option<Medium> {
    Medium::ALL.into_iter().find(|medium| medium.word().eq_ignore_ascii_case(word))
}

fn checked(word: &str) -> Option<Checked> {
    let all = [
        ("core", Checked::Core),
        ("surface", Checked::Surface),
        ("weight", Checked::Weight),
        ("ph", Checked::Ph),
        ("salt", Checked::Salt),
    ];
    all.into_iter().find(|(name, _)| name.eq_ignore_ascii_case(word)).map(|(_, checked)| checked)
}

fn cover_kind(words: &str) -> CoverKind {
    match words.as_bytes()[0].to_ascii_lowercase() {
        b'u' => CoverKind::Uncovered,
        b'c' => CoverKind::Covered,
        b'w' => CoverKind::Wrapped,
        b's' => CoverKind::Sealed,
        b'b' => CoverKind::Bagged,
        _ => CoverKind::VacuumBagged,
    }
}

/// The inside of a quoted text.
fn text_of(pair: Pair<'_, Rule>, base: Base) -> Span {
    let outer = base.span(&pair);
    pair.into_inner().next().map_or(outer, |inner| base.span(&inner))
}

fn words_or_text(pair: Pair<'_, Rule>, base: Base) -> Span {
    if pair.as_rule() == Rule::text { text_of(pair, base) } else { words_span(&pair, base) }
}
