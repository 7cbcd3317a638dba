//! What each piece of a read line is: a name, a kind, a text, a figure, a time. What is left are words of the language.

use crate::syntax::{
    Clause, ClauseKind, Draw, DrawPart, Figure, Head, HeadKind, LineKind, Measure, MomentWords, Nearness,
    Test, Tree, WhenWords,
};
use crate::text::Span;

/// The name spaces of the language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Space {
    Kit,
    /// Food, ingredients, and what is made or collected on the way.
    Stock,
    Phase,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// Where something gets a name, or is called by it.
    Name {
        space: Space,
        declares: bool,
    },
    /// A row of a table: a kind of food, a class of kit, a purpose, a rule set, an allergen.
    Kind,
    /// Free text, in quotes or not.
    Text,
    /// The file that kit or a dish comes from.
    File,
    Number,
    Unit,
    Time,
    Comment,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece {
    pub span: Span,
    pub sort: Sort,
}

/// All pieces of a file in the order of their places. None overlaps another.
pub fn pieces(tree: &Tree, text: &str) -> Vec<Piece> {
    let mut all = Pieces { text, all: Vec::new() };
    for line in &tree.lines {
        if let LineKind::Read { .. } = line.kind {
            tree.head_of(line).into_iter().for_each(|head| all.head(head));
            tree.clauses_of(line).iter().for_each(|clause| all.clause(clause));
        }
        all.add(line.comment, Sort::Comment);
    }
    let mut all = all.all;
    all.sort_by_key(|piece| piece.span);
    all.dedup_by_key(|piece| piece.span);
    all
}

struct Pieces<'t> {
    text: &'t str,
    all: Vec<Piece>,
}

