//! What stands in a clause or a head besides its own words: figures, names and texts, each with what it is.

use super::{ClauseKind, Draw, DrawPart, HeadKind, Measure, MomentWords, Nearness, Test, WhenWords};
use crate::text::Span;

/// A figure, a name or a text in a line.
#[derive(Debug, Clone, Copy)]
pub enum Said<'t> {
    Measure(&'t Measure),
    /// A measure of temperature that is a difference all through (`swing ± 5 °C`).
    Difference(&'t Measure),
    When(&'t WhenWords),
    /// The number of the edition of the language.
    Edition(Span),
    /// A time of day alone.
    Clock(Span),
    /// A name that is given here: of kit, stock or a phase.
    NewKit(Span),
    NewStock(Span),
    NewPhase(Span),
    /// A name that is used here.
    Kit(Span),
    Stock(Span),
    Phase(Span),
    /// Words from a table.
    KitClass(Span),
    FoodKind(Span),
    Purpose(Span),
    RuleSet(Span),
    Code(Span),
    Allergen(Span),
    Shape(Span),
    KitchenMeasures(Span),
    /// Words for people.
    Text(Span),
    /// Another file.
    File(Span),
}

impl ClauseKind {
    /// In the order of the line.
    pub fn parts(&self) -> Vec<Said<'_>> {
        use Said as S;
        match self {
            Self::Serves { people, each } => [people].into_iter().chain(each).map(S::Measure).collect(),
            Self::Rules(name) => vec![S::RuleSet(*name)],
            Self::About(text)
            | Self::By(text)
            | Self::AdaptedFrom(text)
            | Self::Supplier(text)
            | Self::Do(text)
            | Self::AtEndDo(text)
            | Self::Note(text) => vec![S::Text(*text)],
            Self::Measures(name) => vec![S::KitchenMeasures(*name)],
            Self::Swing(measure) => vec![S::Difference(measure)],
            Self::Elevation(measure)
            | Self::Setting { measure, .. }
            | Self::Preheat(measure)
            | Self::CoolsDown(measure)
            | Self::Shelves(measure)
            | Self::Holds(measure)
            | Self::Moisture(measure)
            | Self::Room(measure)
            | Self::Thickness(measure)
            | Self::Depth(measure)
            | Self::StartsAt(measure)
            | Self::TrimLoss(measure)
            | Self::CookedYield(measure)
            | Self::OnHand(measure)
            | Self::Nitrite(measure)
            | Self::For(measure)
            | Self::ForUpTo(measure)
            | Self::ForAtLeast(measure)
            | Self::Takes { measure, .. }
            | Self::Within(measure)
            | Self::Check { measure, .. }
            | Self::LookIn(measure)
            | Self::Fills(measure)
            | Self::UpToLate(measure) => vec![S::Measure(measure)],
            Self::Amount { measure, of, .. } => [measure].into_iter().chain(of).map(S::Measure).collect(),
            Self::Shape(name) => vec![S::Shape(*name)],
            Self::Contains(names) => names.iter().copied().map(S::Allergen).collect(),
            Self::Place { parts, place } => {
                let mut said: Vec<S<'_>> = parts.iter().flat_map(draw).collect();
                said.push(S::Kit(*place));
                said
            }
            Self::Becomes { name, kind } => {
                [S::NewStock(*name)].into_iter().chain(kind.map(S::FoodKind)).collect()
            }
            Self::Cover { stuff, .. } => stuff.map(S::Stock).into_iter().collect(),
            Self::With { measure, name } => vec![S::Measure(measure), S::Stock(*name)],
            Self::Smoke(wood) => draw(wood),
            Self::Until(tests) => tests.iter().map(test).collect(),
            Self::Use(draws) => draws.iter().flat_map(draw).collect(),
            Self::Collect { measure, name, kind, from } => [S::Measure(measure), S::NewStock(*name)]
                .into_iter()
                .chain(kind.map(S::FoodKind))
                .chain(from.map(S::Stock))
                .collect(),
            Self::AtCoreDo { core: measure, text } | Self::EveryDo { every: measure, text } => {
                vec![S::Measure(measure), S::Text(*text)]
            }
            Self::HandsOn(measure) => measure.iter().map(S::Measure).collect(),
            Self::Order { nearness, moment, .. } => order(nearness, moment),
            Self::Allow { code, because } => {
                [S::Code(*code)].into_iter().chain(because.map(S::Text)).collect()
            }
            Self::At(when) => vec![S::When(when)],
            Self::FromTo(from, to) | Self::Guests(from, to) => vec![S::When(from), S::When(to)],
            Self::Asleep(from, to) | Self::Away(from, to) => vec![S::Clock(*from), S::Clock(*to)],
            Self::VulnerableGuests
            | Self::Vented
            | Self::Programmable
            | Self::Fan
            | Self::Still
            | Self::Frozen
            | Self::Cooked
            | Self::Structure(_)
            | Self::SameForAnyNumber
            | Self::ToTaste
            | Self::Unattended => Vec::new(),
        }
    }
}

impl HeadKind {
    /// In the order of the line.
    pub fn parts(&self) -> Vec<Said<'_>> {
        use Said as S;
        match self {
            Self::Edition { number } => vec![S::Edition(*number)],
            Self::Crew => Vec::new(),
            Self::Cook { title } | Self::Menu { title } => vec![S::Text(*title)],
            Self::KitFrom { file } => vec![S::File(*file)],
            Self::Kit { name, class } => vec![S::NewKit(*name), S::KitClass(*class)],
            Self::Food { name, kind, .. } => vec![S::NewStock(*name), S::FoodKind(*kind)],
            Self::Ingredient { name, amount, words, text } => [S::NewStock(*name)]
                .into_iter()
                .chain(amount.as_ref().map(S::Measure))
                .chain(words.map(S::Text))
                .chain(text.map(S::Text))
                .collect(),
            Self::Phase { name, purpose } => {
                [S::NewPhase(*name)].into_iter().chain(purpose.map(S::Purpose)).collect()
            }
            Self::Serve { parts } => parts.iter().flat_map(draw).collect(),
            Self::ServeMenu { when } => vec![S::When(when)],
            Self::Dish { file, serves } => {
                [S::File(*file)].into_iter().chain(serves.as_ref().map(S::Measure)).collect()
            }
        }
    }
}

