//! One food or one class of kit of a `dwell.toml`.

use toml::de::DeTable;

use super::super::{Composition, FigureSource, FoodKind, FoodState, KitClass, Properties, Species, Tables};
use super::{Reader, offer};
use crate::findings::{Code, Finding};
use crate::quantity::plain_number;
use crate::say;
use crate::text::Span;

/// A figure that a key may give: its least and greatest value that can be true of anything real, and
/// what stands at those ends.
pub(super) struct Figure {
    pub(super) key: &'static str,
    pub(super) low: f64,
    pub(super) high: f64,
    pub(super) unit: &'static str,
}

const fn figure(key: &'static str, low: f64, high: f64, unit: &'static str) -> Figure {
    Figure { key, low, high, unit }
}

/// Air-filled crumb conducts worst of all foods and ice best (2.2 W/m K); whipped foods are lightest
/// and sugar densest (1590 kg/m³); water holds most heat (4200 J/kg K). Wide on purpose: they refuse
/// slips of the decimal point and of the unit. Choi and Okos 1986 for the figures.
const MEASURED: [Figure; 3] = [
    figure("conductivity_w_mk", 0.02, 3.0, "W/m K"),
    figure("density_kg_m3", 100.0, 2000.0, "kg/m³"),
    figure("specific_heat_j_kgk", 500.0, 4500.0, "J/kg K"),
];

const PARTS: [Figure; 6] = [
    figure("water_percent", 0.0, 100.0, "%"),
    figure("protein_percent", 0.0, 100.0, "%"),
    figure("fat_percent", 0.0, 100.0, "%"),
    figure("carbohydrate_percent", 0.0, 100.0, "%"),
    figure("fibre_percent", 0.0, 100.0, "%"),
    figure("ash_percent", 0.0, 100.0, "%"),
];

/// Still cold air is worst at carrying heat (3 W/m² K), condensing steam and boiling water best
/// (some thousands). From memory of engineering texts.
const KIT: [Figure; 5] = [
    figure("film_w_m2k", 1.0, 10_000.0, "W/m² K"),
    figure("moisture_percent", 0.0, 100.0, "%"),
    figure("heats_k_min", 0.01, 200.0, "K a minute"),
    figure("cools_k_min", 0.01, 200.0, "K a minute"),
    figure("swing_k", 0.0, 50.0, "K"),
];

impl Reader {
    pub(super) fn food(&mut self, name: &str, place: Span, table: &DeTable) {
        let keys: Vec<&str> = ["species", "state"]
            .into_iter()
            .chain(MEASURED.iter().chain(&PARTS).map(|figure| figure.key))
            .collect();
        let before = self.findings.len();
        self.refuse_unknown(table, &keys);
        let species = self.word(table, "species", &Species::ALL);
        let state = self.word(table, "state", &FoodState::ALL);
        let measured = MEASURED.map(|figure| self.figure(table, &figure));
        let parts = PARTS.map(|figure| self.figure(table, &figure));
        if self.findings.len() > before {
            return;
        }
        let (Some(species), Some(state)) = (species, state) else {
            return self.incomplete(
                place,
                say!["The food `", name.to_owned(), "` does not say what it is."],
                say!["Add `species = \"beef\"` and `state = \"intact\"`, or what is true of it: they choose the rules that judge it."],
            );
        };
        if let Some(properties) = self.properties(name, place, measured, parts) {
            self.project.foods.push(FoodKind {
                name: name.to_owned(),
                also: Vec::new(),
                also_note: None,
                species,
                state,
                properties,
                source_id: "own".into(),
                source_description: name.to_owned(),
                source_edition: "dwell.toml".into(),
                status: "own".into(),
                note: None,
            });
        }
    }

