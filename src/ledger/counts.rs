//! Drawing by number from something whose number has changed.

use super::growth::up;
use crate::cook::{Amount, Cook, Item, Origin};

/// How the pieces of one item are drawn in a scaled cook.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Counts {
    /// Drawn so far, as written.
    drawn: f64,
    /// Pieces now for each piece before; `None` where it is not in pieces.
    ratio: Option<f64>,
}

impl Counts {
    fn of(before: f64, now: f64) -> Self {
        Self { drawn: 0.0, ratio: (before > 0.0).then_some(now / before) }
    }

    /// What a draw of `number` becomes. More people: up to whole ones, rounding the running sum, so that
    /// many small draws do not come to more than there is. Fewer: the same share, cut through if need
    /// be, or the first draw would leave nothing for the next.
    fn draw(&mut self, number: f64, growth: f64) -> f64 {
        let ratio = self.ratio.unwrap_or(growth);
        let before = self.drawn;
        self.drawn += number;
        if number.fract() != 0.0 || ratio < 1.0 {
            return number * ratio;
        }
        let so_far = |sum: f64| if sum > 0.0 { up(sum * ratio) } else { 0.0 };
        so_far(self.drawn) - so_far(before)
    }
}

/// The counts of all items while a cook is scaled from its first phase to its last.
pub(super) struct AllCounts(Vec<Counts>);

impl AllCounts {
    /// As bought.
    pub fn new(cook: &Cook, growth: impl Fn(usize) -> f64) -> Self {
        let of_item = |(n, item): (usize, &Item)| match &item.origin {
            Origin::Food(stock) | Origin::Ingredient(stock) => {
                let pieces = stock.shape.pieces.as_ref().map(|pieces| pieces.count);
                let count = pieces.or(match stock.amount.as_ref()?.value {
                    Amount::Count { number, .. } => Some(number),
                    _ => None,
                });
                Some(Counts::of(count?, up(count? * growth(n))))
            }
            Origin::OnTap | Origin::Made(_) | Origin::Collected { .. } => None,
        };
        Self(cook.items.iter().enumerate().map(|entry| of_item(entry).unwrap_or_default()).collect())
    }

    pub fn draw(&mut self, item: usize, number: f64, growth: f64) -> f64 {
        self.0[item].draw(number, growth)
    }

    /// An item is divided anew.
    pub fn divide(&mut self, item: usize, before: f64, now: f64) {
        self.0[item] = Counts::of(before, now);
    }

    /// A food goes on under another name, in the same pieces.
    pub fn rename(&mut self, item: usize, name: usize) {
        self.0[name] = Counts { drawn: 0.0, ..self.0[item] };
    }
}
