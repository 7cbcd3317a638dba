//! What to buy: by supplier, in the order of the files, several cooks added up.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::measure::{Measure, tidy};
use crate::cook::{Amount, Cook, Item, Origin, Stock};
use crate::quantity::Mass;

mod paper;

pub(super) use paper::PREDICTED;
pub use paper::text;

/// The whole list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BuyList {
    /// `dwell.buy/1`.
    pub format: String,
    pub cooks: Vec<ForCook>,
    pub suppliers: Vec<Supplier>,
}

/// A cook that is bought for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ForCook {
    pub title: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub serves: Option<u32>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Supplier {
    /// `None` where the file names nobody.
    pub supplier: Option<String>,
    pub lines: Vec<Line>,
}

/// One thing to buy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Line {
    /// "coarse sea salt".
    pub description: String,
    /// What the cooks need. Neither this nor `buy` for what is only needed to taste.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub needed: Option<Measure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on_hand: Option<Measure>,
    /// What is needed less what is on hand.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub buy: Option<Measure>,
    /// Where it is bought by the piece: how many are needed, and what one of them holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pieces: Option<PiecesToBuy>,
    /// What is left of the needed weight after trimming and after cooking, predicted from the shares
    /// that the file gives.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leaves_trimmed_kg: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leaves_cooked_kg: Option<f64>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub frozen: bool,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub cooked: bool,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub contains: Vec<String>,
    /// Titles of the cooks that need it.
    pub cooks: Vec<String>,
    #[serde(skip)]
    sum: Option<Amount>,
    #[serde(skip)]
    had: Option<Amount>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PiecesToBuy {
    pub count: f64,
    /// "pieces", as typed.
    pub counted: String,
    pub each: Measure,
    #[serde(skip)]
    each_text: String,
}

/// Adds up what the cooks need. The same thing from the same supplier in the same unit is one line.
/// What two cooks say is on hand is the same cupboard: it is taken off once.
pub fn list(cooks: &[&Cook]) -> BuyList {
    let mut suppliers: Vec<Supplier> = Vec::new();
    for cook in cooks {
        for item in &cook.items {
            let (Origin::Food(stock) | Origin::Ingredient(stock)) = &item.origin else { continue };
            let name = stock.supplier.as_ref().map(|supplier| supplier.value.as_str());
            let same = |known: &Supplier| match (&known.supplier, name) {
                (Some(known), Some(name)) => same_words(known, name),
                (None, None) => true,
                _ => false,
            };
            let at = suppliers.iter().position(same).unwrap_or_else(|| {
                suppliers.push(Supplier { supplier: name.map(str::to_owned), lines: Vec::new() });
                suppliers.len() - 1
            });
            add(&mut suppliers[at].lines, line(cook, item, stock));
        }
    }
    for line in suppliers.iter_mut().flat_map(|supplier| &mut supplier.lines) {
        finish(line);
    }
    let cooks = cooks.iter().map(|cook| ForCook {
        title: cook.title.value.clone(),
        serves: cook.serves.as_ref().map(|serves| serves.people),
    });
    BuyList { format: "dwell.buy/1".into(), cooks: cooks.collect(), suppliers }
}

/// What the cook needs of an item, wherever it comes from: "70 g coarse sea salt"; `None` of what is made on the way.
pub(super) fn needed(cook: &Cook, item: &Item) -> Option<String> {
    let (Origin::Food(stock) | Origin::Ingredient(stock)) = &item.origin else { return None };
    Some(Line { had: None, ..line(cook, item, stock) }.words(&[]))
}

fn line(cook: &Cook, item: &Item, stock: &Stock) -> Line {
    let sum = stock.amount.as_ref().map(|amount| amount.value.clone());
    let pieces = stock.shape.pieces.as_ref().map(|pieces| PiecesToBuy {
        count: pieces.count,
        counted: pieces.word.clone(),
        each: Measure::from(&pieces.each),
        each_text: pieces.each.show_enough(),
    });
    let mass = match &sum {
        Some(Amount::Mass(mass)) => Some(*mass),
        _ => None,
    };
    let trimmed = stock.trim_loss.and_then(|loss| Some(mass? * (1.0 - loss.value.fraction())));
    let cooked = stock.cooked_yield.and_then(|share| Some(trimmed.or(mass)? * share.value.fraction()));
    let contains = stock.contains.iter().map(|allergen| allergen.value.word().to_owned());
    Line {
        description: if stock.description.is_empty() { item.name.clone() } else { stock.description.clone() },
        needed: None,
        on_hand: None,
        buy: None,
        pieces,
        leaves_trimmed_kg: trimmed.map(Mass::kg),
        leaves_cooked_kg: cooked.map(Mass::kg),
        frozen: stock.frozen.is_some(),
        cooked: stock.cooked.is_some(),
        contains: contains.collect(),
        cooks: vec![cook.title.value.clone()],
        sum,
        had: stock.on_hand.as_ref().map(|amount| amount.value.clone()),
    }
}

