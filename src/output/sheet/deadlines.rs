//! Until when at the latest, and what then; with lines for the time and the reading.

use maud::{Markup, html};

use super::Scope;
use super::marks::{line, said, short_line, times};
use crate::compile::{Compiled, CompiledCook};
use crate::output::deadlines::{self, AS_PREDICTED, OnTheClock, TOO_LATE};
use crate::output::timeline::{day_name, words};
use crate::output::timelines;
use crate::safety::{ByThen, Deadline};
use crate::timing::{Minute, OnTime, Timeline, Window};

struct Row<'c> {
    worked: CompiledCook<'c>,
    deadline: &'c Deadline,
    clock: Option<OnTheClock>,
}

/// Of all cooks, in the order of the clock: the last rows of what is to be read. `None` where there are none.
pub fn rows(file: &Compiled, cooks: &[CompiledCook<'_>], scope: &Scope<'_>) -> Option<Markup> {
    let meal_holds = timelines::plan(file).is_some_and(|plan| plan.on_time == OnTime::Always);
    let all = file.cooks();
    let mut rows: Vec<Row<'_>> = cooks.iter().flat_map(|worked| of_cook(*worked, &all, scope)).collect();
    rows.iter_mut().for_each(|row| row.clock = row.clock.filter(|_| meal_holds));
    // What has no time on the clock comes last.
    rows.sort_by_key(|row| row.clock.map_or((true, 0), |clock| (false, clock.by)));
    let several = cooks.len() > 1;
    let body = html! {
        tbody {
            tr.day { th colspan="4" scope="rowgroup" { "No later than, counted from when it happens. " (TOO_LATE) } }
            @for (n, row) in rows.iter().enumerate() { (shown(file, scope.id("limit", n), row, several)) }
        }
    };
    (!rows.is_empty()).then_some(body)
}

/// At every place of work: the food may come to it before the time is up.
fn of_cook<'c>(worked: CompiledCook<'c>, all: &[CompiledCook<'_>], scope: &Scope<'_>) -> Vec<Row<'c>> {
    if !scope.holds_cook(&worked.cook.title.value) {
        return Vec::new();
    }
    let row = |deadline| Row { worked, deadline, clock: deadlines::on_the_clock(deadline, &worked, all) };
    worked.deadlines.iter().map(row).collect()
}

fn shown(file: &Compiled, id: String, row: &Row<'_>, several: bool) -> Markup {
    let Row { worked, deadline, clock } = row;
    // Where no thermometer is asked, the words have its room.
    let reads = !matches!(deadline.by_then, ByThen::Used);
    let planned = worked.timeline.zip(*clock);
    let certain = |(_, clock): &(&Timeline, OnTheClock)| clock.since.earliest == clock.since.latest;
    html! {
        tr {
            td.when {
                @if planned.filter(certain).is_none() { "by " (short_line("By when", &id)) }
                @if let Some((plan, OnTheClock { by, predicted, .. })) = planned.filter(certain) {
                    (moment(plan, by))
                    @if predicted { br; span.small { (AS_PREDICTED) } }
                }
            }
            td id=(id) colspan=[(!reads).then_some(2)] {
                span.phase { (said(&words::named(&worked.cook.title.value, &deadline.food, several))) ": " }
                span.do { (said(&deadlines::counted(deadline, worked.cook))) ", " }
                (said(&deadlines::what(deadline, file.scale)))
                @if let Some((plan, OnTheClock { since, by, predicted })) = planned.filter(|planned| !certain(planned)) {
                    span.hands {
                        " (if that is " (moment(plan, since.earliest)) ", the earliest: by " (moment(plan, by))
                        @if predicted { ", " (AS_PREDICTED) }
                        ")"
                    }
                }
            }
            td.written { (line("So at", &id)) }
            @if reads { td.written { (line("Reading", &id)) } }
        }
    }
}

/// "14:10 on the day".
fn moment(plan: &Timeline, at: Minute) -> Markup {
    html! {
        (times(&plan.clock, Window { earliest: at, latest: at }))
        " " span.small { (day_name(&plan.clock, plan.clock.day(at))) }
    }
}
