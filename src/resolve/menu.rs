//! A menu: several cooks that share kit, hands and a time.

use super::blocks::{Block, Blocks};
use super::builder::Builder;
use super::cook::{adopt, crew, edition, rules};
use super::kit;
use crate::cook::{Cook, Dish, Document, Kit, Menu, When};
use crate::findings::{Code, Finding};
use crate::say;
use crate::syntax::{Clause, ClauseKind as K, HeadKind};
use crate::text::{FileId, Span, Spanned};

/// Types all blocks of a menu; `dishes` are its cooks, in the order of their lines.
pub fn build(
    builder: &mut Builder<'_>,
    blocks: &Blocks<'_>,
    file: FileId,
    imported: Vec<Kit>,
    dishes: Vec<(Span, Option<Cook>)>,
) -> Document {
    let mut menu = Menu {
        file,
        title: Spanned::new(String::new(), Span::new(file, 0, 0)),
        rules: None,
        serve: None,
        kit: adopt(builder, imported),
        crew: None,
        dishes: Vec::new(),
    };
    let mut cooks = dishes.into_iter();
    for block in &blocks.blocks {
        let mut own_clauses = false;
        match &block.head.kind {
            HeadKind::Edition { number } => edition(builder, block.head, *number),
            HeadKind::Menu { title } => {
                own_clauses = true;
                menu.title = builder.text(*title);
                for clause in &block.clauses {
                    match &clause.kind {
                        K::Rules(name) => {
                            let value = rules(builder, *name);
                            builder.set(&mut menu.rules, value, clause, "the rules");
                        }
                        K::Note(text) | K::About(text) | K::By(text) => {
                            let note = builder.text(*text);
                            builder.notes.push(note);
                        }
                        _ => builder.out_of_place(clause, block),
                    }
                }
            }
            HeadKind::ServeMenu { when } => {
                if menu.serve.is_some() {
                    builder.taken(block.head.span, None, "times for this meal, and one is");
                }
                menu.serve = builder.units.when(when).map(|when| Spanned::new(when, block.head.span));
            }
            HeadKind::Crew => {
                own_clauses = true;
                menu.crew = Some(crew(builder, block));
            }
            HeadKind::Kit { name, class } => {
                own_clauses = true;
                kit::add(builder, block, *name, *class, &mut menu.kit);
            }
            HeadKind::KitFrom { .. } => {}
            HeadKind::Dish { serves, .. } => {
                own_clauses = true;
                let at = course(builder, block, &mut menu.rules);
                let serves = serves.as_ref().and_then(|serves| {
                    let count = builder.units.number_range(serves, &["people", "guests", "portions"])?;
                    if count.low < 1.0 || count.low.fract() != 0.0 || count.high.is_some() {
                        builder.units.impossible(serves.span, "it is a whole number of people, one or more");
                        return None;
                    }
                    Some(count.low as u32)
                });
                if let Some((span, Some(mut cook))) = cooks.next() {
                    cook.title.value = own_title(&menu.dishes, &cook.title.value);
                    menu.dishes.push(Dish { span, serves, at, cook });
                }
            }
            _ => {
                own_clauses = true;
                builder.report(Finding::new(
                    Code::ClauseOutOfPlace,
                    block.head.span,
                    say!["A menu holds only dishes, kit, crew and the time of the meal."],
                    say!["Write the food and its phases in a file of their own, and name it here: `dish \"beans.dwell\"`."],
                ));
            }
        }
        if !own_clauses {
            block.clauses.iter().for_each(|clause| common(builder, block, clause, &mut menu.rules));
        }
    }
    Document::Menu(Box::new(menu))
}

/// A title that no other dish has: outputs tell dishes by it, and two may come from one file.
fn own_title(dishes: &[Dish], title: &str) -> String {
    let is_free = |title: &String| dishes.iter().all(|dish| dish.cook.title.value != *title);
    let numbered = (2..=dishes.len() + 1).map(|nth| format!("{title} ({nth})"));
    std::iter::once(title.to_owned()).chain(numbered).find(is_free).unwrap_or_else(|| title.to_owned())
}

/// The clauses of a dish: when this course is served.
fn course(
    builder: &mut Builder<'_>,
    block: &Block<'_>,
    rules: &mut Option<Spanned<String>>,
) -> Option<Spanned<When>> {
    let mut at = None;
    for clause in &block.clauses {
        match &clause.kind {
            K::At(words) => {
                if let Some(when) = builder.units.when(words) {
                    let when = Some(Spanned::new(when, clause.span));
                    builder.set(&mut at, when, clause, "when it is served");
                }
            }
            _ => common(builder, block, clause, rules),
        }
    }
    at
}

/// A clause below one of the lines that have none of their own: it is the menu's.
fn common(
    builder: &mut Builder<'_>,
    block: &Block<'_>,
    clause: &Clause,
    menu_rules: &mut Option<Spanned<String>>,
) {
    match &clause.kind {
        K::Rules(name) => {
            let value = rules(builder, *name);
            builder.set(menu_rules, value, clause, "the rules");
        }
        _ => builder.out_of_place(clause, block),
    }
}
