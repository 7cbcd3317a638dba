//! Canonical layout. Never reorders, never judges meaning, and leaves a line that it cannot read
//! exactly as it is.

use super::reader::{TokenKind, tokens};
use super::tree::{HeadKind, LineKind, Tree};
use crate::quantity::{find_unit, weekday_name};
use crate::text::{is_invisible, plain_blanks};

/// The file in canonical layout, ending in one newline. Formatting twice gives the same.
pub fn format(tree: &Tree, text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 64);
    for line in laid_out(tree, text).into_iter().flatten() {
        out.push_str(&line);
        out.push('\n');
    }
    out
}

/// Each line in canonical layout, without what ends it; `None` for one that is left out.
pub fn laid_out(tree: &Tree, text: &str) -> Vec<Option<String>> {
    let mut all: Vec<Option<String>> = Vec::with_capacity(tree.lines.len());
    let mut blank_before = true;
    // The one-line blocks right below a menu's title are set in, like its clauses.
    let mut below_menu = false;
    for line in &tree.lines {
        let content = text.get(line.span.range()).unwrap_or("");
        let mut out = String::with_capacity(content.len() + 2);
        match &line.kind {
            LineKind::Blank if line.comment.is_none() => {
                all.push((!blank_before).then(String::new));
                blank_before = true;
                below_menu = false;
                continue;
            }
            LineKind::Blank => {
                // A comment keeps its place: at the margin, or in a block.
                let indented = content.starts_with([' ', '\t']);
                out.push_str(if indented { "  " } else { "" });
                out.push_str(trim(content));
            }
            LineKind::Bad { .. } => out.push_str(content),
            LineKind::Read { head, .. } => {
                let head = head.and_then(|head| tree.heads.get(head as usize)).map(|head| &head.kind);
                below_menu = match head {
                    Some(HeadKind::Menu { .. }) => true,
                    Some(HeadKind::ServeMenu { .. } | HeadKind::KitFrom { .. }) | None => below_menu,
                    Some(_) => false,
                };
                let set_in = match head {
                    None => true,
                    Some(HeadKind::Menu { .. }) => false,
                    Some(_) => below_menu,
                };
                out.push_str(if set_in { "  " } else { "" });
                match canonical(content) {
                    Some(line) => out.push_str(&line),
                    None => out.push_str(trim(content)),
                }
            }
        }
        all.push(Some(out));
        blank_before = false;
    }
    // Blanks at the end part it from nothing.
    for line in all.iter_mut().rev().take_while(|line| line.as_ref().is_none_or(String::is_empty)) {
        *line = None;
    }
    all
}

/// Trims what shows as nothing.
fn trim(content: &str) -> &str {
    content.trim_matches(is_invisible)
}

/// One readable line with one blank between words, lower-case keywords and canonical units.
fn canonical(content: &str) -> Option<String> {
    let mut out = String::with_capacity(content.len());
    let mut at = 0;
    let mut one = false;
    for (kind, range) in tokens(&plain_blanks(content))? {
        if range.start < at {
            continue;
        }
        keywords(&mut out, content.get(at..range.start)?);
        let token = content.get(range.clone())?;
        let blank_needed = !out.is_empty() && !out.ends_with([' ', '(']);
        if blank_needed {
            out.push(' ');
        }
        match kind {
            TokenKind::Number => {
                let typed = token.replace('−', "-");
                let typed = collapse(&typed);
                one = typed == "1";
                out.push_str(&typed);
            }
            TokenKind::Unit => out.push_str(&unit(token, one)),
            TokenKind::To => out.push_str("to "),
            TokenKind::PlusMinus => out.push('±'),
            TokenKind::Clock => out.push_str(&clock(token)),
            TokenKind::Weekday => out.push_str(weekday(token)),
            TokenKind::Words => out.push_str(&collapse(token)),
            TokenKind::Text => out.push_str(&straight_quotes(token)),
            TokenKind::Comment => out.push_str(trim(token)),
            TokenKind::Literal => out.push_str(token),
        }
        at = range.end;
    }
    keywords(&mut out, content.get(at..)?);
    Some(out.trim_end().to_string())
}

/// Keywords and signs between tokens.
fn keywords(out: &mut String, between: &str) {
    for word in between.split(is_invisible).filter(|word| !word.is_empty()) {
        for (nth, part) in word.split_inclusive(',').enumerate() {
            let sticks = part.starts_with([',', ')']) || (nth > 0 && part.is_empty());
            if !out.is_empty() && !sticks && !out.ends_with([' ', '(']) {
                out.push(' ');
            }
            out.push_str(&part.to_lowercase().replace("tenderized", "tenderised"));
            if out.ends_with("ph") && part.eq_ignore_ascii_case("ph") {
                out.truncate(out.len() - 2);
                out.push_str("pH");
            }
        }
    }
}

/// One blank for each run of them.
fn collapse(token: &str) -> String {
    token.split(is_invisible).filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

/// The unit as the formatter writes it; a word that is no unit stays as typed.
fn unit(token: &str, one: bool) -> String {
    let collapsed = collapse(token);
    match find_unit(&collapsed) {
        Some(unit) if one && unit.name.len() > 1 => unit.name.trim_end_matches('s').to_string(),
        Some(unit) if matches!(unit.name, "cup" | "pint") => format!("{}s", unit.name),
        Some(unit) => unit.name.to_string(),
        None => collapsed,
    }
}

/// `8:30` as `08:30`; anything else has a finding and stays as typed.
fn clock(token: &str) -> String {
    match token.split_once(':') {
        Some((hour, minute)) if hour.len() == 1 && minute.len() == 2 => format!("0{token}"),
        _ => token.to_string(),
    }
}

/// `sat` as `Saturday`.
fn weekday(token: &str) -> &str {
    match token.get(..3).and_then(|short| short.parse().ok()) {
        Some(day) => weekday_name(day),
        None => token,
    }
}

/// Straight quotes, where the text inside has none of its own.
fn straight_quotes(token: &str) -> String {
    let inner = token.trim_matches(['"', '“', '”', '„', '‟']);
    let mut chars = token.chars();
    let (first, last) = (chars.next(), chars.next_back());
    let plain = !inner.contains(['"', '“', '”', '„', '‟']);
    match (first, last) {
        (Some(first), Some(last)) if plain && first != '"' && last != '"' => format!("\"{inner}\""),
        _ => token.to_string(),
    }
}
