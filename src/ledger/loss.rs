//! Losses that are declared and never come off, because the phase that would take them is missing.

use super::balance::{on_bench, parents};
use crate::cook::{Cook, Origin, Phase, Purpose, Stock};
use crate::findings::{Code, Finding};
use crate::quantity::Share;
use crate::say;
use crate::text::Spanned;

/// Says of each trim loss that no bench takes off, and of each yield that no cooking reaches.
pub(super) fn idle(cook: &Cook) -> Vec<Finding> {
    if cook.phases.iter().any(|phase| phase.damaged) {
        return Vec::new();
    }
    let trims = waiting(cook, |stock| stock.trim_loss, |phase| on_bench(cook, phase));
    let yields = waiting(cook, |stock| stock.cooked_yield, |phase| phase.purpose == Purpose::Cook);
    let trims = trims.into_iter().map(|(name, share)| {
        finding(
            share,
            say!["These ", share.value, format!(" are never taken off: no phase has {name} on a bench.")],
            say!["Give it a `prep` phase on a bench, or take the line away if the weight is after trimming."],
            name,
        )
    });
    let yields = yields.into_iter().map(|(name, share)| {
        finding(
            share,
            say!["This yield is never reached: no `cook` phase has ", name.clone(), "."],
            say!["Give it a phase that `is cook`, or take the line away."],
            name,
        )
    });
    trims.chain(yields).collect()
}

fn finding(
    share: Spanned<Share>,
    message: crate::findings::Text,
    remedy: crate::findings::Text,
    name: String,
) -> Finding {
    Finding::new(Code::LossNeverTaken, share.span, message, remedy).about_food(name)
}

/// The foods whose share no phase takes, under any name that they have had.
fn waiting(
    cook: &Cook,
    share: impl Fn(&Stock) -> Option<Spanned<Share>>,
    takes: impl Fn(&Phase) -> bool,
) -> Vec<(String, Spanned<Share>)> {
    // For each item, the bought foods in it whose share is still to come.
    let mut held: Vec<Vec<usize>> = vec![Vec::new(); cook.items.len()];
    let mut shares = vec![None; cook.items.len()];
    for (n, item) in cook.items.iter().enumerate() {
        if let Origin::Food(stock) = &item.origin
            && let Some(share) = share(stock).filter(|share| share.value != Share::ZERO)
        {
            held[n].push(n);
            shares[n] = Some(share);
        }
    }
    let mut touched = vec![false; cook.items.len()];
    for phase in &cook.phases {
        for item in parents(phase) {
            let n = item.0 as usize;
            touched[n] = true;
            if takes(phase) {
                for food in std::mem::take(&mut held[n]) {
                    shares[food] = None;
                }
            } else if let Some(becomes) = &phase.becomes {
                let foods = held[n].clone();
                held[becomes.item.0 as usize].extend(foods);
            }
        }
    }
    let named = cook.items.iter().zip(shares).zip(touched);
    named
        .filter_map(|((item, share), touched)| Some((item.name.clone(), share.filter(|_| touched)?)))
        .collect()
}
