//! Lengths in the words of the file.

use crate::cook::Lasts;
use crate::quantity::Duration;

/// "6 h", "8 h to 14 h", "up to 1 h", "at least 10 h"; `None` where nothing is said.
pub fn lasts(lasts: &Lasts) -> Option<String> {
    Some(match *lasts {
        Lasts::Fixed(length) => length.show(),
        Lasts::Chosen { low, high: Some(high) } if low == Duration::ZERO => format!("up to {}", high.show()),
        Lasts::Chosen { low, high: None } => format!("at least {}", low.show()),
        Lasts::Chosen { low, high: Some(high) } | Lasts::Nature { low, high, .. } => range(low, high),
        Lasts::Open | Lasts::Serving | Lasts::Unsaid => return None,
    })
}

fn range(low: Duration, high: Duration) -> String {
    if low == high { low.show() } else { format!("{} to {}", low.show(), high.show()) }
}
