//! Tree to typed cook: figures typed, names resolved, foods followed from phase to phase.
//!
//! Reads other files (`kit from`, `dish`) only through [`Files`]. Every problem is a finding; a
//! document comes out whatever the file holds.

mod blocks;
mod builder;
mod cook;
mod flow;
mod kit;
mod menu;
mod names;
mod order;
mod phase;
mod place;
mod serve;
mod stock;
mod times;
mod typed;
mod units;

pub use flow::ON_TAP;
pub use names::{folded, is_reserved, named};
pub use typed::{happened, moment, reading};

use crate::cook::{Cook, Document, Kit, When};
use crate::findings::{Code, Finding, Severity, Text};
use crate::load::load;
use crate::say;
use crate::syntax::{self, HeadKind, Tree};
use crate::tables::Tables;
use crate::text::{FileId, FileProblem, Files, Source, Sources, Span};

/// What resolving needs besides the text.
pub struct Context<'a> {
    pub files: &'a dyn Files,
    pub tables: &'a Tables,
    /// Names of the rule sets that may be chosen.
    pub rule_sets: &'a [String],
}

/// Types the file `file` and whatever it names; `None` where it holds nothing at all.
pub fn resolve(
    context: &Context<'_>,
    sources: &mut Sources,
    file: FileId,
) -> (Option<Document>, Vec<Finding>) {
    let mut findings = Vec::new();
    let mut open = vec![file];
    let document = resolve_file(context, sources, file, &mut open, &mut findings);
    (document, findings)
}

fn resolve_file(
    context: &Context<'_>,
    sources: &mut Sources,
    file: FileId,
    open: &mut Vec<FileId>,
    findings: &mut Vec<Finding>,
) -> Option<Document> {
    let (tree, found) = syntax::parse(file, &sources.get(file).text);
    findings.extend(found);
    let blocks = blocks::gather(&tree, &sources.get(file).text, findings);
    if blocks.blocks.is_empty() {
        if blocks.bad_lines.is_empty() && !findings.iter().any(|finding| finding.span.file == file) {
            findings.push(Finding::new(
                Code::FileEmpty,
                Span::new(file, 0, 0),
                say!["There is nothing in this file but blanks and comments."],
                say!["`dwell new` writes a first file to start from."],
            ));
        }
        return None;
    }
    let before = findings.len();
    let kit = imported_kit(context, sources, &tree, open, findings);
    let kit_missing =
        blocks.kit_lost || findings[before..].iter().any(|finding| finding.severity == Severity::Error);
    let is_menu = blocks.blocks.iter().any(|block| matches!(block.head.kind, HeadKind::Menu { .. }));
    let dishes = if is_menu { dishes(context, sources, &tree, open, findings) } else { Vec::new() };
    let text = &sources.get(file).text;
    let mut builder = builder::Builder::new(text, context.tables, context.rule_sets, &blocks);
    builder.kit_missing = kit_missing;
    let document = if is_menu {
        menu::build(&mut builder, &blocks, file, kit, dishes)
    } else {
        cook::build(&mut builder, &blocks, file, kit)
    };
    findings.append(&mut builder.units.findings);
    Some(document)
}

/// The kit of every `kit from` line.
fn imported_kit(
    context: &Context<'_>,
    sources: &mut Sources,
    tree: &Tree,
    open: &mut Vec<FileId>,
    findings: &mut Vec<Finding>,
) -> Vec<Kit> {
    let mut all: Vec<Kit> = Vec::new();
    for head in &tree.heads {
        let HeadKind::KitFrom { file: name } = head.kind else { continue };
        let document = other_file(context, sources, name, open, findings);
        let kit = match document {
            Some(Document::Kitchen(kit)) => kit,
            Some(Document::Cook(cook)) => cook.kit,
            Some(Document::Menu(menu)) => menu.kit,
            None => continue,
        };
        all.extend(kit.into_iter().map(|kit| Kit { imported: true, ..kit }));
    }
    all
}

fn dishes(
    context: &Context<'_>,
    sources: &mut Sources,
    tree: &Tree,
    open: &mut Vec<FileId>,
    findings: &mut Vec<Finding>,
) -> Vec<(Span, Option<Cook>)> {
    let mut all = Vec::new();
    for head in &tree.heads {
        let HeadKind::Dish { file: name, .. } = head.kind else { continue };
        let cook = match other_file(context, sources, name, open, findings) {
            Some(Document::Cook(cook)) => Some(*cook),
            Some(_) => {
                findings.push(Finding::new(
                    Code::TitleMissing,
                    name,
                    say!["This file is not a cook, and a dish is one."],
                    say!["Name a file that starts with `cook \"Title\"`."],
                ));
                None
            }
            None => None,
        };
        all.push((head.span, cook));
    }
    all
}

/// Reads and types a file that this one names.
fn other_file(
    context: &Context<'_>,
    sources: &mut Sources,
    name: Span,
    open: &mut Vec<FileId>,
    findings: &mut Vec<Finding>,
) -> Option<Document> {
    let path = sources.slice(name).to_string();
    let from = sources.get(name.file).path.clone();
    let file = match load(context.files, sources, &from, &path, name) {
        Ok(file) => file,
        Err(finding) => {
            findings.push(*finding);
            return None;
        }
    };
    let loaded = &sources.get(file).path;
    if open.iter().any(|&other| sources.get(other).path == *loaded) {
        findings.push(Finding::new(
            Code::FileCircular,
            name,
            say![format!("\"{path}\" is already being read: the files name each other in a circle.")],
            say!["Put what they share into a third file, and name that one from both."],
        ));
        return None;
    }
    open.push(file);
    let document = resolve_file(context, sources, file, open, findings);
    open.pop();
    document
}

/// A single text without other files, for tests and tools.
pub fn resolve_text(
    context: &Context<'_>,
    name: &str,
    text: &str,
) -> (Sources, Option<Document>, Vec<Finding>) {
    let mut sources = Sources::default();
    let file = sources.add(Source::new(name, text));
    let (document, findings) = resolve(context, &mut sources, file);
    (sources, document, findings)
}

/// A time that is typed outside a file, in the form that `serve at` takes.
///
/// # Errors
/// What is wrong with it, and what to type instead.
pub fn when(typed: &str) -> Result<When, (Text, Text)> {
    struct None;
    impl Files for None {
        fn read(&self, _: &str, _: &str) -> Result<(String, Vec<u8>), FileProblem> {
            Err(FileProblem::Missing)
        }
    }
    let form = (
        say![format!("`{typed}` is not a time.")],
        say!["Write `18:30`, `Saturday 18:30` or `2026-12-12 18:30 in Europe/Dublin`."],
    );
    if typed.chars().any(|c| c.is_control() || c == ',' || c == '"') {
        return Err(form);
    }
    let context = Context { files: &None, tables: Tables::built_in(), rule_sets: &[] };
    let head = "menu \"x\"\n  serve at ";
    let (_, document, findings) = resolve_text(&context, "", &format!("{head}{typed}\n"));
    let fault = findings.into_iter().find(|finding| finding.span.end as usize > head.len());
    match (document, fault) {
        (_, Some(fault)) => Err((fault.message, fault.remedy)),
        (Some(Document::Menu(menu)), _) => menu.serve.map(|serve| serve.value).ok_or(form),
        _ => Err(form),
    }
}
