//! A cook of several foods that share nothing but the kitchen, as a menu and its dishes.

use std::collections::BTreeMap;

use super::NewFile;
use super::places::{line, replaced};
use crate::cook::Document;
use crate::editor::View;
use crate::editor::pieces::{Sort, Space, pieces};
use crate::findings::Edit;
use crate::resolve::folded;
use crate::syntax::{ClauseKind, HeadKind, LineKind};
use crate::text::Span;

/// The files that a cook comes to.
pub struct Split {
    /// What makes the file itself the menu.
    pub edits: Vec<Edit>,
    pub files: Vec<NewFile>,
}

/// A head, and everything up to the next one, with the comment right above it.
struct Block<'v> {
    head: &'v HeadKind,
    text: &'v str,
    span: Span,
}

/// For the line with the title. `None` where the dishes hang together, or where something is said of all of them at once.
pub fn split(view: &View<'_>, at: Span) -> Option<Split> {
    let name = &view.source().name;
    let stem = name.strip_suffix(".dwell").unwrap_or(name);
    let Some(Document::Cook(cook)) = &view.compiled.document else { return None };
    let on_title = line(view, at).and_then(|line| view.tree.head_of(line));
    let Some(HeadKind::Cook { title }) = on_title.map(|head| &head.kind) else { return None };
    if !view.compiled.understood() || cook.serves.as_ref().is_some_and(|serves| serves.each.is_some()) {
        return None;
    }
    let blocks = blocks(view);
    let own = |wanted: fn(&HeadKind) -> bool| blocks.iter().filter(move |block| wanted(block.head));
    let [whole] = own(|head| matches!(head, HeadKind::Cook { .. })).collect::<Vec<_>>()[..] else {
        return None;
    };
    let allows = view.tree.clauses.iter().any(|clause| {
        matches!(clause.kind, ClauseKind::Allow { .. })
            && whole.span.range().contains(&(clause.span.start as usize))
    });
    let late_edition =
        own(|head| matches!(head, HeadKind::Edition { .. })).any(|block| block.span.start > title.start);
    let dishes = dishes(view, &blocks)?;
    if allows || late_edition || dishes.len() < 2 {
        return None;
    }

    let said = |block: &Block<'_>| block.text.trim_end().to_owned() + "\n\n";
    let all = |wanted| own(wanted).map(said).collect::<String>();
    let (crew, kit) =
        (all(|head| matches!(head, HeadKind::Crew)), all(|head| matches!(head, HeadKind::Kit { .. })));
    let mut shared = all(|head| matches!(head, HeadKind::KitFrom { .. }));
    let mut files = Vec::new();
    if !kit.is_empty() {
        let name = format!("{stem}-kitchen.dwell");
        shared += &format!("kit from \"{name}\"\n\n");
        files.push((name, kit.trim_end().to_owned() + "\n"));
    }
    let title_text = view.text().get(title.range())?;
    let (before, after) = whole.text.split_at(title.start as usize - whole.span.start as usize);
    let after = after.strip_prefix(title_text)?.trim_end();
    // A comment above the title is about the meal.
    let (above, before) = before.split_at(before.rfind('\n').map_or(0, |at| at + 1));

    let times: Vec<&str> =
        dishes.iter().map(|dish| dish.at.map_or("", |at| &view.text()[at.range()])).collect();
    let one_time = times.iter().all(|time| *time == times[0]);
    let plain = |time: &&str| time.chars().all(|c| c.is_ascii_digit() || c == ':');
    if !one_time && !times.iter().all(plain) {
        return None;
    }
    let first = view.text().get(..whole.span.start as usize)?;
    let mut menu = format!("{first}{above}menu \"{title_text}\"\n");
    if one_time && !times[0].is_empty() {
        menu += &format!("  serve at {}\n", times[0]);
    }
    if let Some(rules) = &cook.rules {
        menu += &format!("  rules {}\n", rules.value);
    }
    menu += &format!("\n{shared}{crew}");
    for (dish, time) in dishes.iter().zip(&times) {
        let name = format!("{stem}-{}.dwell", dish.food);
        let course = if one_time { String::new() } else { format!(", at {time}") };
        menu += &format!("dish \"{name}\"{course}\n");
        let blocks: String = dish.blocks.iter().map(|&nth| said(&blocks[nth])).collect();
        let text = format!("{before}{title_text}: {}{after}\n\n{shared}{crew}{blocks}", dish.food);
        files.push((name, text.trim_end().to_owned() + "\n"));
    }
    let edits = replaced(Span::new(view.file, 0, view.text().len()), &menu);
    Some(Split { edits, files })
}

