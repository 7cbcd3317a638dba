//! A cook in the vocabulary of schema.org, as JSON-LD, for search engines and other tools.
//!
//! Only what is known is said: no picture, no nutrition, no diet that it would suit. Whole times are those of the plan, if
//! it holds whatever nature does.

use serde::Serialize;

use super::sheet::readings;
use super::{buy, serves, timelines};
use crate::compile::{Compiled, CompiledCook, silences};
use crate::cook::{Cook, Item, ItemId, Origin, Phase, Purpose};
use crate::findings::{Finding, Severity};
use crate::quantity::Scale;
use crate::timing::{Minute, OnTime, Timeline};

#[derive(Serialize)]
struct Graph {
    #[serde(rename = "@context")]
    context: &'static str,
    /// One for each dish.
    #[serde(rename = "@graph")]
    graph: Vec<Recipe>,
}

/// schema.org/Recipe.
#[derive(Serialize)]
#[serde(tag = "@type", rename_all = "camelCase")]
struct Recipe {
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    description: Option<String>,
    /// Who is named may be a person, a club or a kitchen.
    #[serde(skip_serializing_if = "Option::is_none")]
    credit_text: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    is_based_on: Option<Based>,
    #[serde(skip_serializing_if = "Option::is_none")]
    recipe_yield: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    keywords: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    prep_time: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cook_time: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    total_time: Option<String>,
    recipe_ingredient: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    supply: Vec<Thing>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    tool: Vec<Thing>,
    recipe_instructions: Vec<Section>,
}

#[derive(Serialize)]
#[serde(tag = "@type", rename = "CreativeWork")]
struct Based {
    name: String,
}

#[derive(Serialize)]
#[serde(tag = "@type")]
enum Thing {
    HowToTool { name: String },
    HowToSupply { name: String },
}

/// A phase.
#[derive(Serialize)]
#[serde(tag = "@type", rename = "HowToSection", rename_all = "camelCase")]
struct Section {
    name: String,
    item_list_element: Vec<Step>,
}

#[derive(Serialize)]
#[serde(tag = "@type", rename = "HowToStep")]
struct Step {
    text: String,
}

/// The cooks of a file, to be put into a page; `None` where there is none, and as long as the file has an error, allowed by
/// the writer or not: who finds a recipe elsewhere does not see what stands above it here.
pub fn json_ld(file: &Compiled) -> Option<String> {
    let holds = timelines::plan(file).is_some_and(|plan| plan.on_time == OnTime::Always);
    let cooks = file.cooks();
    let allows = || cooks.iter().flat_map(|worked| &worked.cook.allows);
    // Of what is allowed only errors that can hurt somebody are still there.
    let fails = |finding: &Finding| {
        finding.severity == Severity::Error || allows().any(|allow| silences(allow, finding))
    };
    if file.findings.iter().any(fails) {
        return None;
    }
    let graph: Vec<Recipe> = cooks.iter().map(|worked| recipe(worked, file.scale, holds)).collect();
    let graph = Graph { context: "https://schema.org", graph };
    (!graph.graph.is_empty()).then(|| super::escape::json_in_page(&graph))
}

fn recipe(worked: &CompiledCook<'_>, scale: Scale, holds: bool) -> Recipe {
    let cook = worked.cook;
    let plan = worked.timeline;
    // A dish of a menu waits for its kit and hands as the others let it.
    let promised = plan.filter(|plan| holds && plan.on_time == OnTime::Always);
    let during = |purposes: &[Purpose]| promised.and_then(|plan| duration(time_of(plan, purposes)?));
    let (supplies, ingredients): (Vec<_>, Vec<_>) =
        cook.items().partition(|&(id, item)| is_supply(cook, id, item));
    let supply = supplies.into_iter().filter_map(|(_, item)| buy::needed(cook, item));
    Recipe {
        name: cook.title.value.clone(),
        description: cook.about.as_ref().map(|about| about.value.clone()),
        credit_text: cook.by.as_ref().map(|by| by.value.clone()),
        is_based_on: cook.adapted_from.as_ref().map(|from| Based { name: from.value.clone() }),
        recipe_yield: serves::people(cook),
        keywords: keywords(cook),
        prep_time: during(&[Purpose::Prep]),
        cook_time: during(&[Purpose::Cook, Purpose::Reheat]),
        total_time: promised.and_then(|plan| duration(whole_time(plan)?)),
        recipe_ingredient: ingredients.into_iter().filter_map(|(_, item)| buy::needed(cook, item)).collect(),
        supply: supply.map(|name| Thing::HowToSupply { name }).collect(),
        tool: tools(cook),
        recipe_instructions: cook.phases.iter().filter_map(|phase| section(plan, phase, scale)).collect(),
    }
}