fn draw(draw: &Draw) -> Vec<Said<'_>> {
    match &draw.part {
        DrawPart::Measure(measure) => {
            // `65 buns`: what is counted is the name.
            let name = measure.low().last().and_then(|figure| figure.unit);
            [Said::Measure(measure)].into_iter().chain(name.map(Said::Stock)).collect()
        }
        DrawPart::Amount(measure) => {
            [Said::Measure(measure)].into_iter().chain(draw.name.map(Said::Stock)).collect()
        }
        DrawPart::Plain | DrawPart::All | DrawPart::Half | DrawPart::Rest => {
            draw.name.map(Said::Stock).into_iter().collect()
        }
    }
}

fn test(test: &Test) -> Said<'_> {
    match test {
        Test::Figure { measure, .. } => Said::Measure(measure),
        Test::Spoken(text) => Said::Text(*text),
    }
}

fn order<'t>(nearness: &'t Nearness, moment: &'t MomentWords) -> Vec<Said<'t>> {
    let by = match nearness {
        Nearness::Before { by, .. } | Nearness::AfterBy { by, .. } => Some(Said::Measure(by)),
        Nearness::When | Nearness::After | Nearness::NoLater | Nearness::OnDay => None,
    };
    let moment = match moment {
        MomentWords::Serving(_) => None,
        MomentWords::Phase { name, .. } => Some(Said::Phase(*name)),
        MomentWords::When(when) => Some(Said::When(when)),
    };
    by.into_iter().chain(moment).collect()
}