fn blocks<'v>(view: &View<'v>) -> Vec<Block<'v>> {
    let lines = &view.tree.lines;
    let is_comment = |nth: usize| matches!(lines[nth].kind, LineKind::Blank) && lines[nth].comment.is_some();
    let starts: Vec<(usize, &HeadKind)> = (0..lines.len())
        .filter_map(|nth| {
            let head = &view.tree.head_of(&lines[nth])?.kind;
            let above = (0..nth).rev().take_while(|&above| is_comment(above)).count();
            Some((lines[nth - above].span.start as usize, head))
        })
        .collect();
    let ends = starts.iter().skip(1).map(|(start, _)| *start).chain([view.text().len()]);
    let all = starts.iter().zip(ends).map(|(&(start, head), end)| Block {
        head,
        text: &view.text()[start..end],
        span: Span::new(view.file, start, end),
    });
    all.collect()
}

/// Blocks that hang together by their stock and their phases.
struct Dish {
    /// By its first food.
    food: String,
    blocks: Vec<usize>,
    /// When it is eaten.
    at: Option<Span>,
}

/// In the order of their first blocks; `None` where one of them is not a food that is served once, at one time.
fn dishes(view: &View<'_>, blocks: &[Block<'_>]) -> Option<Vec<Dish>> {
    use HeadKind::{Food, Ingredient, Phase, Serve};
    let names = names(view, blocks);
    // Each block points to an earlier one that it hangs together with, or to itself.
    let mut first: Vec<usize> = (0..blocks.len()).collect();
    let root = |first: &[usize], mut nth: usize| {
        while first[nth] != nth {
            nth = first[nth];
        }
        nth
    };
    for together in names.values() {
        for pair in together.windows(2) {
            let (one, other) = (root(&first, pair[0]), root(&first, pair[1]));
            first[one.max(other)] = one.min(other);
        }
    }
    let mut parts: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (nth, block) in blocks.iter().enumerate() {
        if matches!(block.head, Food { .. } | Ingredient { .. } | Phase { .. } | Serve { .. }) {
            parts.entry(root(&first, nth)).or_default().push(nth);
        }
    }
    let dish = |part: Vec<usize>| {
        let food = part.iter().find_map(|&nth| match blocks[nth].head {
            Food { name, .. } => Some(folded(&view.text()[name.range()]).into_owned()),
            _ => None,
        })?;
        let mut served = part.iter().filter(|&&nth| matches!(blocks[nth].head, Serve { .. }));
        let (Some(&serve), None) = (served.next(), served.next()) else { return None };
        let at = time(view, &blocks[serve])?;
        Some(Dish { food, blocks: part, at })
    };
    parts.into_values().map(dish).collect()
}

/// By each name that is given in the file, the blocks that it stands in. A final `s` more or less makes no other name.
fn names(view: &View<'_>, blocks: &[Block<'_>]) -> BTreeMap<(Space, String), Vec<usize>> {
    let mut names: BTreeMap<(Space, String), (bool, Vec<usize>)> = BTreeMap::new();
    for piece in pieces(view.tree, view.text()) {
        let Sort::Name { space: space @ (Space::Stock | Space::Phase), declares } = piece.sort else {
            continue;
        };
        let name = folded(&view.text()[piece.span.range()]).trim_end_matches('s').to_owned();
        let nth = blocks.partition_point(|block| block.span.start <= piece.span.start).saturating_sub(1);
        let (declared, all) = names.entry((space, name)).or_default();
        *declared |= declares;
        all.push(nth);
    }
    let declared = names.into_iter().filter(|(_, (declared, _))| *declared);
    declared.map(|(name, (_, all))| (name, all)).collect()
}

/// The time of a serving, `Some(None)` where nothing is said of it; `None` where it is more than one moment.
fn time(view: &View<'_>, serve: &Block<'_>) -> Option<Option<Span>> {
    let inside = |span: Span| serve.span.start <= span.start && span.start < serve.span.end;
    let mut at = None;
    for clause in view.tree.clauses.iter().filter(|clause| inside(clause.span)) {
        match &clause.kind {
            ClauseKind::At(words) => at = Some(words.span),
            ClauseKind::FromTo(..) | ClauseKind::Guests(..) => return None,
            _ => {}
        }
    }
    Some(at)
}
