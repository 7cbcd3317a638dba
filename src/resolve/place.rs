//! Which clause belongs in which block.

use crate::syntax::ClauseKind;

/// The block a clause belongs in, for the remedy of one out of place.
pub fn home(kind: &ClauseKind) -> &'static str {
    use ClauseKind as K;
    match kind {
        K::Serves { .. }
        | K::Rules(_)
        | K::About(_)
        | K::By(_)
        | K::AdaptedFrom(_)
        | K::Measures(_)
        | K::Elevation(_)
        | K::VulnerableGuests => "cook",
        K::Swing(_)
        | K::Preheat(_)
        | K::CoolsDown(_)
        | K::Shelves(_)
        | K::Holds(_)
        | K::Room(_)
        | K::Vented
        | K::Programmable => "kit",
        K::StartsAt(_) | K::Frozen | K::Cooked | K::TrimLoss(_) | K::CookedYield(_) | K::Shape(_) => "food",
        K::Supplier(_)
        | K::OnHand(_)
        | K::SameForAnyNumber
        | K::ToTaste
        | K::Nitrite(_)
        | K::Contains(_)
        | K::Amount { .. } => "food` or `ingredient",
        K::At(_) | K::UpToLate(_) | K::FromTo(..) | K::Guests(..) => "serve",
        K::Asleep(..) | K::Away(..) => "crew",
        K::Setting { .. }
        | K::Moisture(_)
        | K::Fan
        | K::Still
        | K::Thickness(_)
        | K::Depth(_)
        | K::Structure(_)
        | K::Place { .. }
        | K::Becomes { .. }
        | K::Cover { .. }
        | K::With { .. }
        | K::Smoke(_)
        | K::For(_)
        | K::ForUpTo(_)
        | K::ForAtLeast(_)
        | K::Takes { .. }
        | K::Until(_)
        | K::Within(_)
        | K::Check { .. }
        | K::Use(_)
        | K::Collect { .. }
        | K::Do(_)
        | K::AtEndDo(_)
        | K::AtCoreDo { .. }
        | K::EveryDo { .. }
        | K::HandsOn(_)
        | K::LookIn(_)
        | K::Unattended
        | K::Order { .. }
        | K::Fills(_)
        | K::Note(_)
        | K::Allow { .. } => "phase",
    }
}
