//! Other files that a line names: the kit that they bring, or the dish that they are.

use super::View;
use crate::cook::Document;
use crate::output::timeline::{reservation, start_and_servings};
use crate::text::Span;

pub fn of(view: &View<'_>, name: Span) -> Option<Vec<String>> {
    dish(view, name).or_else(|| kit(view, name))
}

/// A dish of a menu: its title, and its times in the plan of all.
fn dish(view: &View<'_>, name: Span) -> Option<Vec<String>> {
    let Some(Document::Menu(menu)) = &view.compiled.document else { return None };
    let holds = |span: Span| span.file == name.file && span.range().contains(&(name.start as usize));
    let nth = menu.dishes.iter().position(|dish| holds(dish.span))?;
    let mut said = vec![format!("\"{}\" is a dish of this menu.", menu.dishes[nth].cook.title.value)];
    let plan = view.compiled.cooks().get(nth).and_then(|worked| worked.timeline);
    said.extend(plan.map(|plan| {
        let all: Vec<String> = start_and_servings(plan).chain([reservation(plan)]).collect();
        all.join(" ").trim_end().to_owned()
    }));
    Some(said)
}

/// What a kitchen brings.
fn kit(view: &View<'_>, name: Span) -> Option<Vec<String>> {
    let typed = view.text().get(name.range())?;
    let all = super::Scope::of(view).kit.iter().filter(|kit| kit.imported);
    let from = |span: Span| view.compiled.sources.get(span.file).name == typed;
    let names: Vec<String> =
        all.filter(|kit| from(kit.name.span)).map(|kit| format!("`{}`", kit.name.value)).collect();
    (!names.is_empty()).then(|| vec![format!("It brings {}.", names.join(", "))])
}
