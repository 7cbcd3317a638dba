//! A sheet for the wall: one page of HTML that needs nothing else, to be printed or read on a telephone.
//!
//! Page one is what somebody with wet hands reads; the rest is for shopping, for setting up and for whoever answers for
//! the food. Every part is drawn from the values that the other outputs show, in their words.
//!
//! Text goes through `maud`, which escapes it; what acts on its surroundings is named at the very end, wherever it is
//! ([`escape::html_page`]).

mod buying;
mod deadlines;
mod dish;
mod findings;
mod forecast;
mod glance;
mod kit;
mod marks;
mod phases;
mod picture;
mod prep;
pub(super) mod readings;
mod rules;
mod scope;
mod source;
mod station;
mod wall;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::{escape, timelines};
use crate::compile::Compiled;
use scope::Scope;

const STYLE: &str = include_str!("sheet.css");

/// Nothing is fetched and nothing runs, whatever stands in a file.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/// How much of the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Part {
    /// Page one alone.
    Wall,
    /// A page for each dish of a menu, or for each place of work of one cook.
    Station,
    #[default]
    Full,
}

/// What is asked for.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    pub part: Part,
    /// The options, as they were typed, without which the text makes another sheet.
    pub options: Vec<String>,
}

/// The sheet of a file: of its one cook, or of the menu and then of each dish. `None` where there is no cook in it or a
/// line was not understood.
pub fn html(file: &Compiled, wanted: &Wanted) -> Option<String> {
    let plan = timelines::plan(file).filter(|_| file.understood())?;
    let cooks = file.cooks();
    let dishes = timelines::menu_title(file).map_or_else(Vec::new, |_| Scope::dishes(&cooks));
    let body = html! {
        main {
            @match wanted.part {
                Part::Wall => (wall::page(file, plan, &cooks, &Scope::alone(&plan.title))),
                Part::Station => {
                    @for scope in Scope::stations(&cooks) { (station::page(file, plan, &cooks, &scope)) }
                }
                Part::Full => {
                    (wall::page(file, plan, &cooks, &Scope::all(&plan.title)))
                    (glance::figures(plan))
                    (buying::list(&cooks))
                    @for (n, worked) in cooks.iter().enumerate() { (dish::parts(file, plan, worked, dishes.get(n))) }
                    (findings::list(file, &cooks))
                    (forecast::worth())
                    (source::texts(file, &wanted.options))
                }
            }
        }
        footer { p { "Made by dwell from " bdi { (name(file)) } ". A plan and a forecast: a probe decides." } }
        (source::recipe(file))
        (source::carried(file))
    };
    Some(escape::html_page(&page(&plan.title, body).into_string()) + "\n")
}

/// What the file is called on paper: where it lies is nobody's business there.
fn name(file: &Compiled) -> &str {
    file.sources.all().first().map_or(&file.path, |source| &source.name)
}

fn page(title: &str, body: Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body { (body) }
        }
    }
}
