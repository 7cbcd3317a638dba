//! Food that comes back to a kit which is set to something else by then.
//!
//! The rates are those of the oven in the table of kit: it heats by 8 and cools by 2 kelvin a minute.

use super::curves;
use dwell::heat::{Curves, Sample};

/// A joint through `phases`, each a name, a place with its setting, and minutes.
fn through(more: &str, phases: &[(&str, &str, u32)]) -> Curves {
    let mut text = format!(
        "cook \"Back again\"\n  rules us-food-code\n\ncrew\n  2 people\n\nkit hot is oven\nkit board is bench\n\n\
         food joint is test slab\n  1 piece of 2 kg\n  thickness 8 cm\n  starts at 4 °C\n{more}"
    );
    for (name, place, minutes) in phases {
        text += &format!("\nphase {name} is cook\n  {place}\n  for {minutes} min\n");
    }
    curves(&(text + "\nserve joint\n  at 19:00\n"))
}

fn of<'c>(curves: &'c Curves, phase: &str) -> Vec<&'c Sample> {
    let phase = curves.phases.iter().find(|times| times.name == phase).expect("the phase").phase;
    curves.foods[0].samples.iter().filter(|sample| sample.phase == phase).collect()
}

/// What is around the joint as it comes into `phase`, and as it leaves.
fn around(curves: &Curves, phase: &str) -> [f64; 2] {
    let samples = of(curves, phase);
    [samples[0], samples[samples.len() - 1]].map(|sample| (sample.medium_c * 10.0).round() / 10.0)
}

const SLOW: (&str, &str, u32) = ("slow", "joint in hot\n  air 110 °C", 120);
const HOT: (&str, &str, u32) = ("brown", "joint in hot\n  air 230 °C", 20);

#[test]
fn it_comes_back_to_an_oven_on_its_way() {
    for (minutes, back_c) in [(15, 230.0), (40, 230.0), (5, 150.0), (10, 190.0)] {
        let curves = through("", &[SLOW, ("stand", "joint on board", minutes), HOT]);
        assert_eq!(around(&curves, "slow"), [110.0, 110.0], "lit ahead");
        assert_eq!(around(&curves, "brown"), [back_c, 230.0], "{minutes} min on the bench");
    }
    // Down it goes more slowly.
    let down = [HOT, ("stand", "joint on board", 20), SLOW];
    assert_eq!(around(&through("", &down), "slow"), [190.0, 110.0]);
}

#[test]
fn a_kit_that_never_got_there_goes_on_from_where_it_was() {
    let short = ("brown", "joint in hot\n  air 230 °C", 5);
    let curves = through("", &[SLOW, short, ("slower", "joint in hot\n  air 110 °C", 60)]);
    assert_eq!(around(&curves, "brown"), [110.0, 150.0]);
    assert_eq!(around(&curves, "slower"), [150.0, 110.0]);
    // The same setting again: five minutes of the bench later it is there.
    let again = ("finish", "joint in hot\n  air 230 °C", 20);
    let curves = through("", &[SLOW, short, ("stand", "joint on board", 5), again]);
    assert_eq!(around(&curves, "finish"), [190.0, 230.0]);
}

#[test]
fn the_plan_leaves_it_its_time_where_other_food_had_it() {
    let other = "\nfood leek is test slab\n  1 piece of 1 kg\n  thickness 4 cm\n  starts at 4 °C\n";
    let between = [SLOW, ("stand", "joint on board", 5), ("leeks", "leek in hot\n  air 180 °C", 30), HOT];
    let text = through(other, &between);
    assert_eq!(around(&text, "brown"), [230.0, 230.0]);
}
