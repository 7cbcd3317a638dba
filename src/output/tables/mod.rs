//! `dwell foods` and `dwell kit`: the tables in force, with their sources.

mod foods;
mod kit;

pub use foods::state_in_words;

use std::sync::Arc;

use serde::Serialize;

use crate::quantity::{Scale, plain_number};
use crate::tables::{FoodKind, Foods, KitClass, KitClasses};

/// A name that is not in the table; says which are near.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("there is no {what} called {name}{}", offer(.near))]
pub struct NotThere {
    what: &'static str,
    name: String,
    near: Vec<String>,
}

impl NotThere {
    fn new(what: &'static str, name: &str, near: &[&str]) -> Self {
        Self { what, name: name.into(), near: near.iter().map(|&name| name.into()).collect() }
    }
}

fn offer(near: &[String]) -> String {
    if near.is_empty() { String::new() } else { format!("; the nearest: {}", near.join("; ")) }
}

/// The width that every terminal and printer has.
const WIDTH: usize = 80;

/// The whole food table, or all that is known of one food.
///
/// # Errors
/// `name` is not in the table.
pub fn foods(table: &Foods, name: Option<&str>) -> Result<String, NotThere> {
    Ok(match name {
        Some(name) => foods::page(&*one_food(table, name)?),
        None => foods::list(table),
    })
}

/// The same as JSON, in the format "dwell.foods/1".
///
/// # Errors
/// `name` is not in the table.
pub fn foods_json(table: &Foods, name: Option<&str>) -> Result<String, NotThere> {
    let foods = match name {
        Some(name) => vec![one_food(table, name)?],
        None => table.kinds(),
    };
    let foods: Vec<&FoodKind> = foods.iter().map(AsRef::as_ref).collect();
    Ok(document(&FoodDocument { format: "dwell.foods/1", foods }))
}

/// The whole kit table, or all that is known of one class.
///
/// # Errors
/// `name` is not in the table.
pub fn kit(table: &KitClasses, name: Option<&str>, scale: Scale) -> Result<String, NotThere> {
    Ok(match name {
        Some(name) => kit::page(&*one_class(table, name)?, scale),
        None => kit::list(table, scale),
    })
}

/// The same as JSON, in the format "dwell.kit/1".
///
/// # Errors
/// `name` is not in the table.
pub fn kit_json(table: &KitClasses, name: Option<&str>) -> Result<String, NotThere> {
    let classes = match name {
        Some(name) => vec![one_class(table, name)?],
        None => table.classes(),
    };
    let classes = classes.iter().map(|class| kit::ClassRow::of(class)).collect();
    Ok(document(&KitDocument { format: "dwell.kit/1", classes }))
}

fn one_food(table: &Foods, name: &str) -> Result<Arc<FoodKind>, NotThere> {
    table.find(name).ok_or_else(|| NotThere::new("food", name, &table.suggest(name)))
}

fn one_class(table: &KitClasses, name: &str) -> Result<Arc<KitClass>, NotThere> {
    table.find(name).ok_or_else(|| NotThere::new("class of kit", name, &table.suggest(name)))
}

fn share(percent: f64) -> String {
    format!("{} %", plain_number(percent, 2))
}

/// A label and what it holds, the text wrapped beside it.
fn field(page: &mut String, label: &str, text: &str) {
    const INDENT: &str = "              ";
    let first = format!("  {label:12}");
    let options = textwrap::Options::new(WIDTH).initial_indent(&first).subsequent_indent(INDENT);
    page.push_str(&textwrap::fill(text, options));
    page.push('\n');
}

#[derive(Serialize)]
struct FoodDocument<'a> {
    format: &'static str,
    foods: Vec<&'a FoodKind>,
}

#[derive(Serialize)]
struct KitDocument<'a> {
    format: &'static str,
    classes: Vec<kit::ClassRow<'a>>,
}

fn document(value: &impl Serialize) -> String {
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text
}
