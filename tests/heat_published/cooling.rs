//! Cooling of joints in air and in cold water.

use std::sync::LazyLock;

use dwell::tables::Tables;
use serde::Deserialize;

use crate::kitchen::{BAGGED, Dish, hours, with_film};
use crate::score::Score;

#[derive(Deserialize)]
struct Published {
    joints: Joints,
    chill_room: ChillRoom,
}

#[derive(Deserialize)]
struct Joints {
    status: String,
    start_c: f64,
    rows: Vec<Joint>,
}

#[derive(Deserialize)]
struct Joint {
    joint: String,
    method: String,
    food: String,
    mass_kg: f64,
    thickness_mm: f64,
    shape: String,
    bare: bool,
    medium_c: f64,
    /// Of moving air; none for water.
    film_w_m2k: Option<f64>,
    /// Water before the air.
    spray: Option<Spray>,
    /// Core, °C, and hours to it.
    hours: Vec<(f64, f64)>,
}

#[derive(Deserialize)]
struct Spray {
    minutes: f64,
    water_c: f64,
}

impl Joint {
    fn label(&self, to_c: f64, published: f64) -> String {
        format!("{}, {}, to {to_c} °C: {published} h", self.joint, self.method)
    }
}

#[derive(Deserialize)]
struct ChillRoom {
    status: String,
    medium_c: f64,
    rows: Vec<Ham>,
}

#[derive(Deserialize)]
struct Ham {
    food: String,
    mass_kg: f64,
    thickness_mm: f64,
    start_c: f64,
    hours: Vec<(f64, f64)>,
}

impl Joints {
    fn score(&self, in_air: bool) -> Score {
        let mut score = Score::default();
        for row in self.rows.iter().filter(|row| row.film_w_m2k.is_some() == in_air) {
            let shape = match row.shape.as_str() {
                "from mass" => None,
                word => Some(format!("shape {word}")),
            };
            let more: Vec<&str> = shape.as_deref().into_iter().chain((!row.bare).then_some(BAGGED)).collect();
            let (tables, kit, medium) = match row.film_w_m2k {
                Some(film) => (with_film("moving air", "blast chiller", film), "moving air", "air"),
                None => (Tables::built_in().clone(), "ice bath", "water"),
            };
            let dish = Dish {
                kit,
                food: &row.food,
                mass_kg: row.mass_kg,
                thickness_mm: row.thickness_mm,
                start_c: self.start_c,
                more: &more,
            };
            let before = row.spray.as_ref().map(|Spray { minutes, water_c }| {
                format!("phase spray is cook\n  piece in tub\n  water {water_c} °C\n  for {minutes} min\n")
            });
            for (to_c, published) in &row.hours {
                let setting = format!("{medium} {} °C", row.medium_c);
                let wait = dish.wait_in(&tables, before.as_deref().unwrap_or_default(), &setting, *to_c);
                score.add_wait(row.label(*to_c, *published), &wait, hours([*published; 2]), &self.status);
            }
        }
        score
    }
}

static PUBLISHED: LazyLock<Published> = LazyLock::new(|| {
    let text = include_str!("../reference/published/cooling.toml");
    toml::from_str(text).expect("the table of cooling")
});
pub static AIR: LazyLock<Score> = LazyLock::new(|| PUBLISHED.joints.score(true));
pub static WATER: LazyLock<Score> = LazyLock::new(|| PUBLISHED.joints.score(false));
pub static FRIDGE: LazyLock<Score> = LazyLock::new(|| {
    let ChillRoom { status, medium_c, rows } = &PUBLISHED.chill_room;
    let mut score = Score::default();
    for row in rows {
        let dish = Dish {
            kit: "fridge",
            food: &row.food,
            mass_kg: row.mass_kg,
            thickness_mm: row.thickness_mm,
            start_c: row.start_c,
            more: &[BAGGED],
        };
        for (to_c, published) in &row.hours {
            let wait = dish.wait(&format!("air {medium_c} °C"), *to_c);
            score.add_wait(format!("ham to {to_c} °C: {published} h"), &wait, hours([*published; 2]), status);
        }
    }
    score
});

/// Air and water together are within the 20 % that predictions are said to be worth.
#[test]
fn joints_in_air_and_water() {
    AIR.print("joints in moving air, %");
    WATER.print("joints in cold water, %");
    let mean = (AIR.sum() + WATER.sum()) / (AIR.len() + WATER.len()) as f64;
    assert!(mean.abs() < 20.0, "{mean}");
}

/// Alone, those in air are forecast to take a fifth longer than measured: hot bare joints steam far more than a roast does,
/// and wet moulds dry off. It errs on the slow side, by which cooling is judged.
#[test]
fn joints_in_moving_air() {
    assert!((0.0..25.0).contains(&AIR.mean()), "{}", *AIR);
}

#[test]
fn joints_in_cold_water() {
    assert!(WATER.mean_absolute() < 20.0, "{}", *WATER);
}

/// In almost still air, with the figure that the kit table gives a fridge.
#[test]
fn hams_in_a_chill_room() {
    FRIDGE.print("hams in a chill room, %");
    assert!(FRIDGE.mean_absolute() < 20.0, "{}", *FRIDGE);
}
