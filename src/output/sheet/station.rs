//! The page of one station: what page one says of its dish or its place of work, and what else is needed there.

use maud::{Markup, html};

use super::marks::Depth;
use super::{Scope, kit, phases, prep, wall};
use crate::compile::{Compiled, CompiledCook};
use crate::output::prep as prepping;
use crate::timing::Timeline;

pub fn page(file: &Compiled, plan: &Timeline, cooks: &[CompiledCook<'_>], scope: &Scope<'_>) -> Markup {
    let own: Vec<CompiledCook<'_>> =
        cooks.iter().filter(|worked| scope.holds_cook(&worked.cook.title.value)).copied().collect();
    html! {
        (wall::page(file, plan, &own, scope))
        @for worked in &own {
            @let list = prepping::list(&[(worked.cook, worked.ledger)]);
            section.station {
                h2 dir="auto" { (scope.title()) }
                @for prepared in &list.cooks { (prep::steps(prepared, scope, Depth::Below)) }
                (kit::table(worked, file.scale, scope, Depth::Below))
                (phases::table(worked, scope, Depth::Below))
                @for prepared in &list.cooks { (prep::cautions(prepared, Depth::Below)) }
            }
        }
    }
}
