//! Food that goes in frozen, and thawing.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::baths::BATHS;
use crate::kitchen::{BAGGED, Dish, hours};
use crate::roasting::{HOLLOW, OVENS, ball_mm};
use crate::score::Score;

#[derive(Deserialize)]
struct InAir {
    frozen: Roasts,
}

#[derive(Deserialize)]
struct Roasts {
    rows: Vec<Roast>,
}

#[derive(Deserialize)]
struct Roast {
    food: String,
    start_c: f64,
    thawed_c: f64,
    oven_c: f64,
    end_c: f64,
    times_as_long: f64,
}

#[derive(Deserialize)]
struct InBath {
    frozen: Slab,
}

#[derive(Deserialize)]
struct Slab {
    thickness_mm: f64,
    bath_c: f64,
    thawed_minutes: f64,
    frozen_minutes: f64,
}

#[derive(Deserialize)]
struct Thawing {
    fridge: Turkeys,
}

#[derive(Deserialize)]
struct Turkeys {
    status: String,
    rows: Vec<Turkey>,
}

#[derive(Deserialize)]
struct Turkey {
    mass_kg: [f64; 2],
    hours: [f64; 2],
}

/// How much longer frozen food takes than thawed, against what is published, %.
pub static ROASTED: LazyLock<Score> = LazyLock::new(|| {
    let InAir { frozen } = toml::from_str(OVENS).expect("the table of ovens");
    let mut score = Score::default();
    for row in &frozen.rows {
        let wait = |start_c: f64, more: &[&str]| {
            let dish = Dish { kit: "oven", food: &row.food, mass_kg: 1.5, thickness_mm: 80.0, start_c, more };
            dish.wait(&format!("air {} °C", row.oven_c), row.end_c).usual_s
        };
        let ratio = wait(row.start_c, &["frozen", "uncovered"]) / wait(row.thawed_c, &["uncovered"]);
        let label = format!("{} °C: {ratio:.2} times as long, published {}", row.oven_c, row.times_as_long);
        score.add(label, 100.0 * (ratio / row.times_as_long - 1.0));
    }
    score
});

/// Whole birds from the freezer until the core has thawed, `of_ball` times as thick as a ball of their weight.
fn thawed(table: &Turkeys, of_ball: f64) -> Score {
    let mut score = Score::default();
    for row in &table.rows {
        let [low_kg, high_kg] = row.mass_kg;
        let mass_kg = 0.5 * (low_kg + high_kg);
        let thickness_mm = of_ball * ball_mm(mass_kg);
        let more = ["shape ball", "frozen", BAGGED];
        let dish =
            Dish { kit: "fridge", food: "whole turkey", mass_kg, thickness_mm, start_c: -18.0, more: &more };
        let wait = dish.wait("air 4 °C", -1.0);
        let label = format!("{low_kg} to {high_kg} kg: {} to {} h", row.hours[0], row.hours[1]);
        score.add_wait(label, &wait, hours(row.hours), &table.status);
    }
    score
}

static THAWING: LazyLock<Thawing> = LazyLock::new(|| {
    toml::from_str(include_str!("../reference/published/thawing.toml")).expect("the table of thawing")
});
pub static FRIDGE: LazyLock<Score> = LazyLock::new(|| thawed(&THAWING.fridge, 1.0));

#[test]
fn frozen_roasts_take_half_as_long_again() {
    ROASTED.print("roasts from frozen, ratio, %");
    assert!(ROASTED.mean_absolute() < 20.0, "{}", *ROASTED);
}

#[test]
fn a_frozen_slab_in_a_bath_takes_longer_by_as_much() {
    let InBath { frozen } = toml::from_str(BATHS).expect("the table of baths");
    let wait = |start_c: f64, more: &[&str]| {
        let dish = Dish {
            kit: "water bath",
            food: "beef topside",
            mass_kg: 0.5,
            thickness_mm: frozen.thickness_mm,
            start_c,
            more,
        };
        // The older table waits for less than half a kelvin below the bath; the ratio hardly depends on it.
        dish.wait(&format!("water {} °C", frozen.bath_c), frozen.bath_c - 1.0).usual_s
    };
    let ratio = wait(-18.0, &["shape slab", "frozen", BAGGED]) / wait(5.0, &["shape slab", BAGGED]);
    let published = frozen.frozen_minutes / frozen.thawed_minutes;
    println!("frozen slab: {ratio:.2} times as long, published {published:.2}");
    assert!((ratio / published - 1.0).abs() < 0.2, "{ratio} against {published}");
}

/// Frozen in its bag a bird has no hollow that air gets into: it thaws like the whole ball.
#[test]
fn turkeys_thaw() {
    FRIDGE.print("turkeys thawing in a fridge, %");
    thawed(&THAWING.fridge, HOLLOW).print("turkeys thawing in a fridge as thick as in the oven, %");
    assert!(FRIDGE.mean_absolute() < 20.0, "{}", *FRIDGE);
}
