//! What to buy, by supplier, for all that is cooked.

use maud::{Markup, html};

use super::marks::{said, tick};
use crate::compile::CompiledCook;
use crate::output::buy::{self, BuyList, Line, PREDICTED};

pub fn list(cooks: &[CompiledCook<'_>]) -> Markup {
    let list = buy::list(&cooks.iter().map(|worked| worked.cook).collect::<Vec<_>>());
    let there: Vec<&Line> =
        list.suppliers.iter().flat_map(|supplier| &supplier.lines).filter(|line| line.is_there()).collect();
    let mut number = 0;
    html! {
        section {
            h2 { "To buy" }
            @if list.cooks.len() > 1 {
                ol.cooks { @for cook in &list.cooks { li { (said(&cook.words())) } } }
                p { "The figures in brackets below are the numbers of the dishes that need it." }
            }
            @for supplier in &list.suppliers {
                @let lines: Vec<&Line> = supplier.lines.iter().filter(|line| !line.is_there()).collect();
                @if !lines.is_empty() {
                    @match &supplier.supplier {
                        Some(name) => h3 { "From " bdi { (name) } },
                        None if list.suppliers.len() > 1 => h3 { "No supplier named" },
                        None => {}
                    }
                    (items(&lines, &list, &mut number))
                }
            }
            @if !there.is_empty() {
                h3 { "On hand, nothing to buy" }
                (items(&there, &list, &mut number))
            }
            @if number == 0 { p { "Nothing." } }
            @if list.predicts() { p.small { (PREDICTED) } }
        }
    }
}

fn items(lines: &[&Line], list: &BuyList, number: &mut usize) -> Markup {
    html! {
        ul.ticks {
            @for line in lines {
                @let id = { *number += 1; format!("buy{number}") };
                li {
                    (tick(&id))
                    span id=(id) {
                        (said(&line.words(&list.cooks)))
                        @for more in line.more() { br; span.small { (said(&more)) } }
                    }
                }
            }
        }
    }
}
