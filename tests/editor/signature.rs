//! How the clause under the cursor is written.

use dwell::editor::{Signature, signature};

use crate::support::Written;

fn help(marked: &str) -> Option<Signature> {
    let written = Written::one(marked);
    signature(&written.view(), written.at)
}

/// The form that is being typed, and the part of it.
fn active(marked: &str) -> (String, String) {
    let help = help(marked).expect("help");
    let form = &help.forms[help.active.expect("a form that fits")];
    let slot = help.slot.map_or("", |slot| &form.text[form.slots[slot].clone()]);
    (form.text.clone(), slot.to_owned())
}

fn assert_active(marked: &str, form: &str, part: &str) {
    assert_eq!(active(marked), (form.to_owned(), part.to_owned()), "{marked}");
}

#[test]
fn the_part_that_is_being_typed_is_marked() {
    assert_active("phase x is cook\n  takes ¦", "takes 15 min to 25 min", "15 min");
    assert_active("phase x is cook\n  takes 20 min to ¦", "takes 15 min to 25 min", "25 min");
    assert_active(
        "phase x is cook\n  collect 250 ml of ¦",
        "collect 250 ml of drippings from shoulder",
        "drippings",
    );
    assert_active(
        "phase x is cook\n  collect 250 ml of fat from ¦",
        "collect 250 ml of drippings from shoulder",
        "shoulder",
    );
    assert_active(
        "phase x is cook\n  collect 250 ml of fat is ¦",
        "collect 250 ml of drippings is gravy",
        "gravy",
    );
    assert_active("phase x is cook\n  until \"te¦", "until \"tender\"", "\"tender\"");
    assert_active("phase x is cook\n  air 110 °C, for up to ¦", "for up to 1 h", "1 h");
    assert_active("phase ¦", "phase roast is cook", "roast");
    assert_active("phase x is ¦", "phase roast is cook", "cook");
    assert_active("kit from ¦", "kit from \"kitchen.dwell\"", "\"kitchen.dwell\"");
    assert_active("phase x is cook\n  lamb in ¦", "shoulder in oven", "oven");
    assert_active("phase x is cook\n  lamb ¦", "shoulder in oven", "");
}

#[test]
fn those_come_first_that_belong_in_the_block() {
    assert_active("food x is milk\n  starts at ¦", "starts at 4 °C", "4 °C");
    assert_active("phase x is cook\n  starts at ¦", "starts at 08:00", "08:00");
    assert_active("serve x\n  at ¦", "at 18:30", "18:30");
}

#[test]
fn every_form_of_the_word_is_listed_with_what_it_says() {
    let help = help("phase x is cook\n  for ¦").expect("help");
    let forms: Vec<&str> = help.forms.iter().map(|form| form.text.as_str()).collect();
    assert_eq!(
        forms,
        ["for 5 h", "for 8 h to 14 h", "for up to 1 h", "for at least 10 h", "for vulnerable guests"]
    );
    assert!(help.forms.iter().all(|form| !form.means.is_empty()));
}

#[test]
fn what_reads_as_no_form_marks_nothing() {
    let help = help("phase x is cook\n  takes long ¦").expect("help");
    assert_eq!((help.active, help.slot), (None, None));
}

#[test]
fn there_is_none_where_nothing_has_begun() {
    for marked in ["¦", "phase x is cook\n  ¦", "phase x is cook\n  tak¦", "phase x is cook // takes ¦"] {
        let help = help(marked);
        assert!(help.is_none(), "{marked}: {help:?}");
    }
}
