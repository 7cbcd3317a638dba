//! A whole cook, or a kitchen that other files share.

use super::blocks::{Block, Blocks};
use super::builder::Builder;
use super::{kit, stock};
use crate::cook::{Cook, Crew, Document, Kit, KitId};
use crate::findings::{Code, Finding};
use crate::say;
use crate::syntax::{Head, HeadKind};
use crate::text::{FileId, Span, Spanned};

mod crew;
mod head;
mod phases;

pub use crew::crew;
pub use head::rules;
use head::{Facts, cook_block, measures};

/// Types all blocks of a file that is no menu.
pub fn build(builder: &mut Builder<'_>, blocks: &Blocks<'_>, file: FileId, imported: Vec<Kit>) -> Document {
    measures(builder, blocks);
    let mut facts = Facts::default();
    let mut crew: Option<Crew> = None;
    let mut items = Vec::new();
    let mut all_kit = adopt(builder, imported);
    for block in &blocks.blocks {
        match &block.head.kind {
            HeadKind::Edition { number } => edition(builder, block.head, *number),
            HeadKind::Cook { title } => {
                if facts.title.is_some() {
                    builder.taken(block.head.span, None, "titles in this file, and one is");
                }
                let title = builder.text(*title);
                cook_block(builder, block, &mut facts);
                facts.title.get_or_insert(title);
            }
            HeadKind::Kit { name, class } => kit::add(builder, block, *name, *class, &mut all_kit),
            HeadKind::Food { .. } | HeadKind::Ingredient { .. } => stock::add(builder, block, &mut items),
            HeadKind::Crew => {
                let typed = self::crew(builder, block);
                if crew.replace(typed).is_some() {
                    builder.report(Finding::new(
                        Code::ClauseTwice,
                        block.head.span,
                        say!["There are two `crew` blocks."],
                        say!["Put everybody into one."],
                    ));
                }
            }
            HeadKind::Dish { .. } | HeadKind::ServeMenu { .. } => builder.report(Finding::new(
                Code::ClauseOutOfPlace,
                block.head.span,
                say!["This is how a menu of several cooks says it, and this file is one cook."],
                say!["In a cook, name the food and write the time below it: `serve shoulder`, then `at 18:30`. A menu starts with `menu \"Title\"`."],
            )),
            _ => {}
        }
        if is_one_line(&block.head.kind) {
            for clause in &block.clauses {
                builder.out_of_place(clause, block);
            }
        }
    }
    let phases: Vec<&Block<'_>> = blocks
        .blocks
        .iter()
        .filter(|block| matches!(block.head.kind, HeadKind::Phase { .. } | HeadKind::Serve { .. }))
        .collect();
    let only_kit = facts.title.is_none()
        && phases.is_empty()
        && items.is_empty()
        && crew.is_none()
        && !blocks.block_lost;
    if only_kit {
        return Document::Kitchen(all_kit);
    }
    if facts.title.is_none() && !blocks.block_lost {
        let first = blocks.blocks.first().map_or(Span::new(file, 0, 0), |block| block.head.span);
        builder.report(Finding::new(
            Code::TitleMissing,
            first,
            say!["This file has phases or stock but does not say what it is."],
            say!["Put `cook \"Title\"` at the top."],
        ));
    }
    let serving_lost = blocks.block_lost
        || blocks.blocks.iter().any(|block| matches!(block.head.kind, HeadKind::ServeMenu { .. }));
    let (items, phases) = phases::phases(builder, &phases, items, &all_kit, serving_lost);
    Document::Cook(Box::new(Cook {
        file,
        title: facts.title.unwrap_or_else(|| Spanned::new(String::new(), Span::new(file, 0, 0))),
        about: facts.about,
        by: facts.by,
        adapted_from: facts.adapted_from,
        serves: facts.serves,
        rules: facts.rules,
        vulnerable_guests: facts.vulnerable_guests,
        elevation: facts.elevation,
        scale: builder.units.scale(),
        crew,
        kit: all_kit,
        items,
        phases,
        notes: std::mem::take(&mut builder.notes),
        allows: std::mem::take(&mut builder.allows),
    }))
}

/// A head that has nothing below it.
fn is_one_line(head: &HeadKind) -> bool {
    matches!(head, HeadKind::Edition { .. } | HeadKind::KitFrom { .. })
}

/// Kit from other files takes its name first.
pub fn adopt(builder: &mut Builder<'_>, imported: Vec<Kit>) -> Vec<Kit> {
    let mut all: Vec<Kit> = Vec::with_capacity(imported.len());
    for kit in imported {
        if builder.kit.declare(&kit.name.value, KitId(all.len() as u32)).is_none() {
            all.push(kit);
        }
    }
    all
}

pub fn edition(builder: &mut Builder<'_>, head: &Head, number: Span) {
    let typed = builder.units.slice(number);
    if typed != "1" {
        builder.report(Finding::new(
            Code::EditionUnknown,
            head.span,
            say![format!(
                "This file is written in edition {typed} of the language, and only edition 1 is known."
            )],
            say!["Write `dwell 1`, or use a newer `dwell`."],
        ));
    }
}
