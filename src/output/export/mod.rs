//! `dwell export`: the whole compiled cook as JSON, and the JSON Schema of it.
//!
//! The types here are the promise to other tools; those in [`crate::cook`] may change without it.
//! Every number's key ends in its unit: `_s` seconds, `_c` °C, `_k` kelvin of difference, `_kg`,
//! `_m`, `_m3`, `_fraction` of one, `_ph`; bare counts of things have none.

mod amounts;
mod cook;
mod kit;
mod parts;
mod phase;
mod stock;
mod when;

use schemars::JsonSchema;
use serde::Serialize;

use crate::compile::Compiled;
use crate::cook::Document;
use crate::text::{Sources, Span};

const FORMAT: &str = "dwell.export/1";

/// A compiled file: one cook, a menu of several, or a kitchen's kit.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "dwell export, edition 1")]
struct Export {
    /// Always "dwell.export/1".
    #[schemars(extend("const" = FORMAT))]
    format: &'static str,
    /// The file as it was named.
    path: String,
    kind: Kind,
    /// Only for a menu.
    menu: Option<cook::Menu>,
    /// The cook, or the dishes of the menu in order, each scaled to the people it is for.
    cooks: Vec<cook::Cook>,
    /// Only for a kitchen: its kit.
    kit: Vec<kit::Kit>,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum Kind {
    Cook,
    Menu,
    Kitchen,
}

/// Where something is written.
#[derive(Serialize, JsonSchema)]
struct Place {
    path: String,
    /// From 1.
    line: usize,
    /// From 1, in characters.
    column: usize,
}

impl Place {
    fn new(sources: &Sources, span: Span) -> Self {
        let source = sources.get(span.file);
        let (line, column) = source.line_column(span.start as usize);
        Self { path: source.path.clone(), line, column }
    }
}

/// The compiled file as JSON; `None` where it could not be read as a cook, menu or kitchen.
pub fn json(compiled: &Compiled) -> Option<String> {
    let sources = &compiled.sources;
    let cooks =
        compiled.cooks().iter().map(|worked| cook::Cook::new(sources, worked, compiled.scale)).collect();
    let (kind, menu, kit) = match compiled.document.as_ref()? {
        Document::Cook(_) => (Kind::Cook, None, Vec::new()),
        Document::Menu(menu) => (Kind::Menu, Some(cook::Menu::new(sources, menu)), Vec::new()),
        Document::Kitchen(kit) => (Kind::Kitchen, None, kit::all(sources, kit)),
    };
    let export = Export { format: FORMAT, path: compiled.path.clone(), kind, menu, cooks, kit };
    Some(super::escape::json(&export))
}

/// The JSON Schema (draft 2020-12) of [`json`].
pub fn schema() -> String {
    super::escape::json(&schemars::schema_for!(Export))
}
