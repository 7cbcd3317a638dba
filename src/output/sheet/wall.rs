//! Page one: what to do and when, with boxes to tick, and what to look at.

use maud::{Markup, html};

use super::marks::{line, said, tick, times};
use super::{Scope, findings, name, readings};
use crate::compile::{Compiled, CompiledCook};
use crate::cook::Document;
use crate::output::timeline::{outlook, words};
use crate::output::{cautions, curve, prep, serves};
use crate::quantity::Scale;
use crate::safety;
use crate::tables::cautions::When;
use crate::timing::{JobLine, Timeline};

/// Common practice, no source.
const WAITING: &str = "While people wait, what is kept hot stays in its heat and what is kept cold in its cold, not on the table; \
                       the limits above count on.";

/// Of all that is cooked, or of a part of it; `cooks` are those that it is about.
pub fn page(file: &Compiled, plan: &Timeline, cooks: &[CompiledCook<'_>], scope: &Scope<'_>) -> Markup {
    html! {
        section.wall.menu[plan.is_menu()] {
            h1 dir="auto" { (scope.title()) }
            @let about = about(file, plan, cooks, scope);
            @if !about.is_empty() { p.about { (said(&about)) } }
            @if let Some(caution) = cautions::of_errors_in(file, name(file)) {
                div.caution { p { strong { (said(&caution)) } } (findings::of_errors(file)) }
            }
            (findings::allowed(file, cooks))
            p.promise { strong { (said(&words::promise(plan))) } }
            ul.facts {
                @if let Some(start) = words::start(plan) { li { (start) } }
                @let own = plan.servings.iter().filter(|serving| scope.holds_cook(&serving.cook));
                @for serving in own.filter_map(|serving| words::serving(plan, serving)) {
                    li { (said(&serving)) }
                }
                @for reservation in words::reservations(plan) { li { (said(reservation)) } }
            }
            (findings::warnings(file, cooks, scope))
            (jobs(plan, cooks, scope, file.scale))
            (readings::table(file, cooks, scope))
            (limits(file, cooks))
            (served(cooks, scope))
            (late(file, plan, cooks, scope))
        }
    }
}

/// For whom, and what the writer says of it; of a menu, its dishes; of a part, of what it is one.
fn about(file: &Compiled, plan: &Timeline, cooks: &[CompiledCook<'_>], scope: &Scope<'_>) -> String {
    let menu = matches!(file.document, Some(Document::Menu(_))) && !scope.is_part();
    let dish = |worked: &CompiledCook<'_>| {
        let title = menu.then_some(worked.cook.title.value.as_str());
        let told = worked.cook.about.as_ref().filter(|_| !menu).map(|about| about.value.clone());
        let people = serves::people(worked.cook).map(|people| format!("for {people}"));
        let parts = [title.map(str::to_owned), people, told.map(|told| format!("– {told}"))];
        parts.into_iter().flatten().collect::<Vec<_>>().join(" ")
    };
    let of = scope.is_part().then(|| format!("of {}", plan.title));
    of.into_iter().chain(cooks.iter().map(dish)).collect::<Vec<_>>().join("; ")
}

/// The plan: a body of rows for each day.
pub fn jobs(plan: &Timeline, cooks: &[CompiledCook<'_>], scope: &Scope<'_>, scale: Scale) -> Markup {
    let clock = &plan.clock;
    let inside = plan.jobs.iter().filter(|job| scope.holds(&job.cook, &job.phase));
    let numbered: Vec<(usize, &JobLine)> = inside.enumerate().collect();
    let days = numbered.chunk_by(|a, b| clock.day(a.1.at.earliest) == clock.day(b.1.at.earliest));
    html! {
        @if numbered.is_empty() { p { "There is nothing to do by hand." } } @else {
            table.plan {
                caption { "What to do" }
                thead { tr {
                    th.box scope="col" { span.unseen { "Done" } }
                    th scope="col" { "When" }
                    th scope="col" { "What" }
                    th.written scope="col" { "Done at" }
                } }
                @for day in days {
                    tbody {
                        @if let Some((_, first)) = day.first() {
                            tr.day { th colspan="4" scope="rowgroup" { (words::day_heading(clock, first.at.earliest)) } }
                        }
                        @for (n, job) in day { (row(plan, cooks, scope.id("job", *n), job, scope, scale)) }
                    }
                }
            }
        }
    }
}

fn row(
    plan: &Timeline,
    cooks: &[CompiledCook<'_>],
    id: String,
    job: &JobLine,
    scope: &Scope<'_>,
    scale: Scale,
) -> Markup {
    let named = words::named(&job.cook, &job.phase, plan.is_menu() && !scope.is_part());
    html! {
        tr.left-out[job.dropped] {
            td.box { @if !job.dropped { (tick(&id)) } }
            td.when { (times(&plan.clock, job.at)) }
            td id=(id) {
                span.phase { (said(&named)) ": " }
                span.do { (said(&job.text.render(scale))) }
                @if let Some(hands) = words::hands(job) { span.hands { " (" (said(&hands)) ")" } }
                @if let Some(sleep) = words::breaks_sleep(job) { strong { " (" (sleep) ")" } }
                @if let Some(needed) = at_hand(cooks, job) { " " span.hands { (said(&needed)) "." } }
            }
            td.written { @if !job.dropped { (line("Done at", &id)) } }
        }
    }
}

/// What a phase takes and how it is covered, beside the job with which it begins.
fn at_hand(cooks: &[CompiledCook<'_>], job: &JobLine) -> Option<String> {
    let worked = cooks.iter().find(|worked| worked.cook.title.value == job.cook)?;
    let plan = worked.timeline?;
    let (id, _) = worked.cook.phases().find(|(_, phase)| phase.name == job.phase)?;
    let begins = plan.phases.get(id.0 as usize)?.start?;
    // Kit that is lit for it comes before.
    let first = plan.jobs.iter().rfind(|one| one.phase == job.phase && one.at == begins)?;
    if first.text != job.text || job.at != begins {
        return None;
    }
    prep::at_hand(worked, id)
}

/// Allergens of what is served, and that smoke needs air.
fn served(cooks: &[CompiledCook<'_>], scope: &Scope<'_>) -> Markup {
    let own = cooks.iter().filter(|worked| scope.holds_cook(&worked.cook.title.value));
    let own: Vec<&CompiledCook<'_>> = own.collect();
    let list = prep::judged(&own.iter().map(|worked| **worked).collect::<Vec<_>>());
    let foods: Vec<String> =
        list.cooks.iter().flat_map(|cook| &cook.served).map(prep::ServedFood::words).collect();
    let cautions = own.iter().flat_map(|worked| safety::cautions::cautions(worked.cook));
    let smoke = cautions.into_iter().find(|caution| caution.when == When::Smoke);
    html! {
        p.small {
            @if !foods.is_empty() {
                strong { "Allergens: " } (said(&foods.join("; "))) ". " (prep::READ_THE_LABELS) " "
            }
            @if let Some(smoke) = smoke { (said(&smoke.text)) }
        }
    }
}

/// What food in general is kept above or below, by the rules in force.
fn limits(file: &Compiled, cooks: &[CompiledCook<'_>]) -> Markup {
    let mut all: Vec<(String, f64)> = Vec::new();
    for limit in cooks.iter().flat_map(|worked| curve::limits_in_force(worked.judged)) {
        if !all.contains(&limit) {
            all.push(limit);
        }
    }
    html! {
        @if !all.is_empty() {
            p.limits {
                strong { "Limits: " }
                @for (n, (name, celsius)) in all.iter().enumerate() {
                    @if n > 0 { "; " }
                    (name) " " strong { (curve::words::degrees(*celsius, file.scale)) }
                }
                "."
            }
        }
    }
}

/// How it may go, and what to do when it does not go by the plan.
fn late(file: &Compiled, plan: &Timeline, cooks: &[CompiledCook<'_>], scope: &Scope<'_>) -> Markup {
    let own = plan.servings.iter().filter(|serving| scope.holds_cook(&serving.cook));
    let mut because: Vec<&str> = own.map(|serving| serving.because.as_str()).collect();
    because.retain(|because| !because.is_empty());
    because.dedup();
    let branches = plan.branches.iter().filter(|branch| scope.holds(&branch.cook, &branch.phase));
    let overruns = plan.overruns.iter().filter(|overrun| scope.holds(&overrun.cook, &overrun.phase));
    let overruns: Vec<_> = overruns.collect();
    html! {
        h2 { "If it gets late" }
        @if let Some(count) = plan.too_many { p.late { (said(&outlook::too_many(count))) } }
        @if !overruns.is_empty() { p.late { (said(&outlook::above_overruns(plan))) } }
        ul.late {
            li { (WAITING) }
            @for because in because { li { (said(because)) } }
            @for remedy in findings::remedies_of_time(file, cooks, scope) { li { (said(&remedy)) } }
            @for branch in branches {
                li { @for case in outlook::branch(plan, branch) { (said(&case)) " " } }
            }
            @for overrun in &overruns { li { (said(&outlook::not_over_by(plan, overrun))) } }
            li {
                "Later than the last time of a line? The plan no longer holds. Whoever has the file can have a new one made: "
                code {
                    "dwell timeline FILE " span.together { "--now TIME" } " " span.together { "--done PHASE=TIME" }
                } "."
                " Temperatures and limits stay as they are."
            }
        }
    }
}
