//! The predicted temperatures as pictures, one for each food, so that none is cut at the end of a page.

use maud::{Markup, PreEscaped, html};

use super::marks::{Depth, heading, said};
use crate::compile::{Compiled, CompiledCook};
use crate::heat::{Curves, FoodCurve};
use crate::output::{cautions, curve};

pub fn figures(file: &Compiled, worked: &CompiledCook<'_>, depth: Depth) -> Markup {
    let limits = curve::limits_in_force(worked.judged);
    let start = worked.timeline.and_then(curve::Start::of);
    let title = &worked.cook.title.value;
    let of_food = |food: &FoodCurve| {
        let one = Curves {
            foods: vec![food.clone()],
            unpredicted: Vec::new(),
            phases: worked.curves.phases.clone(),
        };
        let shown = curve::Shown { title, curves: &one, microbes: &[], limits: &limits, start };
        curve::svg(title, &[shown], &[], file.scale)
    };
    // The picture is escaped where it is drawn.
    let figure = |food: &FoodCurve| {
        html! {
            div.picture tabindex="0" role="region" aria-label={ "Predicted temperatures of " (food.name) } {
                (PreEscaped(of_food(food)))
            }
        }
    };
    let mut foods = worked.curves.foods.iter();
    html! {
        // A heading stays with what it stands above.
        div.whole {
            (heading(depth, "Predicted temperatures"))
            @for caution in cautions::of_heat(file, Some(worked.cook.file)) {
                p.caution { strong { (said(&caution)) } }
            }
            @match foods.next() {
                Some(first) => (figure(first)),
                None => p { "No food of this cook has a predicted temperature." },
            }
        }
        @for food in foods { (figure(food)) }
        @for food in &worked.curves.unpredicted {
            p { "No curve for " (said(&curve::words::unpredicted(food, worked.curves))) }
        }
    }
}
