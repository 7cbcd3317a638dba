//! Cooks that nobody would cook: no panic, a clear word or none, and soon.

use std::time::{Duration, Instant};

use dwell::compile::{Compiled, Options, compile};
use dwell::quantity::Scale;

use super::common::Memory;

/// A joint of beef through `phases`.
fn cooked(food: &str, kit: &str, phases: &str) -> Compiled {
    let text = format!(
        "cook \"Extreme\"\n  rules us-food-code\n\ncrew\n  2 people\n\n{kit}\n\nfood joint is beef chuck\n  2 kg\n{food}\n\n\
         {phases}\nserve joint\n  at 19:00\n"
    );
    let began = Instant::now();
    let files = [("test.dwell", text.as_str())];
    let compiled =
        compile(&Memory(&files), "test.dwell".into(), text.as_bytes().to_vec(), &Options::default());
    assert!(began.elapsed() < Duration::from_secs(60), "{:?} for\n{text:.500}", began.elapsed());
    // Without the curves, the same is found.
    let ends = Options { outline: true, ..Options::default() };
    let outline = compile(&Memory(&files), "test.dwell".into(), text.as_bytes().to_vec(), &ends);
    assert_eq!(codes(&outline), codes(&compiled), "{text:.500}");
    for cook in compiled.cooks() {
        for sample in cook.curves.foods.iter().flat_map(|food| &food.samples) {
            let inside = sample.core_low_c <= sample.core_c && sample.core_c <= sample.core_high_c;
            assert!(inside && sample.surface_c.is_finite(), "{sample:?}\n{text:.500}");
        }
    }
    compiled
}

fn codes(compiled: &Compiled) -> Vec<&'static str> {
    compiled.findings.iter().map(|finding| finding.code.name()).collect()
}

/// Either there is a curve, or somebody is told why not.
fn told_or_followed(compiled: &Compiled) {
    let cooks = compiled.cooks();
    let told = !compiled.findings.is_empty() || cooks.iter().any(|cook| !cook.curves.unpredicted.is_empty());
    let followed = cooks.iter().any(|cook| !cook.curves.foods.is_empty());
    assert!(told || followed);
}

const OVEN: &str = "kit hot is oven";
const ROAST: &str = "phase roast is cook\n  joint in hot\n  air 120 °C\n  for 3 h\n";

#[test]
fn no_thickness_is_too_much() {
    for thickness in ["0 cm", "0.01 mm", "1 mm", "3 m", "3000 m", "8 cm ± 8 cm", "8 cm ± 20 cm", "99 cm"] {
        told_or_followed(&cooked(&format!("  thickness {thickness}"), OVEN, ROAST));
    }
}

#[test]
fn no_air_and_no_ice_is_too_odd() {
    let kits = "kit hot is steam oven\n  moisture 100 %\nkit ice is ice bath\n  water 80 °C\nkit cold is freezer\n  air -30 °C";
    for phase in [
        "phase steam is cook\n  joint in hot\n  air 100 °C\n  for 2 h\n",
        "phase steam is cook\n  joint in hot\n  air 101 °C ± 60 °C\n  for 2 h\n",
        "phase steam is cook\n  joint in hot\n  steam 100 °C\n  for 2 h\n",
        "phase chill is cool\n  joint in ice\n  for 2 h\n",
        "phase chill is cool\n  joint in ice\n  water 80 °C\n  until core 3 °C\n",
        "phase freeze is cold hold\n  joint in cold\n  for 9 days\n",
        "phase freeze is cold hold\n  joint in cold\n  until core -29 °C\n",
    ] {
        for start in ["  starts at 4 °C", "  starts at 80 °C", "  starts at -40 °C", "  frozen"] {
            told_or_followed(&cooked(&format!("  thickness 8 cm\n{start}"), kits, phase));
        }
    }
}

/// The highest that it can get is said, at once.
#[test]
fn a_target_above_the_medium_is_out_of_reach() {
    let kit = "kit bath is water bath";
    let phase = "phase soak is cook\n  joint in bath\n  water 60 °C\n  bagged\n  until core 75 °C\n";
    let began = Instant::now();
    let compiled = cooked("  thickness 8 cm\n  starts at 4 °C", kit, phase);
    assert!(began.elapsed() < Duration::from_secs(10));
    let finding = compiled.findings.iter().find(|finding| finding.code.name() == "end-out-of-reach");
    let message = finding.expect("a finding").message.render(Scale::Celsius);
    assert!(message.contains("75 °C") && message.contains("60 °C"), "{message}");
    let sure = cooked("  thickness 8 cm\n  starts at 4 °C", kit, &phase.replace("75", "57"));
    assert!(!codes(&sure).contains(&"end-out-of-reach"), "{:?}", codes(&sure));
}

