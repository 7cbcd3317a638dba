//! One item while the ledger walks through the phases.

use super::stuff::{Stuff, Weight, poured};
use crate::cook::{Cook, Item, Origin, Stock};
use crate::quantity::{Mass, Share};
use crate::tables::FoodState;

/// How far the cooked yield has been reached.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Run {
    #[default]
    NotYet,
    Cooking,
    Over,
}

/// What there is of one item.
#[derive(Debug, Clone, Default)]
pub(super) struct Holding {
    /// All of it, as if nothing had been taken yet; losses count.
    pub whole: Stuff,
    /// The share of the whole that has not been taken.
    pub left: f64,
    /// A draw could not be related to it, so what is left is not known.
    pub unclear: bool,
    /// `to taste`: there is always enough.
    pub endless: bool,
    /// Trimmings not cut off yet, as a share of the bought weight.
    pub trim: Share,
    pub cooked_yield: Option<Share>,
    pub run: Run,
    /// Mass of the whole that goes off by the end of the run of `cook` phases.
    pub to_go: Mass,
    /// Of what went off or will, the mass that may still be collected: juices and drippings.
    pub juices: Mass,
    /// What it lies in (`with 2 l of oil`).
    pub lies_in: Option<Stuff>,
    pub pours: bool,
}

impl Holding {
    /// `None` for what is made or collected later.
    pub fn bought(item: &Item) -> Option<Self> {
        let stock = match &item.origin {
            Origin::Food(stock) | Origin::Ingredient(stock) => stock,
            // Out of the tap comes as much as anybody wants.
            Origin::OnTap => return Some(Self { left: 1.0, endless: true, ..Self::default() }),
            Origin::Made(_) | Origin::Collected { .. } => return None,
        };
        Some(Self {
            whole: bought(stock),
            left: 1.0,
            endless: stock.to_taste.is_some(),
            trim: stock.trim_loss.map_or(Share::ZERO, |trim| trim.value),
            cooked_yield: stock.cooked_yield.map(|share| share.value),
            pours: pours(item),
            ..Self::default()
        })
    }

    pub fn made(whole: Stuff, item: &Item) -> Self {
        Self { whole, left: 1.0, pours: pours(item), run: Run::Over, ..Self::default() }
    }

    /// The mass that is here now.
    pub fn weight(&self) -> Option<Weight> {
        self.whole.weight(self.pours).map(|weight| weight.times(self.left))
    }

    pub fn now(&self) -> Stuff {
        self.whole.times(self.left)
    }

    /// What was taken and what had been taken before no longer matters: what is here is the whole.
    pub fn renew(&mut self) {
        let left = std::mem::replace(&mut self.left, 1.0);
        self.whole = self.whole.times(left);
        self.to_go = self.to_go * left;
        self.juices = self.juices * left;
    }

    /// Multiplies what can be lost: mass and volume, not the count.
    pub fn shrink(&mut self, factor: f64) {
        self.whole.mass = self.whole.mass.map(|mass| mass.times(factor));
        self.whole.volume = self.whole.volume.map(|volume| volume * factor);
    }

    /// Cuts the trimmings off; returns their mass.
    pub fn cut_trimmings(&mut self) -> Mass {
        let trim = std::mem::replace(&mut self.trim, Share::ZERO).fraction();
        let off = self.weight().map_or(Mass::ZERO, |weight| weight.mass * trim);
        self.shrink(1.0 - trim);
        off
    }

    /// Begins the run of `cook` phases over which the yield is reached.
    pub fn begin_run(&mut self) {
        if self.run == Run::NotYet {
            self.run = Run::Cooking;
            if let (Some(share), Some(weight)) = (self.cooked_yield, self.whole.weight(self.pours)) {
                self.to_go = weight.mass * (1.0 - share.fraction());
                self.juices = self.to_go.max(Mass::ZERO);
            }
        }
    }

    /// Ends the run: what was to go has gone. Returns its mass.
    pub fn end_run(&mut self) -> Mass {
        self.run = Run::Over;
        let gone = std::mem::replace(&mut self.to_go, Mass::ZERO);
        if let Some(weight) = self.whole.weight(self.pours).filter(|weight| weight.mass > Mass::ZERO) {
            self.shrink(1.0 - gone / weight.mass);
        }
        gone * self.left
    }
}

fn bought(stock: &Stock) -> Stuff {
    let mut stuff = stock.amount.as_ref().map_or_else(Stuff::default, |amount| Stuff::of(&amount.value));
    if let Some(pieces) = &stock.shape.pieces {
        stuff.count = Some((pieces.count, pieces.word.clone()));
    }
    stuff
}

/// Whether a litre of it may be reckoned as about a kilogram. What is collected or made without a
/// kind is juice or sauce as a rule; bought stock stays in the unit it is bought in.
fn pours(item: &Item) -> bool {
    match &item.kind {
        Some(kind) => matches!(kind.value.state, FoodState::Liquid | FoodState::Thick | FoodState::Fat),
        None => matches!(item.origin, Origin::Made(_) | Origin::Collected { .. }),
    }
}

/// The mass of an amount for a sum, where it has one; volumes count as water.
pub(super) fn weight_of(stuff: &Stuff) -> Option<Weight> {
    stuff.mass.or_else(|| stuff.volume.map(poured))
}

/// Every item of the cook that is there from the beginning.
pub(super) fn store(cook: &Cook) -> Vec<Option<Holding>> {
    cook.items.iter().map(Holding::bought).collect()
}
