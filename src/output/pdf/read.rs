//! The page of the sheet as data for the typesetter: a tree of strings and of elements with a few marks.

use scraper::{ElementRef, Html, Node, Selector};
use typst::foundations::{Array, Bytes, Dict, IntoValue, Value, dict};
use unicode_bidi::{BidiInfo, Direction};

use super::Paper;

/// For programs; on paper it is not seen.
const UNSEEN_TAGS: [&str; 4] = ["head", "script", "style", "template"];
/// For those who hear a page, and what only holds of a page.
const UNSEEN_CLASSES: [&str; 2] = ["unseen", "as-a-file"];

/// The title, the paper and the parts of a page, and what is said at the foot of each.
pub fn data(page: &str, paper: Paper, foot: &str) -> Dict {
    // Without the last line end, which is no paragraph.
    let page = Html::parse_document(page.trim_end());
    let title = Selector::parse("title").ok().and_then(|title| page.select(&title).next());
    let title: String = title.map(|title| title.text().collect()).unwrap_or_default();
    dict! {
        "title" => title,
        "paper" => match paper { Paper::A4 => "a4", Paper::Letter => "us-letter" },
        "parts" => parts(page.root_element(), false),
        "foot" => foot,
    }
}

fn parts(element: ElementRef<'_>, kept: bool) -> Array {
    let mut parts = Array::new();
    for child in element.children() {
        match child.value() {
            Node::Text(text) => {
                let text = if kept { text.to_string() } else { on_one_line(text) };
                if !text.is_empty() {
                    parts.push(text.into_value());
                }
            }
            Node::Element(_) => parts.extend(ElementRef::wrap(child).and_then(|child| part(child, kept))),
            _ => {}
        }
    }
    parts
}

fn part(element: ElementRef<'_>, kept: bool) -> Option<Value> {
    let (name, marks) = (element.value().name(), element.value());
    let classes: Vec<&str> = marks.classes().collect();
    if UNSEEN_TAGS.contains(&name) || classes.iter().any(|class| UNSEEN_CLASSES.contains(class)) {
        return None;
    }
    let number = |mark| marks.attr(mark).and_then(|number| number.parse::<i64>().ok()).unwrap_or(1);
    let inside = if name == "svg" { Array::new() } else { parts(element, kept || name == "pre") };
    let mut part = dict! {
        "tag" => name,
        "class" => classes.into_iter().map(IntoValue::into_value).collect::<Array>(),
        "label" => label(element),
        "columns" => number("colspan"),
        "start" => number("start"),
        "ticked" => marks.attr("type") == Some("checkbox"),
        "leftwards" => marks.attr("dir") == Some("auto") && starts_leftwards(&text(element)),
        "apart" => name == "bdi" && BidiInfo::new(&text(element), None).has_rtl(),
        "parts" => inside,
    };
    if name == "svg" {
        // As XML, which knows no such name.
        let picture = element.html().replace("&nbsp;", "\u{a0}");
        part.insert("picture".into(), Bytes::from_string(picture).into_value());
        part.insert("shape".into(), shape(element).into_value());
    }
    Some(part.into_value())
}

/// What an element is called for those who cannot see it; a picture has that from what stands around it.
fn label(element: ElementRef<'_>) -> &str {
    let around = element.parent().and_then(ElementRef::wrap);
    [Some(element), around]
        .into_iter()
        .flatten()
        .find_map(|one| one.value().attr("aria-label"))
        .unwrap_or_default()
}

/// How high a picture is for its width.
fn shape(picture: ElementRef<'_>) -> f64 {
    let sides = picture.value().attr("viewBox").unwrap_or_default().split_whitespace();
    match sides.map(str::parse::<f64>).collect::<Vec<_>>()[..] {
        [Ok(_), Ok(_), Ok(width), Ok(height)] if width > 0.0 => height / width,
        _ => 1.0,
    }
}

fn text(element: ElementRef<'_>) -> String {
    element.text().collect()
}

/// Does the text run from right to left, by its first strong letter (UAX #9, P2 and P3)?
fn starts_leftwards(text: &str) -> bool {
    unicode_bidi::get_base_direction(text) == Direction::Rtl
}

/// Line ends and runs of blanks as one blank.
fn on_one_line(text: &str) -> String {
    let mut line = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\n' | ' ' if line.ends_with(' ') => {}
            '\n' => line.push(' '),
            c => line.push(c),
        }
    }
    line
}