/// What food lies in or is smoked with; nobody eats it.
fn is_supply(cook: &Cook, id: ItemId, item: &Item) -> bool {
    cook.phases.iter().any(|phase| {
        let covers = phase.shape.covers.iter().filter_map(|cover| cover.stuff.as_ref());
        let smoke = phase.smoke.as_ref().and_then(|smoke| smoke.draw.as_ref());
        smoke.is_some_and(|draw| draw.item == id) || covers.into_iter().any(|stuff| stuff.value == item.name)
    })
}

/// The kinds of its food, each once.
fn keywords(cook: &Cook) -> Option<String> {
    let foods = cook.items.iter().filter(|item| matches!(item.origin, Origin::Food(_)));
    let mut kinds: Vec<&str> = Vec::new();
    for kind in foods.filter_map(|item| item.kind.as_ref()).map(|kind| kind.value.name.as_str()) {
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    (!kinds.is_empty()).then(|| kinds.join(", "))
}

fn tools(cook: &Cook) -> Vec<Thing> {
    let places = |phase: &Phase| phase.place.as_ref().map(|place| place.value);
    let used: Vec<_> = cook.phases.iter().filter_map(places).collect();
    let numbered = (0..).map(crate::cook::KitId).zip(&cook.kit);
    let tools = numbered.filter(|(id, _)| used.contains(id)).map(|(_, kit)| {
        let (name, class) = (&kit.name.value, &kit.class.name);
        let name = if name == class { name.clone() } else { format!("{name} ({class})") };
        Thing::HowToTool { name }
    });
    tools.collect()
}

/// What to do in a phase, each thing once, and what ends it.
fn section(plan: Option<&Timeline>, phase: &Phase, scale: Scale) -> Option<Section> {
    let jobs = plan.into_iter().flat_map(|plan| &plan.jobs).filter(|job| job.phase == phase.name);
    let mut texts: Vec<String> = Vec::new();
    for text in jobs.map(|job| job.text.render(scale)) {
        if !texts.contains(&text) {
            texts.push(text);
        }
    }
    let planned = plan.and_then(|plan| plan.phases.iter().find(|line| line.name == phase.name));
    let lasts = planned.map(|line| line.lasts.as_str()).filter(|lasts| !lasts.is_empty());
    let facts =
        [lasts.map(|lasts| format!("It lasts {lasts}.")), readings::ought(phase, scale).map(sentence)];
    texts.extend(facts.into_iter().flatten());
    texts.extend(phase.notes.iter().map(|note| note.value.clone()));
    let item_list_element: Vec<Step> = texts.into_iter().map(|text| Step { text }).collect();
    (!item_list_element.is_empty()).then(|| Section { name: phase.name.clone(), item_list_element })
}

/// "until core 84 °C" as a sentence.
fn sentence(words: String) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_uppercase().collect::<String>()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

/// From the first minute that the plan starts to the first of its last serving.
fn whole_time(plan: &Timeline) -> Option<Minute> {
    let start = plan.start?.earliest;
    let served =
        plan.servings.iter().filter_map(|serving| serving.promised).map(|window| window.earliest).max()?;
    Some(served - start)
}

/// How long something of these purposes goes on, as long as the plan lets it; what goes on at once counts once. `None`
/// where there is nothing of them, or something is not timed.
fn time_of(plan: &Timeline, purposes: &[Purpose]) -> Option<Minute> {
    let of_them = plan.phases.iter().filter(|phase| purposes.contains(&phase.purpose));
    let mut spans = Vec::new();
    for phase in of_them {
        let (start, end) = (phase.start?, phase.end?);
        let longest = (end.latest - start.latest).max(end.earliest - start.earliest);
        spans.push((start.earliest, start.earliest + longest));
    }
    spans.sort_unstable();
    let (mut total, mut until) = (0, Minute::MIN);
    for &(from, to) in &spans {
        total += (to - from.max(until)).max(0);
        until = until.max(to);
    }
    (!spans.is_empty()).then_some(total)
}

/// ISO 8601-1:2019, 5.5.2: `P1DT2H5M`.
fn duration(minutes: Minute) -> Option<String> {
    if minutes <= 0 {
        return None;
    }
    let (days, hours, rest) = (minutes / 1440, minutes / 60 % 24, minutes % 60);
    let part =
        |figure: Minute, unit: char| if figure > 0 { format!("{figure}{unit}") } else { String::new() };
    let time = part(hours, 'H') + &part(rest, 'M');
    let time = if time.is_empty() { time } else { format!("T{time}") };
    Some(format!("P{}{time}", part(days, 'D')))
}

#[cfg(test)]
mod tests {
    use super::duration;

    #[test]
    fn durations_name_no_nothing() {
        let said = [0, 5, 60, 61, 1440, 1445, 3000].map(duration);
        let said: Vec<_> = said.iter().map(|said| said.as_deref().unwrap_or("")).collect();
        assert_eq!(said, ["", "PT5M", "PT1H", "PT1H1M", "P1D", "P1DT5M", "P2DT2H"]);
    }
}
