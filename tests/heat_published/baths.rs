//! Heating in water baths and cooling in iced water, by thickness.

use std::sync::LazyLock;

use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::phase::{End, Goal, PhaseHeat, Place, Until};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::{Form, Likeness};
use dwell::heat::conduction::solve::{Accuracy, solve};
use serde::Deserialize;

use crate::kitchen::{BAGGED, Dish, minutes};
use crate::score::Score;

pub const BATHS: &str = include_str!("../reference/published/baths.toml");

#[derive(Deserialize)]
struct Baths {
    model: Model,
    heating: Table,
    cooling: Table,
}

#[derive(Deserialize)]
pub struct Model {
    pub heating_alpha_m2_s: f64,
    pub cooling_alpha_m2_s: f64,
    pub meat_alpha_m2_s: f64,
    pub poultry_alpha_m2_s: f64,
    pub bath_film_w_m2k: f64,
    pub ice_film_w_m2k: f64,
    pub thick_beta: f64,
    pub k_w_mk: f64,
}

impl Model {
    /// The table's diffusivity as a material.
    pub fn material(&self, alpha_m2_s: f64) -> Material {
        Material::constant(self.k_w_mk, 1000.0, self.k_w_mk / (1000.0 * alpha_m2_s)).expect("a material")
    }
}

#[derive(Deserialize)]
struct Table {
    start_c: f64,
    bath_c: f64,
    end_c: f64,
    rows: Vec<Row>,
}

#[derive(Deserialize)]
struct Row {
    shape: String,
    thickness_mm: f64,
    minutes: f64,
    status: String,
}

impl Row {
    fn likeness(&self) -> Likeness {
        match self.shape.as_str() {
            "slab" => Likeness::SlabLike,
            "cylinder-like" => Likeness::CylinderLike,
            "sphere-like" => Likeness::SphereLike,
            other => panic!("{other}"),
        }
    }

    fn label(&self) -> String {
        format!("{} {} mm, {} min", self.shape, self.thickness_mm, self.minutes)
    }
}

impl Table {
    /// With the material and film that the table was computed from.
    fn as_computed(&self, material: &Material, film_w_m2k: f64) -> Score {
        let mut score = Score::default();
        for row in &self.rows {
            let form = Form::new(0.0005 * row.thickness_mm, row.likeness().beta()).expect("a form");
            let body = Body::uniform(form, material.clone(), self.start_c).expect("a body");
            let goal = if self.end_c > self.start_c { Goal::AtLeast } else { Goal::AtMost };
            let until = Some(Until { place: Place::Core, goal, target_c: self.end_c });
            let end = End { duration_s: None, until };
            let phase = PhaseHeat::convective(Ramp::constant(self.bath_c), film_w_m2k, end);
            let history = solve(&body, &[phase], Accuracy::FULL).expect("a cook");
            score.add(row.label(), 100.0 * (history.ends[0].at_s / (60.0 * row.minutes) - 1.0));
        }
        score
    }

    /// As a cook gets it.
    fn as_typed(&self, kit: &str) -> Score {
        let mut score = Score::default();
        for row in &self.rows {
            let shape = match row.likeness() {
                Likeness::SlabLike => "shape slab",
                Likeness::CylinderLike => "shape cylinder",
                Likeness::SphereLike => "shape ball",
            };
            let dish = Dish {
                kit,
                food: "beef topside",
                mass_kg: 1.0,
                thickness_mm: row.thickness_mm,
                start_c: self.start_c,
                more: &[shape, BAGGED],
            };
            let wait = dish.wait(&format!("water {} °C", self.bath_c), self.end_c);
            score.add_wait(row.label(), &wait, minutes([row.minutes; 2]), &row.status);
        }
        score
    }
}

static PUBLISHED: LazyLock<Baths> = LazyLock::new(|| toml::from_str(BATHS).expect("the table of baths"));
pub static HEATING: LazyLock<Score> = LazyLock::new(|| PUBLISHED.heating.as_typed("water bath"));
pub static COOLING: LazyLock<Score> = LazyLock::new(|| PUBLISHED.cooling.as_typed("ice bath"));

/// The equation: the table's own figures give its times. The shape factors of round pieces were fitted to these rows of
/// heating times, so only the slabs, and all of the cooling below, are evidence.
#[test]
fn the_equation_gives_the_heating_times() {
    let Baths { model, heating, .. } = &*PUBLISHED;
    let score = heating.as_computed(&model.material(model.heating_alpha_m2_s), model.bath_film_w_m2k);
    score.print("bath, as computed, %");
    assert!(score.mean_absolute() < 5.0, "{score}");
}

#[test]
fn the_equation_gives_the_cooling_times() {
    let Baths { model, cooling, .. } = &*PUBLISHED;
    let score = cooling.as_computed(&model.material(model.cooling_alpha_m2_s), model.ice_film_w_m2k);
    score.print("iced water, as computed, %");
    assert!(score.mean_absolute() < 5.0, "{score}");
}

#[test]
fn heating_as_a_cook_types_it() {
    HEATING.print("bath, as typed, %");
    assert!(HEATING.mean_absolute() < 5.0, "{}", *HEATING);
}

/// The table was computed with meat that conducts a fifth more slowly (1.1e-7 m²/s) than the food table's (1.35e-7), and more
/// slowly than the author's own table of heating (1.4e-7). The forecast is that much quicker; its bounds hold every row.
#[test]
fn cooling_as_a_cook_types_it() {
    COOLING.print("iced water, as typed, %");
    assert!(COOLING.mean_absolute() < 18.0, "{}", *COOLING);
    assert_eq!(COOLING.inside(), COOLING.len());
}
