//! Any text gives a tree without errors; after an edit the tree is that of the new text, and says of every line what
//! the compiler says.

use tree_sitter::{InputEdit, Parser, Point, Tree};

use crate::common::dice::Dice;
use crate::corpus;
use crate::kinds::{differences, unglued};
use crate::parser::{LANGUAGE, parse};

const TYPED: &[&str] = &[
    "\n",
    "\r\n",
    "\r",
    " ",
    "\t",
    ",",
    "\"",
    "”",
    "/",
    "//",
    "(",
    "±",
    "½",
    "é",
    "🥕",
    "\u{200E}",
    "\u{FEFF}",
    "7",
    "a",
    "-",
    "phase ",
    "\ncook \"",
    "in ",
    "1,5",
    "\n// off\n",
    "\nair 110 °C, ",
];

fn point(text: &str, at: usize) -> Point {
    let before = &text[..at];
    let row = before.matches('\n').count();
    Point { row, column: at - before.rfind('\n').map_or(0, |end| end + 1) }
}

/// Takes away up to some bytes at a place and puts something there.
fn edit(text: &mut String, tree: &mut Tree, dice: &mut Dice) {
    let boundary = |text: &str, at: i64| text.floor_char_boundary(at as usize);
    let start = boundary(text, dice.roll(0, text.len() as i64));
    let end = if dice.one_in(2) { start } else { boundary(text, dice.roll(start as i64, start as i64 + 30)) };
    let end = end.max(start);
    let typed = TYPED[dice.roll(0, TYPED.len() as i64 - 1) as usize];
    let (start_position, old_end_position) = (point(text, start), point(text, end));
    text.replace_range(start..end, typed);
    let new_end = start + typed.len();
    tree.edit(&InputEdit {
        start_byte: start,
        old_end_byte: end,
        new_end_byte: new_end,
        start_position,
        old_end_position,
        new_end_position: point(text, new_end),
    });
}

#[test]
fn edits_give_the_tree_of_the_new_text() {
    let mut dice = Dice(11);
    // From the start a few times, because much can no longer be read after many edits.
    for round in 0..3 {
        let mut text = corpus::text();
        let mut parser = Parser::new();
        parser.set_language(&LANGUAGE).unwrap();
        let mut tree = parser.parse(&text, None).unwrap();
        for step in 0..80 {
            edit(&mut text, &mut tree, &mut dice);
            tree = parser.parse(&text, Some(&tree)).unwrap();
            let fresh = parse(&text);
            assert!(!fresh.root_node().has_error(), "{round}, {step}: {text}");
            let (edited, fresh) = (tree.root_node().to_sexp(), fresh.root_node().to_sexp());
            assert!(edited == fresh, "{round}, {step}:\n{edited}\n{fresh}\n{text}");
            let differ = differences(&unglued(&text));
            assert!(differ.is_empty(), "{round}, {step}: {}", differ.join("\n"));
        }
    }
}
