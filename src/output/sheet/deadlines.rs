//! Until when at the latest, and what then; with lines for the time and the reading.

use maud::{Markup, html};

use super::Scope;
use super::marks::{line, said, times};
use crate::compile::{Compiled, CompiledCook};
use crate::output::deadlines::{self, TOO_LATE};
use crate::output::timeline::{day_name, words};
use crate::safety::{ByThen, Deadline, Since};
use crate::timing::{Minute, Window};

struct Row<'c> {
    worked: CompiledCook<'c>,
    deadline: &'c Deadline,
    by: Option<Minute>,
}

/// Of all cooks, in the order of the clock: the last rows of what is to be read. `None` where there are none.
pub fn rows(file: &Compiled, cooks: &[CompiledCook<'_>], scope: &Scope<'_>) -> Option<Markup> {
    let mut rows: Vec<Row<'_>> = cooks.iter().flat_map(|worked| of_cook(*worked, scope)).collect();
    rows.sort_by_key(|row| row.by);
    let several = cooks.len() > 1;
    let body = html! {
        tbody {
            tr.day { th colspan="4" scope="rowgroup" { "No later than, if it goes as early as it may. " (TOO_LATE) } }
            @for (n, row) in rows.iter().enumerate() { (shown(file, scope.id("limit", n), row, several)) }
        }
    };
    (!rows.is_empty()).then_some(body)
}

fn of_cook<'c>(worked: CompiledCook<'c>, scope: &Scope<'_>) -> Vec<Row<'c>> {
    let cook = worked.cook;
    let inside = |deadline: &&Deadline| {
        let (Since::StartOf(phase) | Since::EndOf(phase)) = deadline.since;
        scope.holds(&cook.title.value, &cook.phase(phase).name)
    };
    let row = |deadline| Row {
        worked,
        deadline,
        by: worked.timeline.and_then(|plan| deadlines::by(deadline, plan)),
    };
    worked.deadlines.iter().filter(inside).map(row).collect()
}

fn shown(file: &Compiled, id: String, row: &Row<'_>, several: bool) -> Markup {
    let Row { worked, deadline, by } = row;
    // Where no thermometer is asked, the words have its room.
    let reads = !matches!(deadline.by_then, ByThen::Used);
    html! {
        tr {
            td.when {
                @if let (Some(plan), Some(by)) = (worked.timeline, by) {
                    (times(&plan.clock, Window { earliest: *by, latest: *by }))
                    " " span.small { (day_name(&plan.clock, plan.clock.day(*by))) }
                }
            }
            td id=(id) colspan=[(!reads).then_some(2)] {
                span.phase { (said(&words::named(&worked.cook.title.value, &deadline.food, several))) ": " }
                span.do { (said(&deadlines::what(deadline, file.scale))) }
                span.hands {
                    " (" (said(&deadlines::counted(deadline, worked.cook)))
                    ")"
                }
            }
            td.written { (line("So at", &id)) }
            @if reads { td.written { (line("Reading", &id)) } }
        }
    }
}