fn add(lines: &mut Vec<Line>, new: Line) {
    let Some(line) = lines.iter_mut().find(|line| line.joins(&new)) else {
        lines.push(new);
        return;
    };
    line.sum = match (line.sum.take(), new.sum) {
        (Some(a), Some(b)) => plus(&a, &b).or(Some(a)),
        (a, b) => a.or(b),
    };
    if let (Some(pieces), Some(more)) = (&mut line.pieces, new.pieces) {
        pieces.count += more.count;
    }
    line.had = match (line.had.take(), new.had) {
        (Some(a), Some(b)) => Some(if less(&a, &b).is_some_and(|left| figure(&left) > 0.0) { a } else { b }),
        (a, b) => a.or(b),
    };
    for (mine, more) in [
        (&mut line.leaves_trimmed_kg, new.leaves_trimmed_kg),
        (&mut line.leaves_cooked_kg, new.leaves_cooked_kg),
    ] {
        // A part whose yield nobody gave makes the sum unknown.
        *mine = mine.zip(more).map(|(a, b)| a + b);
    }
    for allergen in new.contains {
        if !line.contains.contains(&allergen) {
            line.contains.push(allergen);
        }
    }
    for title in new.cooks {
        if !line.cooks.contains(&title) {
            line.cooks.push(title);
        }
    }
}

impl Line {
    fn joins(&self, other: &Self) -> bool {
        let pieces = match (&self.pieces, &other.pieces) {
            (Some(a), Some(b)) => same_words(&a.counted, &b.counted) && a.each == b.each,
            (None, None) => true,
            _ => false,
        };
        let unit = match (&self.sum, &other.sum) {
            (Some(a), Some(b)) => plus(a, b).is_some(),
            (None, None) => true,
            _ => false,
        };
        let state = (self.frozen, self.cooked) == (other.frozen, other.cooked);
        pieces && unit && state && same_words(&self.description, &other.description)
    }
}

fn finish(line: &mut Line) {
    let buy = match (&line.sum, &line.had) {
        (Some(sum), Some(had)) => less(sum, had).or_else(|| Some(sum.clone())),
        (sum, _) => sum.clone(),
    };
    line.needed = line.sum.as_ref().map(Measure::from);
    line.on_hand = line.had.as_ref().map(Measure::from);
    line.buy = buy.as_ref().map(Measure::from);
    line.leaves_trimmed_kg = line.leaves_trimmed_kg.map(tidy);
    line.leaves_cooked_kg = line.leaves_cooked_kg.map(tidy);
}

fn same_words(a: &str, b: &str) -> bool {
    a.split_whitespace().map(str::to_lowercase).eq(b.split_whitespace().map(str::to_lowercase))
}

fn figure(amount: &Amount) -> f64 {
    match amount {
        Amount::Mass(mass) => mass.kg(),
        Amount::Volume(volume) => volume.cubic_metres(),
        Amount::Length(length) => length.metres(),
        Amount::Count { number, .. } => *number,
    }
}

/// The sum of two amounts of one kind.
fn plus(a: &Amount, b: &Amount) -> Option<Amount> {
    Some(match (a, b) {
        (Amount::Mass(a), Amount::Mass(b)) => Amount::Mass(*a + *b),
        (Amount::Volume(a), Amount::Volume(b)) => Amount::Volume(*a + *b),
        (Amount::Length(a), Amount::Length(b)) => Amount::Length(*a + *b),
        (Amount::Count { number: a, word }, Amount::Count { number: b, word: other })
            if same_words(word, other) =>
        {
            Amount::Count { number: a + b, word: word.clone() }
        }
        _ => return None,
    })
}

/// What `needed` is more than `had`; nothing if it is less.
fn less(needed: &Amount, had: &Amount) -> Option<Amount> {
    let left = match (needed, had) {
        // Both count the same stock, whatever the words.
        (Amount::Count { number, word }, Amount::Count { number: had, .. }) => {
            Amount::Count { number: number - had, word: word.clone() }
        }
        _ => plus(needed, &had.times(-1.0))?,
    };
    Some(if figure(&left) > 0.0 { left } else { left.times(0.0) })
}
