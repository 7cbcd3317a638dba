//! A row of a published table, typed as a cook would and predicted.

use std::sync::Arc;

use dwell::cook::Document;
use dwell::heat::{Curves, PhaseTimes, predict};
use dwell::ledger::balance;
use dwell::resolve::{Context, resolve_text};
use dwell::tables::{KitClass, LeftOut, Tables};

use crate::common::Memory;

/// How long a phase is predicted to last, s.
#[derive(Debug, Clone, Copy)]
pub struct Wait {
    pub least_s: f64,
    pub usual_s: f64,
    pub most_s: f64,
}

/// One food in one place.
pub struct Dish<'a> {
    /// A class of kit.
    pub kit: &'a str,
    pub food: &'a str,
    pub mass_kg: f64,
    pub thickness_mm: f64,
    pub start_c: f64,
    /// Further lines of the food: its shape, its cover, frozen or not.
    pub more: &'a [&'a str],
}

impl Dish<'_> {
    /// Until the core is at `end_c` where `setting` (`air 150 °C`) is kept.
    pub fn wait(&self, setting: &str, end_c: f64) -> Wait {
        self.wait_in(Tables::built_in(), "", setting, end_c)
    }

    /// The same with phases `before`, whose time counts.
    pub fn wait_in(&self, tables: &Tables, before: &str, setting: &str, end_c: f64) -> Wait {
        let phase = format!("phase there is cook\n  piece in place\n  {setting}\n  until core {end_c} °C\n");
        let curves = self.curves(tables, &format!("{before}{phase}"));
        let (_serving, phases) = curves.phases.split_last().expect("a serving");
        assert!(curves.unpredicted.is_empty(), "{:?}", curves.unpredicted);
        assert!(phases.last().is_some_and(|there| there.end_predicted), "{phases:?}");
        let all = |seconds: fn(&PhaseTimes) -> f64| phases.iter().map(seconds).sum();
        Wait {
            least_s: all(|phase| phase.least_s),
            usual_s: all(|phase| phase.end_s - phase.start_s),
            most_s: all(|phase| phase.most_s),
        }
    }

    /// The curves of any phases of `piece` in `place`; there are a `bench` and a `tub` of cold water, too.
    pub fn curves(&self, tables: &Tables, phases: &str) -> Curves {
        let Self { kit, food, mass_kg, thickness_mm, start_c, more } = self;
        let more: String = more.iter().map(|line| format!("  {line}\n")).collect();
        let text = format!(
            "cook \"Row\"\nkit place is {kit}\nkit bench is bench\n  air 20 °C\nkit tub is ice bath\nfood piece is {food}\n  {mass_kg:.3} kg\n  \
             thickness {thickness_mm:.1} mm\n  starts at {start_c} °C\n{more}{phases}serve piece\n  at 19:00\n"
        );
        let context = Context { files: &Memory(&[]), tables, rule_sets: &[] };
        let (_, document, findings) = resolve_text(&context, "row.dwell", &text);
        let Some(Document::Cook(cook)) = document else { panic!("{text}{findings:?}") };
        let (ledger, _) = balance(&cook);
        predict(&cook, &ledger).curves
    }
}

/// The built-in tables with a class of kit `as`, like `class` but for its film, which stands for radiation, too.
pub fn with_film(name: &str, class: &str, film_w_m2k: f64) -> Tables {
    let class: Arc<KitClass> = Tables::built_in().kit.find(class).expect("a class");
    let own = KitClass {
        name: name.to_string(),
        also: Vec::new(),
        film_w_m2k: Some(film_w_m2k),
        ..KitClass::clone(&class)
    };
    Tables::with(Vec::new(), vec![own], &LeftOut::default())
}

/// The lines of a food that lies in bath water.
pub const BAGGED: &str = "vacuum bagged";

pub fn minutes(range: [f64; 2]) -> [f64; 2] {
    range.map(|minutes| 60.0 * minutes)
}

pub fn hours(range: [f64; 2]) -> [f64; 2] {
    range.map(|hours| 3600.0 * hours)
}
