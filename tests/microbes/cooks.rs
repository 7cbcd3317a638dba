//! The microbes of whole cooks, as `dwell curve` shows them.

use dwell::compile::{Compiled, Options, compile};
use dwell::heat::Curves;
use dwell::output::curve::{self, Shown};
use dwell::quantity::Scale;
use dwell::safety::{FoodMicrobes, Line, Microbe, microbial};

use crate::common::Memory;
use crate::history;

fn compiled(text: &str) -> Compiled {
    let compiled = compile(&Memory(&[]), "test.dwell".into(), text.into(), &Options::default());
    assert!(compiled.understood(), "{:#?}", compiled.findings);
    compiled
}

/// Foods by name, with their microbes.
fn microbes(compiled: &Compiled) -> Vec<(String, FoodMicrobes)> {
    let worked = compiled.cooks()[0];
    let names = worked.curves.foods.iter().map(|food| food.name.clone());
    names.zip(microbial(worked.cook, worked.curves)).collect()
}

fn one(compiled: &Compiled, food: &str, organism: &str) -> Microbe {
    let all = microbes(compiled);
    let (_, food) = all.iter().find(|(name, _)| name == food).unwrap_or_else(|| panic!("{food}: {all:?}"));
    *food.microbes.iter().find(|microbe| microbe.organism.name == organism).expect("looked at")
}

fn shown(title: &str, curves: &Curves, microbes: &[FoodMicrobes]) -> String {
    curve::text(&Shown { title, curves, microbes, limits: &[], start: None }, Scale::Celsius)
}

const HEAD: &str = r#"cook "Roast for the regatta"
  serves 6
  rules us-food-code

kit oven is fan oven
  air 40 °C to 250 °C
kit fridge is fridge
kit bench is bench
kit probe is probe thermometer

"#;

const BEEF: &str = r#"food beef is beef topside
  1 piece of 2 kg
  thickness 9 cm
  starts at 5 °C

phase roast is cook
  beef in oven
  air 140 °C
  for 6 h

"#;

fn cook(blocks: &str) -> Compiled {
    compiled(&format!("{HEAD}{BEEF}{blocks}"))
}

const EATEN: &str = "serve beef\n  at 19:00\n";

/// The figures are those of the samples that are shown: the lowest core kills, the worst line grows.
#[test]
fn the_figures_follow_from_the_samples_that_are_shown() {
    let compiled = cook(&format!("phase chill is cool\n  beef in fridge\n  air 4 °C\n  for 20 h\n\n{EATEN}"));
    let worked = compiled.cooks()[0];
    let samples = &worked.curves.foods[0].samples;
    let hours: Vec<f64> = samples.iter().map(|sample| sample.t_s / 3600.0).collect();
    let along = |celsius: fn(&dwell::heat::Sample) -> f64| {
        history(&hours, &samples.iter().map(celsius).collect::<Vec<_>>())
    };
    let lines = [
        along(|sample| sample.core_low_c),
        along(|sample| sample.core_c),
        along(|sample| sample.core_high_c),
        along(|sample| sample.surface_c),
    ];
    let beef = [dwell::safety::microbes::Sort {
        species: dwell::tables::Species::Beef,
        state: dwell::tables::FoodState::Intact,
    }];
    let (_, found) = &microbes(&compiled)[0];
    assert_eq!(found.microbes.len(), 4, "all but what a whole cut has none of");
    for microbe in &found.microbes {
        let exposures =
            lines.each_ref().map(|line| dwell::safety::microbes::exposure(microbe.organism, &beef, line));
        let name = &microbe.organism.name;
        let near = |ours: f64, other: f64| (ours - other).abs() <= 1e-6 * other.abs().max(1.0);
        match (microbe.reduction_log10, exposures[0].reduction_log10) {
            (Some(ours), Some(other)) => assert!(near(ours, other), "{name}: {ours} {other}"),
            (ours, other) => assert_eq!(ours, other, "{name}"),
        }
        let worst =
            exposures.iter().map(|exposure| exposure.growth_log10(microbe.organism)).fold(0.0, f64::max);
        assert!(near(microbe.growth_log10.expect("known"), worst), "{name}");
    }
    let perfringens = one(&compiled, "beef", "Clostridium perfringens");
    assert!(perfringens.growth_log10.expect("known") > 1.0, "cooled whole for a night: {perfringens:?}");
}

