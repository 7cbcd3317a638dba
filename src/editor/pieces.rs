//! What each piece of a read line is: a name, a kind, a text, a figure, a time. What is left are words of the language.

use crate::syntax::{Figure, LineKind, Measure, Said, Tree, WhenWords};
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
    let mut all = Vec::new();
    for line in &tree.lines {
        if let LineKind::Read { .. } = line.kind {
            let head = tree.head_of(line).into_iter().flat_map(|head| head.kind.parts());
            let clauses = tree.clauses_of(line).iter().flat_map(|clause| clause.kind.parts());
            all.extend(head.chain(clauses).flat_map(|said| of(&said, text)));
        }
        all.extend(line.comment.map(|span| Piece { span, sort: Sort::Comment }));
    }
    all.retain(|piece| !piece.span.is_empty());
    // `65 buns`: the word that is counted is the name, and no unit.
    all.sort_by_key(|piece| (piece.span, piece.sort == Sort::Unit));
    all.dedup_by_key(|piece| piece.span);
    all
}

fn of(said: &Said<'_>, text: &str) -> Vec<Piece> {
    let one = |span: Span, sort| vec![Piece { span, sort }];
    let name = |span, space, declares| one(span, Sort::Name { space, declares });
    match *said {
        Said::Measure(measure) | Said::Difference(measure) => figures(measure, text),
        Said::When(when) => {
            let WhenWords { weekday, date, clock, zone, .. } = *when;
            let parts = [weekday, date, clock, zone].into_iter().flatten();
            parts.map(|span| Piece { span, sort: Sort::Time }).collect()
        }
        Said::Clock(span) => one(span, Sort::Time),
        Said::Edition(span) => one(span, Sort::Number),
        Said::NewKit(span) => name(span, Space::Kit, true),
        Said::Kit(span) => name(span, Space::Kit, false),
        Said::NewStock(span) => name(span, Space::Stock, true),
        Said::Stock(span) => name(span, Space::Stock, false),
        Said::NewPhase(span) => name(span, Space::Phase, true),
        Said::Phase(span) => name(span, Space::Phase, false),
        Said::Text(span) => one(span, Sort::Text),
        Said::File(span) => one(span, Sort::File),
        Said::KitClass(span)
        | Said::FoodKind(span)
        | Said::Purpose(span)
        | Said::RuleSet(span)
        | Said::Code(span)
        | Said::Allergen(span)
        | Said::Shape(span)
        | Said::KitchenMeasures(span) => one(span, Sort::Kind),
    }
}

/// Numbers without the units behind them, and those.
fn figures(measure: &Measure, text: &str) -> Vec<Piece> {
    let mut all = Vec::new();
    for Figure { span, unit, .. } in &measure.figures {
        let end = unit.map_or(span.end, |unit| unit.start);
        let number = text.get(span.start as usize..end as usize).unwrap_or_default().trim_end();
        let number = Span { end: span.start + number.len() as u32, ..*span };
        all.push(Piece { span: number, sort: Sort::Number });
        all.extend(unit.map(|span| Piece { span, sort: Sort::Unit }));
    }
    all
}
