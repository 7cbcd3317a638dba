//! The prep list on paper.

use super::{CookPrep, PrepList, ServedFood, Step, StepDraw, StepFood};
use crate::cook::Amount;
use crate::output::layout::paragraph;
use crate::output::measure::Measure;
use crate::quantity::{Duration, Mass, Written};

/// One section for each cook.
pub fn text(list: &PrepList) -> String {
    let mut page = String::new();
    for (n, cook) in list.cooks.iter().enumerate() {
        if n > 0 {
            page.push('\n');
        }
        write(&mut page, cook);
    }
    page
}

fn write(page: &mut String, cook: &CookPrep) {
    paragraph(page, 0, 4, &format!("Prep for {}", cook.cook.words()));
    let mut number = 0;
    part(page, "Before the heat goes on", &cook.before, &mut number);
    if cook.before.is_empty() {
        page.push_str("\nBefore the heat goes on there is nothing to do.\n");
    }
    if !cook.to_hand.is_empty() {
        page.push_str("\nTo have ready, weighed\n");
        for step in &cook.to_hand {
            paragraph(page, 2, 6, &format!("for {}: {}", step.phase, step.draws()));
        }
    }
    part(page, "Later, when it has been hot", &cook.later, &mut number);
    if !cook.deadlines.is_empty() {
        page.push_str("\nNo later than\n");
        for deadline in &cook.deadlines {
            paragraph(page, 2, 4, &deadline.text);
        }
    }
    page.push_str("\nAllergens in what is served\n");
    for food in &cook.served {
        paragraph(page, 2, 6, &food.words());
    }
    paragraph(page, 2, 4, READ_THE_LABELS);
    page.push_str("\nCautions\n");
    for caution in &cook.cautions {
        paragraph(page, 2, 4, caution);
    }
}

fn part(page: &mut String, heading: &str, steps: &[Step], number: &mut usize) {
    if steps.is_empty() {
        return;
    }
    page.push_str(&format!("\n{heading}\n"));
    for step in steps {
        *number += 1;
        paragraph(page, 2, 5, &format!("{number}. {}", step.words()));
        for said in step.more() {
            paragraph(page, 5, 7, &said);
        }
    }
}

/// Stands below the allergens.
pub(in crate::output) const READ_THE_LABELS: &str =
    "By the file, or by what things are called. Read the labels.";

impl Step {
    /// "season, on bench, 10 min to 20 min".
    pub(in crate::output) fn words(&self) -> String {
        let preposition = if self.on { "on" } else { "in" };
        let place = self.kit.as_ref().map_or(String::new(), |kit| format!(", {preposition} {kit}"));
        let time = time(self).map_or(String::new(), |time| format!(", {time}"));
        format!("{}{place}{time}", self.phase)
    }

    /// What comes into it, what it takes, what becomes of it and what to do, a line each.
    pub(in crate::output) fn more(&self) -> Vec<String> {
        let mut more: Vec<String> = self.foods.iter().map(StepFood::words).collect();
        if !self.draws.is_empty() {
            more.push(format!("take {}", self.draws()));
        }
        more.extend(self.becomes.as_ref().map(|name| format!("from here on: {name}")));
        if !self.covers.is_empty() {
            more.push(self.covers.join(", "));
        }
        more.extend(self.jobs.iter().chain(&self.notes).cloned());
        more
    }

    /// The food in these parts, what it takes, how it is covered, what to collect at the end, and what the writer notes.
    pub(super) fn at_hand(&self, parts: Vec<String>, collected: Vec<String>) -> Option<String> {
        let short = |draw: &StepDraw| StepDraw { description: None, ..draw.clone() }.words();
        let foods = if parts.is_empty() { self.foods.iter().map(StepFood::words).collect() } else { parts };
        let draws = self.draws.iter().map(short).collect::<Vec<_>>().join(", ");
        let draws = (!draws.is_empty()).then(|| format!("take {draws}"));
        let covers = (!self.covers.is_empty()).then(|| self.covers.join(", "));
        let collected =
            (!collected.is_empty()).then(|| format!("at its end collect {}", collected.join(" and ")));
        let all: Vec<String> = foods.into_iter().chain(draws).chain(covers).chain(collected).collect();
        let notes = self.notes.iter().map(|note| note.trim_end_matches('.').to_owned());
        let all: Vec<String> = all.into_iter().chain(notes).collect();
        (!all.is_empty()).then(|| all.join("; "))
    }

    /// "70 g of salt (coarse sea salt), 40 g of pepper".
    pub(in crate::output) fn draws(&self) -> String {
        self.draws.iter().map(StepDraw::words).collect::<Vec<_>>().join(", ")
    }
}

impl ServedFood {
    /// "beans: celery (stock), sulphites (wine)".
    pub(in crate::output) fn words(&self) -> String {
        let all =
            self.allergens.iter().map(|entry| format!("{} ({})", entry.allergen, entry.items.join(", ")));
        let all = all.collect::<Vec<_>>().join(", ");
        let all = if all.is_empty() { "none that the file names" } else { &all };
        format!("{}: {all}", self.food)
    }
}

fn time(step: &Step) -> Option<String> {
    let show = |seconds: f64| Duration::from_seconds(seconds).show();
    Some(match (step.at_least_s, step.at_most_s) {
        (Some(low), Some(high)) if low == high => show(low),
        (Some(0.0), Some(high)) => format!("up to {}", show(high)),
        (Some(low), Some(high)) => format!("{} to {}", show(low), show(high)),
        (Some(low), None) => format!("at least {}", show(low)),
        _ => return None,
    })
}

impl StepDraw {
    /// "70 g of salt (coarse sea salt)".
    fn words(&self) -> String {
        let mut said = match &self.amount {
            None => format!("{} to taste", self.name),
            // "2 onions", not "2 onions of onions".
            Some(Measure { count: Some(count), counted, .. }) => {
                let word = counted.as_ref().unwrap_or(&self.name).clone();
                Amount::Count { number: *count, word }.show()
            }
            Some(amount) => format!("{} of {}", amount.show(), self.name),
        };
        if let Some(description) = &self.description {
            said.push_str(&format!(" ({description})"));
        }
        if self.lies_in {
            said.push_str(" to lie in");
        }
        said
    }
}

impl StepFood {
    /// "shoulder: 6.4 kg, in 2 pieces, trimmed to about 5.89 kg".
    fn words(&self) -> String {
        let mut facts = Vec::new();
        facts.extend(self.mass.as_ref().map(Measure::show));
        if let Some(pieces) = &self.pieces {
            facts.push(match &self.divided_into_each {
                Some(each) => format!("into {} of {}", pieces.show(), each.show()),
                None => format!("in {}", pieces.show()),
            });
        }
        if let Some(kg) = self.trimmed_kg {
            let written = self.mass.as_ref().map_or(Written::Metric, |mass| mass.written);
            let trimmed = Mass::from_kg(kg).written_in(written).show();
            facts.insert(facts.len().min(1), format!("trimmed to about {trimmed}"));
        }
        if facts.is_empty() { self.name.clone() } else { format!("{}: {}", self.name, facts.join(", ")) }
    }
}
