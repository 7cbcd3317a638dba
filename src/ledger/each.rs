//! `takes 3 min to 5 min each`: the time for one piece becomes the time for all of them.

use super::balance::balance;
use crate::cook::{Cook, Lasts, PhaseId};

/// Multiplies every time given for each piece by the pieces that the phase has. To be done once,
/// after scaling and before anything is timed; the times are for all pieces then.
pub fn spread_each(cook: &mut Cook) {
    let wanted = |lasts: &Lasts| matches!(lasts, Lasts::Nature { each: true, .. });
    if !cook.phases.iter().any(|phase| wanted(&phase.lasts)) {
        return;
    }
    let (ledger, _) = balance(cook);
    for (n, phase) in cook.phases.iter_mut().enumerate() {
        if let Lasts::Nature { low, high, each: true } = phase.lasts {
            let foods = &ledger.phase(PhaseId(n as u32)).foods;
            let counts = foods.iter().filter_map(|food| Some(food.pieces.as_ref()?.0));
            // Without a count there is one of it: a pot, a joint.
            let count = counts.fold(0.0, |sum: f64, count| sum + count).max(1.0);
            phase.lasts = Lasts::Nature { low: low * count, high: high * count, each: false };
            phase.in_turn = count > 1.0;
        }
    }
}