#[test]
fn a_thousand_phases_take_no_longer_than_anybody_waits() {
    for ends in ["for 1 min", "takes 1 min to 3 min", "until core 5 °C"] {
        let phases: String =
            (0..1000).map(|nth| format!("phase p{nth} is rest\n  joint in bench\n  {ends}\n\n")).collect();
        let compiled = cooked("  thickness 4 cm\n  starts at 4 °C", "kit bench is bench", &phases);
        let cook = &compiled.cooks()[0];
        let lost = &cook.curves.unpredicted;
        assert!(lost.iter().any(|food| food.because.contains("first 200 phases")), "{ends}: {lost:?}");
    }
}

#[test]
fn a_phase_may_wait_for_one_that_is_not_followed() {
    let kit = "kit oven is fan oven\nkit bench is bench\nkit probe is probe thermometer";
    let phases = "food loaf is white bread\n  500 g\n  thickness 8 cm\n\nphase roast is cook\n  joint in oven\n  air 150 °C\n  \
                  until core 60 °C\n  starts after warm starts\n\nphase warm is prep\n  loaf on bench\n  for 10 min\n\nserve loaf\n";
    told_or_followed(&cooked("  thickness 8 cm", kit, phases));
}

/// A bath has brought it to 62 °C, and the oven is to bring it to 60 °C: nobody waits for it to cool in there.
#[test]
fn what_is_hot_enough_already_is_not_kept_in_the_oven_until_it_cools() {
    let kit = "kit bath is water bath\nkit hot is oven\nkit probe is probe thermometer";
    let phases = "phase bath is cook\n  joint in bath\n  bagged\n  water 62 °C\n  for 20 h\n\
        phase crust is cook\n  joint in hot\n  uncovered\n  air 240 °C\n  until core 60 °C\n";
    let compiled = cooked("  thickness 8 cm", kit, phases);
    assert!(!codes(&compiled).contains(&"end-out-of-reach"), "{:?}", codes(&compiled));
    let phases = &compiled.cooks()[0].curves.phases;
    let crust = phases.iter().find(|phase| phase.name == "crust").expect("its times");
    assert!(crust.most_s < 1.0, "{crust:?}");
}

/// Ice that begins to melt at the surface makes its rate jump; the surface stays between the middle and what is around.
#[test]
fn a_thawing_surface_stays_between_the_core_and_the_fridge() {
    let phases = "phase thaw is thaw\n  joint in cold\n  air 4 °C\n  for 3 days\n";
    let food = "  frozen\n  starts at -18 °C\n  thickness 18 cm\n  bagged";
    let compiled = cooked(food, "kit cold is fridge", phases);
    let samples = &compiled.cooks()[0].curves.foods[0].samples;
    assert!(samples.len() > 50);
    for sample in samples {
        assert!(
            sample.surface_c > sample.core_c - 0.3 && sample.surface_c < sample.medium_c + 0.3,
            "{sample:?}"
        );
    }
}

/// The commonest case of all: who has roasted such a piece before knows more than the forecast does.
#[test]
fn an_end_that_is_only_predicted_is_cured_by_writing_what_was_seen() {
    let kit = "kit hot is oven\nkit probe is probe thermometer";
    let roast = "phase roast is cook\n  joint in hot\n  air 160 °C\n  until core 60 °C\n";
    let compiled = cooked("  thickness 8 cm", kit, roast);
    let lucky = compiled.findings.iter().find(|finding| finding.code.name() == "on-time-if-lucky");
    let remedy = lucky.map(|finding| finding.remedy.render(Scale::Celsius)).unwrap_or_default();
    assert!(remedy.starts_with("How long `roast` takes is only predicted"), "{:#?}", compiled.findings);
    let wait = "phase wait is rest\n  joint in hot\n  air 60 °C\n  for up to 4 h\n";
    let seen = format!("{}{wait}", roast.replace("60 °C\n", "60 °C, takes 2 h to 3 h\n"));
    assert!(!codes(&cooked("  thickness 8 cm", kit, &seen)).contains(&"on-time-if-lucky"));
}