impl Pieces<'_> {
    fn add(&mut self, spans: impl IntoIterator<Item = Span>, sort: Sort) {
        self.all.extend(spans.into_iter().filter(|span| !span.is_empty()).map(|span| Piece { span, sort }));
    }

    fn name(&mut self, spans: impl IntoIterator<Item = Span>, space: Space) {
        self.add(spans, Sort::Name { space, declares: false });
    }

    fn declared(&mut self, span: Span, space: Space) {
        self.add([span], Sort::Name { space, declares: true });
    }

    /// A figure without the unit behind it.
    fn number(&mut self, figure: &Figure) {
        let Figure { span, unit, .. } = *figure;
        let end = unit.map_or(span.end, |unit| unit.start);
        let number = self.text.get(span.start as usize..end as usize).unwrap_or_default().trim_end();
        self.add([Span { end: span.start + number.len() as u32, ..span }], Sort::Number);
    }

    fn measure(&mut self, measure: &Measure) {
        for figure in &measure.figures {
            self.number(figure);
            self.add(figure.unit, Sort::Unit);
        }
    }

    fn draw(&mut self, draw: &Draw) {
        match &draw.part {
            DrawPart::Amount(measure) => self.measure(measure),
            // `65 buns`: the word after the figure is the name.
            DrawPart::Measure(measure) => {
                for figure in &measure.figures {
                    self.number(figure);
                    self.name(figure.unit, Space::Stock);
                }
            }
            DrawPart::Plain | DrawPart::All | DrawPart::Half | DrawPart::Rest => {}
        }
        self.name(draw.name, Space::Stock);
    }

    fn when(&mut self, when: &WhenWords) {
        let WhenWords { weekday, date, clock, zone, .. } = when;
        for part in [weekday, date, clock, zone] {
            self.add(*part, Sort::Time);
        }
    }

    fn head(&mut self, head: &Head) {
        match &head.kind {
            HeadKind::Edition { number } => self.add([*number], Sort::Number),
            HeadKind::Cook { title } | HeadKind::Menu { title } => self.add([*title], Sort::Text),
            HeadKind::KitFrom { file } => self.add([*file], Sort::File),
            HeadKind::Kit { name, class } => {
                self.declared(*name, Space::Kit);
                self.add([*class], Sort::Kind);
            }
            HeadKind::Food { name, kind, .. } => {
                self.declared(*name, Space::Stock);
                self.add([*kind], Sort::Kind);
            }
            HeadKind::Ingredient { name, amount, words, text } => {
                self.declared(*name, Space::Stock);
                amount.iter().for_each(|amount| self.measure(amount));
                self.add(text.or(*words), Sort::Text);
            }
            HeadKind::Phase { name, purpose } => {
                self.declared(*name, Space::Phase);
                self.add(*purpose, Sort::Kind);
            }
            HeadKind::Serve { parts } => parts.iter().for_each(|part| self.draw(part)),
            HeadKind::ServeMenu { when } => self.when(when),
            HeadKind::Crew => {}
            HeadKind::Dish { file, serves } => {
                self.add([*file], Sort::File);
                serves.iter().for_each(|serves| self.measure(serves));
            }
        }
    }

    fn clause(&mut self, clause: &Clause) {
        use ClauseKind as K;
        match &clause.kind {
            K::Serves { people, each } => {
                self.measure(people);
                each.iter().for_each(|each| self.measure(each));
            }
            K::Rules(kind) | K::Measures(kind) | K::Shape(kind) => self.add([*kind], Sort::Kind),
            K::About(text)
            | K::By(text)
            | K::AdaptedFrom(text)
            | K::Supplier(text)
            | K::Do(text)
            | K::AtEndDo(text)
            | K::Note(text) => self.add([*text], Sort::Text),
            K::Setting { measure, .. }
            | K::Elevation(measure)
            | K::Swing(measure)
            | K::Preheat(measure)
            | K::CoolsDown(measure)
            | K::Shelves(measure)
            | K::Holds(measure)
            | K::Moisture(measure)
            | K::Room(measure)
            | K::Thickness(measure)
            | K::Depth(measure)
            | K::StartsAt(measure)
            | K::TrimLoss(measure)
            | K::CookedYield(measure)
            | K::OnHand(measure)
            | K::Nitrite(measure)
            | K::For(measure)
            | K::ForUpTo(measure)
            | K::ForAtLeast(measure)
            | K::Takes { measure, .. }
            | K::Within(measure)
            | K::Check { measure, .. }
            | K::LookIn(measure)
            | K::Fills(measure)
            | K::UpToLate(measure) => self.measure(measure),
            K::HandsOn(measure) => measure.iter().for_each(|measure| self.measure(measure)),
            K::Amount { measure, of, .. } => {
                self.measure(measure);
                of.iter().for_each(|of| self.measure(of));
            }
            K::Contains(allergens) => self.add(allergens.iter().copied(), Sort::Kind),
            K::Place { parts, place } => {
                parts.iter().for_each(|part| self.draw(part));
                self.name([*place], Space::Kit);
            }
            K::Becomes { name, kind } => {
                self.declared(*name, Space::Stock);
                self.add(*kind, Sort::Kind);
            }
            K::Cover { stuff, .. } => self.name(*stuff, Space::Stock),
            K::With { measure, name } => {
                self.measure(measure);
                self.name([*name], Space::Stock);
            }
            K::Smoke(draw) => self.draw(draw),
            K::Until(tests) => {
                for test in tests {
                    match test {
                        Test::Figure { measure, .. } => self.measure(measure),
                        Test::Spoken(text) => self.add([*text], Sort::Text),
                    }
                }
            }
            K::Use(draws) => draws.iter().for_each(|draw| self.draw(draw)),
            K::Collect { measure, name, kind, from } => {
                self.measure(measure);
                self.declared(*name, Space::Stock);
                self.add(*kind, Sort::Kind);
                self.name(*from, Space::Stock);
            }
            K::AtCoreDo { core: measure, text } | K::EveryDo { every: measure, text } => {
                self.measure(measure);
                self.add([*text], Sort::Text);
            }
            K::Order { nearness, moment, .. } => {
                match nearness {
                    Nearness::Before { by, .. } | Nearness::AfterBy { by, .. } => self.measure(by),
                    Nearness::When | Nearness::After | Nearness::NoLater | Nearness::OnDay => {}
                }
                match moment {
                    MomentWords::Phase { name, .. } => self.name([*name], Space::Phase),
                    MomentWords::When(when) => self.when(when),
                    MomentWords::Serving(_) => {}
                }
            }
            K::Allow { code, because } => {
                self.add([*code], Sort::Kind);
                self.add(*because, Sort::Text);
            }
            K::At(when) => self.when(when),
            K::FromTo(from, to) | K::Guests(from, to) => {
                self.when(from);
                self.when(to);
            }
            K::Asleep(from, to) | K::Away(from, to) => self.add([*from, *to], Sort::Time),
            K::VulnerableGuests
            | K::Vented
            | K::Programmable
            | K::Fan
            | K::Still
            | K::Frozen
            | K::Cooked
            | K::Structure(_)
            | K::SameForAnyNumber
            | K::ToTaste
            | K::Unattended => {}
        }
    }
}