/// Another name does not undo what the food has been through, in either way.
#[test]
fn what_a_food_becomes_goes_on_from_there() {
    let sliced = "phase slice is prep\n  beef on bench\n  becomes slices is beef topside\n  for 20 min\n\n";
    let kept = "phase rest is rest\n  slices on bench\n  for 2 h\n\nserve slices\n  at 19:00\n";
    let compiled = cook(&format!("{sliced}{kept}"));
    for organism in ["Salmonella", "Clostridium perfringens"] {
        let (before, after) = (one(&compiled, "beef", organism), one(&compiled, "slices", organism));
        assert!(before.reduction_log10.expect("a figure") > 0.1, "{before:?}");
        assert!(after.reduction_log10 >= before.reduction_log10, "{before:?} {after:?}");
        assert!(after.growth_log10 > before.growth_log10, "{before:?} {after:?}");
    }
}

/// Raw stock that joins cooked food has not been cooked; salt and oil bring nothing.
#[test]
fn what_joins_raw_has_seen_no_heat() {
    let with = |stock: &str, use_: &str| {
        let made = format!(
            "phase dress is prep\n  beef on bench\n  use {use_}\n  becomes plate is beef topside\n  for 10 min\n\n"
        );
        cook(&format!("{stock}\n{made}serve plate\n  at 19:00\n"))
    };
    let salted = one(&with("ingredient salt is 20 g salt\n", "20 g of salt"), "plate", "Salmonella");
    assert!(salted.reduction_log10.expect("a figure") > 0.1, "{salted:?}");
    let raw = one(&with("ingredient mince is 300 g beef mince\n", "300 g of mince"), "plate", "Salmonella");
    assert!(raw.reduction_log10.expect("a figure") < 0.1, "{raw:?}");
}

/// Juice that ran out of the raw food has seen no heat, juice of the cooked food has seen the food's.
#[test]
fn juice_counts_as_its_food_was_when_it_ran_out() {
    let thaw = "phase drip is prep\n  beef on bench\n  for 20 min\n  collect 50 ml of juices from beef\n\n";
    let rest = "phase stand is rest\n  beef on bench\n  for 10 min\n  collect 50 ml of juices from beef\n\n";
    let brush = "phase brush is prep\n  beef on bench\n  use all juices\n  for 5 min\n\n";
    let killed =
        |text: String| one(&compiled(&text), "beef", "Salmonella").reduction_log10.expect("a figure");
    let (food, roast) = BEEF.split_once("phase").expect("a phase");
    let raw = killed(format!("{HEAD}{food}{thaw}phase{roast}{brush}{EATEN}"));
    let cooked = killed(format!("{HEAD}{BEEF}{rest}{brush}{EATEN}"));
    let without = killed(format!("{HEAD}{BEEF}{EATEN}"));
    assert!(cooked > 6.0 && without > 6.0 && raw < 2.0, "{cooked} {without} {raw}");
}

#[test]
fn what_people_read() {
    let compiled = cook(&format!("phase chill is cool\n  beef in fridge\n  air 4 °C\n  for 20 h\n\n{EATEN}"));
    let worked = compiled.cooks()[0];
    let found = microbial(worked.cook, worked.curves);
    let page = shown("Roast", worked.curves, &found);
    let words = page.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "Microbes, predicted, ",
        "- Salmonella: killed ",
        "Its spores live through any cook.",
        "- Staphylococcus aureus: killed not predicted; grown ",
        "Its toxin stays, however hot.",
    ] {
        assert!(words.contains(part), "{part}: {page}");
    }
    assert!(!words.contains("safe"), "{page}");
    let lines: Vec<&str> = page.lines().filter(|line| line.starts_with("  - ")).collect();
    for line in lines.iter().filter(|line| line.contains("grown")) {
        let figures =
            line.split(|c: char| !(c.is_ascii_digit() || c == '.')).filter(|word| word.contains('.'));
        let decimals = figures.filter_map(|word| word.split_once('.')).map(|(_, decimals)| decimals.len());
        assert!(decimals.max().unwrap_or(0) <= 1, "{line}");
    }
}

