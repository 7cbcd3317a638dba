//! Commands that only look something up: findings, rules, foods, kit.

use std::borrow::Cow;
use std::path::Path;

use super::args::{Explain, Format, KitTable, Table};
use super::{Outcome, Status, Unusable, out};
use crate::compile;
use crate::findings::{ALL, Code};
use crate::folder::Folder;
use crate::output::{explain as pages, rules as rule_pages, tables};
use crate::quantity::Scale;
use crate::tables::{RuleSets, Tables};

/// `dwell explain CODE`.
pub fn explain(args: &Explain) -> Outcome {
    let typed = args.code.trim();
    let code = Code::find(typed).ok_or_else(|| {
        let codes = ALL.iter().map(|code| code.name());
        format!("there is no finding called {typed}{}", nearest(typed, codes))
    })?;
    say(&pages::page(code))
}

/// `dwell rules [ID]`.
pub fn rules(args: &Table) -> Outcome {
    let known = RuleSets::built_in();
    let set = args.name().map(|name| known.find(&name).ok_or_else(|| unknown_rules(&name))).transpose()?;
    match (args.format, set) {
        (Format::Text, None) => say(&rule_pages::list(&known.sets().collect::<Vec<_>>())),
        (Format::Text, Some(set)) => say(&rule_pages::page(set)),
        (Format::Json, None) => say(&rule_pages::json(&known.sets().collect::<Vec<_>>())),
        (Format::Json, Some(set)) => say(&rule_pages::json(&[set])),
    }
}

/// `dwell foods [NAME]`.
pub fn foods(args: &Table) -> Outcome {
    let known = tables_here()?;
    let name = args.name();
    let name = name.as_deref();
    let page = match args.format {
        Format::Text => tables::foods(&known.foods, name),
        Format::Json => tables::foods_json(&known.foods, name),
    };
    say(&page.map_err(|unknown| Unusable(unknown.to_string()))?)
}

/// `dwell kit [CLASS]`.
pub fn kit(args: &KitTable) -> Outcome {
    let known = tables_here()?;
    let name = args.table.name();
    let name = name.as_deref();
    let scale = if args.fahrenheit { Scale::Fahrenheit } else { Scale::Celsius };
    let page = match args.table.format {
        Format::Text => tables::kit(&known.kit, name, scale),
        Format::Json => tables::kit_json(&known.kit, name),
    };
    say(&page.map_err(|unknown| Unusable(unknown.to_string()))?)
}

/// The sentence about a rule set that nobody knows.
pub fn unknown_rules(typed: &str) -> String {
    let known = RuleSets::built_in();
    let near = nearest(typed, known.names());
    let all = known.names().collect::<Vec<_>>().join(", ");
    format!("there is no set of rules called {typed}{near}; there are {all}")
}

/// "; the nearest is NAME", or nothing where none is near.
fn nearest<'n>(typed: &str, names: impl Iterator<Item = &'n str>) -> String {
    let typed = typed.to_lowercase();
    names
        .map(|name| (strsim::jaro_winkler(&typed, name), name))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .filter(|(likeness, _)| *likeness > 0.75)
        .map(|(_, name)| format!("; the nearest is {name}"))
        .unwrap_or_default()
}

/// The tables in force in this folder: a `dwell.toml` in it counts.
fn tables_here() -> Result<Cow<'static, Tables>, Unusable> {
    let folder = Folder::new(Path::new("."))?;
    let own = compile::own_tables(&folder, "");
    Ok(own.tables())
}

/// Tables hold what a `dwell.toml` says, and that may be anything.
fn say(page: &str) -> Outcome {
    out::print(&crate::output::clean::page(page))?;
    Ok(Status::Fine)
}
