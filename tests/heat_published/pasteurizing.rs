//! Time in the bath until the core is pasteurized, by thickness and bath.

use std::sync::LazyLock;

use dwell::heat::Sample;
use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::history::Sample as Moment;
use dwell::heat::conduction::phase::{End, PhaseHeat};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::Form;
use dwell::heat::conduction::solve::{Accuracy, solve};
use dwell::tables::Tables;
use serde::Deserialize;

use crate::baths::{BATHS, Model};
use crate::kitchen::{BAGGED, Dish, Wait};
use crate::score::Score;

#[derive(Deserialize)]
struct Published {
    model: Model,
    meat: Table,
    poultry: Table,
}

#[derive(Deserialize)]
struct Table {
    status: String,
    start_c: f64,
    bath_c: Vec<f64>,
    rows: Vec<Row>,
    kills: Vec<Kill>,
}

#[derive(Deserialize)]
struct Row {
    thickness_mm: f64,
    minutes: Vec<f64>,
}

/// What has to happen to one organism.
#[derive(Deserialize)]
struct Kill {
    log10: f64,
    t_ref_c: f64,
    d_min: f64,
    z_c: f64,
}

/// Above this thickness the pieces of the tables are no slabs but boxes of 2 : 3 : 5.
const SLAB_UP_TO_MM: f64 = 30.0;
/// Of the boxes, kg/m³: meat from the food table.
const DENSITY_KG_M3: f64 = 1060.0;

/// When all of them are killed by a core that passes through (s, °C), straight between; `None` if it does not.
fn killed_s(kills: &[Kill], core: &[(f64, f64)]) -> Option<f64> {
    const PIECES: usize = 8;
    let one = |kill: &Kill| {
        let rate = |at_c: f64| 10_f64.powf((at_c - kill.t_ref_c) / kill.z_c) / (60.0 * kill.d_min);
        let mut done = 0.0;
        for pair in core.windows(2) {
            let [(from_s, from_c), (to_s, to_c)] = [pair[0], pair[1]];
            let piece_s = (to_s - from_s) / PIECES as f64;
            for nth in 0..PIECES {
                let at_c = from_c + (to_c - from_c) * (nth as f64 + 0.5) / PIECES as f64;
                let gain = rate(at_c) * piece_s;
                if done + gain >= kill.log10 {
                    let share = (kill.log10 - done) / gain;
                    return Some(from_s + (nth as f64 + share) * piece_s);
                }
                done += gain;
            }
        }
        None
    };
    kills.iter().map(one).try_fold(0.0_f64, |latest, at| at.map(|at| latest.max(at)))
}

/// The usual curve, and the worse bound by which rules are judged.
pub struct Typed {
    pub usual: Score,
    pub worse: Score,
}

impl Table {
    fn cells(&self) -> impl Iterator<Item = (f64, f64, f64)> {
        let cells = |row: &Row| {
            let thickness_mm = row.thickness_mm;
            let both = self.bath_c.iter().zip(row.minutes.clone()).collect::<Vec<_>>();
            both.into_iter().map(move |(bath_c, minutes)| (thickness_mm, *bath_c, minutes))
        };
        self.rows.iter().flat_map(cells)
    }

    /// With the figures that the table was computed from.
    fn as_computed(&self, model: &Model, alpha_m2_s: f64) -> Score {
        let material = model.material(alpha_m2_s);
        let mut score = Score::default();
        for (thickness_mm, bath_c, minutes) in self.cells() {
            let beta = if thickness_mm > SLAB_UP_TO_MM { model.thick_beta } else { 0.0 };
            let form = Form::new(0.0005 * thickness_mm, beta).expect("a form");
            let body = Body::uniform(form, material.clone(), self.start_c).expect("a body");
            let lasts_s = 2.0 * 60.0 * minutes;
            let end = End { duration_s: Some(lasts_s), until: None };
            let phase = PhaseHeat::convective(Ramp::constant(bath_c), model.bath_film_w_m2k, end);
            let history = solve(&body, &[phase], Accuracy::FULL).expect("a cook");
            let core: Vec<_> = (0..=400)
                .map(|nth| lasts_s * f64::from(nth) / 400.0)
                .filter_map(|at_s| Some((at_s, history.at(0, at_s, Moment::core)?)))
                .collect();
            let at_s = killed_s(&self.kills, &core).expect("killed in twice the published time");
            let label = format!("{thickness_mm} mm, {bath_c} °C, {minutes} min");
            score.add(label, 100.0 * (at_s / (60.0 * minutes) - 1.0));
        }
        score
    }