/// By hand: 3 of the growth is worth telling, 7 is not told from 6, and less than a tenth is not nought.
#[test]
fn figures_are_told_no_finer_than_they_are_known() {
    let compiled = cook(EATEN);
    let worked = compiled.cooks()[0];
    let mut microbe = one(&compiled, "beef", "Clostridium perfringens");
    let mut told = |reduction, growth, grows| {
        microbe = Microbe { reduction_log10: reduction, growth_log10: growth, grows, ..microbe };
        let found = [FoodMicrobes { item: worked.curves.foods[0].item, microbes: vec![microbe] }];
        let page = shown("Roast", worked.curves, &found);
        page.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let words = told(Some(1234.5), Some(3.04), Line::LowestCore);
    assert!(words.contains("perfringens: killed at least 6; grown 3 in the core."), "{words}");
    let words = told(Some(0.0), Some(6.2), Line::Surface);
    assert!(words.contains("perfringens: killed less than 0.1; grown at least 6 on the surface."), "{words}");
    let words = told(None, None, Line::UsualCore);
    assert!(words.contains("killed not predicted; grown not known"), "{words}");
}

#[test]
fn what_tools_read() {
    let compiled = cook(EATEN);
    let worked = compiled.cooks()[0];
    let found = microbial(worked.cook, worked.curves);
    let by_food: Vec<&[Microbe]> = found.iter().map(|food| food.microbes.as_slice()).collect();
    let document: serde_json::Value =
        serde_json::from_str(&curve::json(worked.curves, &by_food)).expect("JSON");
    let microbes = document["foods"][0]["microbes"].as_array().expect("a list");
    let named = |name: &str| microbes.iter().find(|microbe| microbe["organism"] == name).expect("listed");
    let salmonella = named("Salmonella");
    assert!(
        salmonella["reduction_log10"].is_number() && salmonella["growth_log10"].is_number(),
        "{salmonella}"
    );
    assert_eq!(salmonella["survives"], serde_json::Value::Null);
    let aureus = named("Staphylococcus aureus");
    assert!(aureus["reduction_log10"].is_null() && aureus["survives"] == "toxin", "{aureus}");
    for microbe in microbes {
        let along = microbe["growth_along"].as_str().expect("a name");
        assert!(document["foods"][0]["samples"][0][along].is_number(), "{along} is a line of the samples");
    }
}

#[test]
fn dry_food_is_not_predicted() {
    let bread = "food bread is white bread\n  2 loaves of 800 g\n  thickness 10 cm\n  starts at 20 °C\n\n\
                 phase warm is cook\n  bread in oven\n  air 150 °C\n  for 20 min\n\nserve bread\n  at 19:00\n";
    let compiled = compiled(&format!("{HEAD}{bread}"));
    let worked = compiled.cooks()[0];
    let found = microbial(worked.cook, worked.curves);
    assert!(found.iter().all(|food| food.microbes.is_empty()), "{found:?}");
    let page = shown("Bread", worked.curves, &found);
    assert!(page.contains("Microbes: not predicted."), "{page}");
}

/// When the oven comes on may be hours off; that the core is at 74 °C as the roast ends is not.
#[test]
fn a_late_start_does_not_undo_a_roast() {
    let (beef, _) = BEEF.split_once("phase roast").expect("a food, and then phases");
    let compiled = compiled(&format!(
        "{HEAD}{beef}phase stand is cold hold\n  beef in fridge\n  air 4 °C\n  takes 10 min to 10 h\n\n\
         phase roast is cook\n  beef in oven\n  air 160 °C\n  until core 74 °C\n\n{EATEN}"
    ));
    let last = compiled.cooks()[0].curves.foods[0].samples.last().expect("a curve").core_low_c;
    assert!(last < 60.0, "the lowest of all ways on one clock is no way of its own: {last}");
    let salmonella = one(&compiled, "beef", "Salmonella");
    assert!(salmonella.reduction_log10.expect("known") > 4.0, "{salmonella:?}");
}
