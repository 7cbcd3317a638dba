//! The prep list on paper.

use super::{CookPrep, PrepList, Step, StepDraw, StepFood};
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
            paragraph(page, 2, 6, &format!("for {}: {}", step.phase, draws(step)));
        }
    }
    part(page, "Later, when it has been hot", &cook.later, &mut number);
    page.push_str("\nAllergens in what is served\n");
    for food in &cook.served {
        let all =
            food.allergens.iter().map(|entry| format!("{} ({})", entry.allergen, entry.items.join(", ")));
        let all = all.collect::<Vec<_>>().join(", ");
        let all = if all.is_empty() { "none that the file names" } else { &all };
        paragraph(page, 2, 6, &format!("{}: {all}", food.food));
    }
    paragraph(page, 2, 4, "By the file, or by what things are called. Read the labels.");
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
        let preposition = if step.on { "on" } else { "in" };
        let place = step.kit.as_ref().map_or(String::new(), |kit| format!(", {preposition} {kit}"));
        let time = time(step).map_or(String::new(), |time| format!(", {time}"));
        paragraph(page, 2, 5, &format!("{number}. {}{place}{time}", step.phase));
        for food in &step.foods {
            paragraph(page, 5, 7, &food.words());
        }
        if !step.draws.is_empty() {
            paragraph(page, 5, 7, &format!("take {}", draws(step)));
        }
        if let Some(name) = &step.becomes {
            paragraph(page, 5, 7, &format!("from here on: {name}"));
        }
        if !step.covers.is_empty() {
            paragraph(page, 5, 7, &step.covers.join(", "));
        }
        for said in step.jobs.iter().chain(&step.notes) {
            paragraph(page, 5, 7, said);
        }
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

fn draws(step: &Step) -> String {
    step.draws.iter().map(StepDraw::words).collect::<Vec<_>>().join(", ")
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