    /// As a cook gets it: the food table, the class of the bath and, of the boxes, thickness and weight.
    fn as_typed(&self, food: &str) -> Typed {
        let (mut usual, mut worse) = (Score::default(), Score::default());
        for (thickness_mm, bath_c, minutes) in self.cells() {
            let slab = thickness_mm <= SLAB_UP_TO_MM;
            let dish = Dish {
                kit: "water bath",
                food,
                mass_kg: if slab { 0.3 } else { 3.75e-9 * thickness_mm.powi(3) * DENSITY_KG_M3 },
                thickness_mm,
                start_c: self.start_c,
                more: if slab { &["shape slab", BAGGED] } else { &[BAGGED] },
            };
            let phase = format!(
                "phase there is cook\n  piece in place\n  water {bath_c} °C\n  for {:.0} min\n",
                4.0 * minutes
            );
            let curves = dish.curves(Tables::built_in(), &phase);
            let killed = |pick: fn(&Sample) -> f64| {
                let core: Vec<_> = curves.foods[0].samples.iter().map(|s| (s.t_s, pick(s))).collect();
                killed_s(&self.kills, &core)
            };
            let wait = Wait {
                least_s: killed(|s| s.core_high_c).expect("killed along the warm bound"),
                usual_s: killed(|s| s.core_c).expect("killed in four times the published time"),
                most_s: killed(|s| s.core_low_c).expect("killed along the cold bound"),
            };
            let label = format!("{thickness_mm} mm, {bath_c} °C, {minutes} min");
            worse.add(label.clone(), 100.0 * (wait.most_s / (60.0 * minutes) - 1.0));
            usual.add_wait(label, &wait, [60.0 * minutes; 2], &self.status);
        }
        Typed { usual, worse }
    }
}

static PUBLISHED: LazyLock<Published> =
    LazyLock::new(|| toml::from_str(BATHS).expect("the tables of pasteurizing"));
pub static MEAT: LazyLock<Typed> = LazyLock::new(|| PUBLISHED.meat.as_typed("beef topside"));
pub static POULTRY: LazyLock<Typed> = LazyLock::new(|| PUBLISHED.poultry.as_typed("chicken breast"));

#[test]
fn the_equation_gives_the_times_for_meat() {
    let model = &PUBLISHED.model;
    let score = PUBLISHED.meat.as_computed(model, model.meat_alpha_m2_s);
    score.print("pasteurizing meat, as computed, %");
    assert!(score.mean_absolute() < 8.0, "{score}");
}

#[test]
fn the_equation_gives_the_times_for_poultry() {
    let model = &PUBLISHED.model;
    let score = PUBLISHED.poultry.as_computed(model, model.poultry_alpha_m2_s);
    score.print("pasteurizing poultry, as computed, %");
    assert!(score.mean_absolute() < 8.0, "{score}");
}

/// The tables are computed with meat that conducts a fifth more slowly than the food table's, and are rounded up. The usual
/// curve is therefore quicker than they are, by more than the 5 % of other times in baths. The curve that rules go by is quicker
/// by no more than the rounding.
#[test]
fn meat_as_a_cook_types_it() {
    let Typed { usual, worse } = &*MEAT;
    usual.print("pasteurizing meat, as typed, %");
    worse.print("pasteurizing meat, along the cold bound, %");
    assert!(usual.mean_absolute() < 22.0, "{usual}");
    assert!(worse.mean() > -8.0, "{worse}");
}

#[test]
fn poultry_as_a_cook_types_it() {
    let Typed { usual, worse } = &*POULTRY;
    usual.print("pasteurizing poultry, as typed, %");
    worse.print("pasteurizing poultry, along the cold bound, %");
    assert!(usual.mean_absolute() < 17.0, "{usual}");
    assert!(worse.mean() > -5.0, "{worse}");
}
