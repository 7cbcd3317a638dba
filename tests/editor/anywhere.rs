//! Any question, asked at any place of any text, is answered.

use dwell::editor::{Around, View, Wanted, completion, hints, hover, signature};
use dwell::syntax::{forms, parse};
use dwell::tables::Tables;
use dwell::text::FileId;
use proptest::prelude::*;

use crate::common::examples;
use crate::support::declared;

/// Places of a text, inside its characters too, and behind its end.
fn everywhere(text: &str, step: usize) {
    let (tree, _) = parse(FileId(0), text);
    let compiled = declared(text);
    let view = View { tree: &tree, compiled: &compiled, file: FileId(0) };
    for at in (0..text.len() + 3).step_by(step) {
        let inside = |range: std::ops::Range<usize>| text.get(range).is_some();
        for offer in completion(&view, at, &Around { tables: Tables::built_in(), files: &[] }) {
            assert!(inside(offer.replace.range()), "{offer:?}");
            assert!(offer.blanks.iter().all(|blank| offer.text.get(blank.clone()).is_some()), "{offer:?}");
            assert!(offer.text.starts_with(offer.without_examples()));
        }
        assert!(hover(&view, at).is_none_or(|hover| inside(hover.span.range())));
        for form in signature(&view, at).into_iter().flat_map(|signature| signature.forms) {
            assert!(form.slots.iter().all(|slot| form.text.get(slot.clone()).is_some()), "{form:?}");
        }
    }
    for hint in hints(&view, 0..text.len(), Wanted::default()) {
        assert!(text.is_char_boundary(hint.after), "{hint:?}");
    }
}

#[test]
fn examples_with_accents_and_other_ends_of_lines_are_asked_about() {
    for (_, text) in examples() {
        everywhere(&text.replace("an", "än😀").replace("\n  ", "\r\n\t"), 53);
    }
}

#[test]
fn foul_texts_are_asked_about() {
    let long = format!("phase x is cook\n  air {}", "1".repeat(20_000));
    let foul = [
        "",
        "\n",
        "\u{feff}cook",
        "\"",
        "“",
        "//",
        ",,,",
        "phase",
        "use \u{0}of",
        "until core −",
        "takes 5 min to",
        "cook \"x\"\nphase a is cook\n  a and a and a in a, , \"",
        "food ½ is ½",
        "kit from \"",
        "allow x because",
        "swing ±",
        "é é é",
        "at at at",
        "starts starts starts",
        "menu \"x\"\ndish \"\" for",
        long.as_str(),
    ];
    for text in foul {
        everywhere(text, 1 + text.len() / 50);
    }
}

/// Pieces of the language and of foul texts, in any order.
fn scrambled() -> impl Strategy<Value = String> {
    let mut words: Vec<String> = forms::clauses()
        .iter()
        .chain(&forms::BLOCKS.iter().collect::<Vec<_>>())
        .flat_map(|form| form.example().split_inclusive(' ').map(str::to_owned).collect::<Vec<_>>())
        .collect();
    let signs = [
        "\n", "\n  ", "\r\n", ",", ", ", "\"", "“", "”", "//", "½", "°", "° C ", "±", "−", "-", "é", "😀",
        "\u{301}", " and ", "the ",
    ];
    words.extend(signs.map(String::from));
    prop::collection::vec(prop::sample::select(words), 1..40).prop_map(|words| words.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]
    #[test]
    fn any_text_is_asked_about(text in scrambled()) {
        everywhere(&text, 3);
    }
}