    /// Either the three measured figures or what the food is made of.
    fn properties(
        &mut self,
        name: &str,
        place: Span,
        measured: [Option<f64>; 3],
        parts: [Option<f64>; 6],
    ) -> Option<Properties> {
        let any_part = parts.iter().any(Option::is_some);
        if let [Some(conductivity_w_mk), Some(density_kg_m3), Some(specific_heat_j_kgk)] = measured
            && !any_part
        {
            return Some(Properties::Measured { conductivity_w_mk, density_kg_m3, specific_heat_j_kgk });
        }
        if measured.iter().any(Option::is_some) || !any_part {
            self.incomplete(
                place,
                say!["The food `", name.to_owned(), "` needs either its three measured figures or what it is made of."],
                say!["Give `conductivity_w_mk`, `density_kg_m3` and `specific_heat_j_kgk`, or `water_percent`, `protein_percent`, `fat_percent`, `carbohydrate_percent`, `fibre_percent` and `ash_percent`; not some of each."],
            );
            return None;
        }
        let [water, protein, fat, carbohydrate, fibre, ash] = parts.map(|part| part.unwrap_or(0.0));
        let sum = water + protein + fat + carbohydrate + ash;
        // Published rows sum to 97.4 to 101.4, each part being analysed by itself.
        if !(95.0..=105.0).contains(&sum) || fibre > carbohydrate {
            self.wrong(
                place,
                say!["The parts of `", name.to_owned(), "` add up to ", format!("{} %", plain_number(sum, 1)), ", not to about 100 %."],
                say!["Water, protein, fat, carbohydrate and ash make the whole; `fibre_percent` is counted within `carbohydrate_percent` and cannot be more than it."],
            );
            return None;
        }
        Some(Properties::Composition(Composition {
            water_percent: water,
            protein_percent: protein,
            fat_percent: fat,
            carbohydrate_percent: carbohydrate,
            fibre_percent: fibre,
            ash_percent: ash,
        }))
    }

    pub(super) fn kit(&mut self, name: &str, place: Span, table: &DeTable) {
        let keys: Vec<&str> = ["class"].into_iter().chain(KIT.iter().map(|figure| figure.key)).collect();
        let before = self.findings.len();
        self.refuse_unknown(table, &keys);
        let base = self.class(name, place, table);
        let figures = KIT.map(|figure| self.figure(table, &figure));
        let (Some(mut class), false) = (base, self.findings.len() > before) else { return };
        let [film, moisture, heats, cools, swing] = figures;
        class.base = Some(std::mem::replace(&mut class.name, name.to_owned()));
        class.also.clear();
        class.film_w_m2k = film.or(class.film_w_m2k);
        class.moisture_percent = moisture.or(class.moisture_percent);
        class.heats_k_min = heats.or(class.heats_k_min);
        class.cools_k_min = cools.or(class.cools_k_min);
        class.swing_k = swing.or(class.swing_k);
        let own = || FigureSource { source: "dwell.toml".into(), status: "own".into() };
        let written = KIT.iter().zip(figures).filter(|(_, value)| value.is_some());
        class.sources.extend(written.map(|(figure, _)| (figure.key.to_owned(), own())));
        self.project.kit.push(class);
    }

    /// The built-in class that an own one goes by.
    fn class(&mut self, name: &str, place: Span, table: &DeTable) -> Option<KitClass> {
        let Some(value) = table.get("class") else {
            self.incomplete(
                place,
                say!["The kit `", name.to_owned(), "` does not say which class it goes by."],
                say!["Add a line such as `class = \"fan oven\"`."],
            );
            return None;
        };
        let typed = self.text("class", value)?;
        let built_in = &Tables::built_in().kit;
        let found = built_in.find(typed).map(|class| KitClass::clone(&class));
        if found.is_none() {
            let span = self.span(value);
            self.findings.push(Finding::new(
                Code::KitClassUnknown,
                span,
                say!["There is no class of kit called `", typed.to_owned(), "`."],
                offer(&built_in.suggest(typed), "`dwell kit` lists the classes."),
            ));
        }
        found
    }
}
