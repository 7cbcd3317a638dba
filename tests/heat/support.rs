//! Reads the reference files and turns a written cook into the solver's input.
#![allow(dead_code)]

use dwell::heat::conduction::air::SEA_LEVEL_PA;
use dwell::heat::conduction::body::Body;
use dwell::heat::conduction::composition::Composition;
use dwell::heat::conduction::freezing::{Food, USUAL_FREEZING_C};
use dwell::heat::conduction::material::Material;
use dwell::heat::conduction::phase::{End, Goal, PhaseHeat, Place, Until};
use dwell::heat::conduction::ramp::Ramp;
use dwell::heat::conduction::shape::Form;
use dwell::heat::conduction::surface::{Film, Humidity};
use serde::Deserialize;
use std::path::PathBuf;

pub fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference/heat")
}

/// Every reference file, by name, as a table.
pub fn files() -> Vec<(String, toml::Table)> {
    let mut out: Vec<_> = std::fs::read_dir(folder())
        .expect("reference folder")
        .map(|entry| entry.expect("entry").path())
        .filter(|path| path.extension().is_some_and(|x| x == "toml"))
        .map(|path| {
            let text = std::fs::read_to_string(&path).expect("readable");
            let name = path.file_name().expect("name").to_string_lossy().into_owned();
            let table = text.parse().unwrap_or_else(|e| panic!("{name}: {e}"));
            (name, table)
        })
        .collect();
    out.sort_by(|a, b| a.0.cmp(&b.0));
    out
}

/// The rows of the table of that name in every file that has one, with the file's name.
pub fn rows(table: &str) -> Vec<(String, toml::Value)> {
    files()
        .into_iter()
        .filter_map(|(name, file)| Some((name, file.get(table)?["rows"].as_array()?.clone())))
        .flat_map(|(name, rows)| rows.into_iter().map(move |row| (name.clone(), row)))
        .collect()
}

/// A number, written with or without a point.
pub fn plain(value: &toml::Value) -> Option<f64> {
    value.as_float().or(value.as_integer().map(|i| i as f64))
}

pub fn number(row: &toml::Value, key: &str) -> f64 {
    let value = row.get(key).unwrap_or_else(|| panic!("no {key} in {row}"));
    plain(value).unwrap_or_else(|| panic!("{key} is no number in {row}"))
}

pub fn numbers(row: &toml::Value) -> Vec<f64> {
    row.as_array().expect("a list").iter().map(|x| plain(x).expect("a number")).collect()
}

#[derive(Deserialize, Clone, Copy, Default)]
#[serde(deny_unknown_fields, default)]
pub struct WrittenComposition {
    water: f64,
    protein: f64,
    fat: f64,
    carbohydrate: f64,
    fibre: f64,
    ash: f64,
}

#[derive(Deserialize)]
pub struct Cook {
    pub id: String,
    pub half_thickness_m: f64,
    pub beta: f64,
    pub t0_c: f64,
    pub properties: String,
    pub k_w_mk: Option<f64>,
    pub rho_kg_m3: Option<f64>,
    pub cp_j_kgk: Option<f64>,
    pub composition: Option<WrittenComposition>,
    pub phase: Vec<WrittenPhase>,
    pub expected: toml::Table,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrittenPhase {
    pub name: String,
    pub medium_c: Option<f64>,
    pub medium_points_s_c: Option<Vec<(f64, f64)>>,
    pub h_w_m2k: f64,
    pub duration_s: Option<f64>,
    pub until_core_c: Option<f64>,
    pub until_surface_c: Option<f64>,
    #[serde(default)]
    pub emissivity: f64,
    pub wall_c: Option<f64>,
    #[serde(default)]
    pub wetness: f64,
    pub humidity_ratio: Option<f64>,
    pub relative_humidity: Option<f64>,
}

impl Cook {
    pub fn body(&self) -> Body {
        let material = match self.properties.as_str() {
            "constant" => {
                let need = |x: Option<f64>| x.expect("constant property");
                Material::constant(need(self.k_w_mk), need(self.rho_kg_m3), need(self.cp_j_kgk))
                    .expect("properties")
            }
            "choi-okos" => Material::food(food(&self.composition.expect("composition"))),
            other => panic!("{}: properties {other}?", self.id),
        };
        let form = Form::new(self.half_thickness_m, self.beta).expect("form");
        Body::uniform(form, material, self.t0_c).expect("body")
    }

    pub fn phases(&self) -> Vec<PhaseHeat> {
        self.phase.iter().map(WrittenPhase::phase).collect()
    }
}

pub fn food(c: &WrittenComposition) -> Food {
    let parts = Composition {
        water: c.water,
        protein: c.protein,
        fat: c.fat,
        carbohydrate: c.carbohydrate,
        fibre: c.fibre,
        ash: c.ash,
    };
    Food::new(parts, USUAL_FREEZING_C).expect("food")
}

impl WrittenPhase {
    pub fn medium(&self) -> Ramp {
        match (&self.medium_c, &self.medium_points_s_c) {
            (Some(c), None) => Ramp::constant(*c),
            (None, Some(points)) => Ramp::new("medium", points.clone()).expect("medium"),
            _ => panic!("{}: one medium", self.name),
        }
    }

    pub fn phase(&self) -> PhaseHeat {
        let medium_c = self.medium();
        // A target is waited for from the side the medium is not on.
        let until = |place, target_c: f64| {
            let goal = if medium_c.last() > target_c { Goal::AtLeast } else { Goal::AtMost };
            Until { place, goal, target_c }
        };
        let core = self.until_core_c.map(|c| until(Place::Core, c));
        let surface = self.until_surface_c.map(|c| until(Place::Surface, c));
        let end = End { duration_s: self.duration_s, until: core.or(surface) };
        PhaseHeat {
            film: Film::Known(self.h_w_m2k),
            emissivity: self.emissivity,
            wall_c: self.wall_c,
            wetness: Ramp::constant(self.wetness),
            humidity: match (self.humidity_ratio, self.relative_humidity) {
                (Some(w), None) => Humidity::Ratio(w),
                (None, Some(r)) => Humidity::Relative(r),
                (None, None) => Humidity::Ratio(0.0),
                _ => panic!("{}: one humidity", self.name),
            },
            pressure_pa: SEA_LEVEL_PA,
            end,
            medium_c,
        }
    }
}

/// Cooks of every file written like the trajectories.
pub fn cooks() -> Vec<(String, Cook)> {
    let mut out = Vec::new();
    for (name, table) in files() {
        let Some(cooks) = table.get("cook") else { continue };
        for cook in cooks.as_array().expect("cook is a list") {
            let cook: Cook = cook.clone().try_into().unwrap_or_else(|e| panic!("{name}: {e}"));
            out.push((format!("{name}: {}", cook.id), cook));
        }
    }
    out
}
