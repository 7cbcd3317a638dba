//! Lines, commas, quotes and comments; and how far the harm of a bad line reaches.

use crate::common::texts::{clean, named, phase, remedy, roast, said, says, with_stock};
use crate::common::{cook, resolve_files};

const ROAST: &str = "  lamb in oven\n  air 140 °C\n  for 2 h";

#[test]
fn a_comma_does_the_same_as_a_new_line() {
    let lines = clean(&roast(ROAST));
    let commas = clean(&roast("  lamb in oven, air 140 °C, for 2 h"));
    assert_eq!(commas.phases[0].lasts, lines.phases[0].lasts);
    assert_eq!(commas.phases[0].placings.len(), 1);
    let head = clean(
        &roast("  lamb in oven")
            .replace("is cook\n  lamb in oven", "is cook, lamb in oven, air 140 °C, for 2 h"),
    );
    assert_eq!(head.phases[0].lasts, lines.phases[0].lasts);
}

#[test]
fn indentation_blank_lines_and_line_ends_mean_nothing() {
    let text = roast(ROAST);
    let plain = clean(&text);
    for other in [
        text.replace("\n  ", "\n"),
        text.replace('\n', "\r\n"),
        text.replace('\n', "\r"),
        text.replace('\n', "\n\n\t\n"),
        format!("\u{feff}{text}"),
        text.replace("\n  ", "\n\u{a0}\u{3000}\t"),
        text.trim_end().to_string(),
    ] {
        let cook = clean(&other);
        assert_eq!(cook.phases.len(), plain.phases.len());
        assert_eq!(cook.phases[0].lasts, plain.phases[0].lasts);
    }
}

#[test]
fn keywords_and_units_in_any_letter_case() {
    let text = "COOK \"x\"\nKit oven IS Fan Oven\nFOOD lamb Is Lamb Leg\n  2 KG\nPhase roast is Cook\n  lamb IN oven\n  AIR 140 °c\n  For 2 H\nSERVE lamb\n  AT 19:00\n";
    clean(text);
}

#[test]
fn comments_stand_anywhere_and_are_never_part_of_a_line() {
    let text = roast(
        "  // lamb in fridge\n  lamb in oven // not the small one, it is broken\n  air 140 °C//hot\n  for 2 h",
    );
    clean(&text);
    clean(&format!("// first\n{text}\n// last, 1,5\n"));
    let quoted = phase(&format!("{ROAST}\n  note \"see //shelf 3\" // and this is one"));
    assert_eq!(quoted.notes[0].value, "see //shelf 3");
}

#[test]
fn texts_in_straight_or_curly_quotes() {
    for typed in ["\"Look.\"", "“Look.”", "„Look.”", "„Look.“", "”Look.”", "“Look.“"] {
        let phase = phase(&format!("{ROAST}\n  do {typed}"));
        assert_eq!(phase.jobs[0].text.value, "Look.", "{typed}");
    }
    let inside = phase(&format!("{ROAST}\n  do “Say \"now\".”"));
    assert_eq!(inside.jobs[0].text.value, "Say \"now\".");
    let nothing_checked = phase(&format!("{ROAST}\n  do \"1,5 h, serve lamb, 200 degrees // all of it\""));
    assert_eq!(nothing_checked.jobs.len(), 1);
}

#[test]
fn a_quote_closes_on_its_line() {
    says(&roast(&format!("{ROAST}\n  do \"Look")), &[("quote-unclosed", "\"Look")]);
    says(&roast(&format!("{ROAST}\n  do “Look\n  note \"x\"")), &[("quote-unclosed", "“Look")]);
}

#[test]
fn every_bad_line_is_reported_and_the_lines_around_it_count() {
    let text = roast("  lamb in oven\n  are 140 °C\n  air 140 °C\n  basting always\n  for 2 h");
    says(&text, &[("line-unreadable", "are 140 °C"), ("line-unreadable", "basting always")]);
    let (_, cook, _) = cook(&text);
    assert!(cook.expect("a cook").phases[0].setting.is_some());
}

#[test]
fn a_word_that_is_nearly_one_gets_the_nearest() {
    for (typed, meant) in [
        ("untill core 60 °C", "`until core 60 °C`"),
        ("hands on", "`hands-on`"),
        ("tkaes 1 h to 2 h", "`takes 1 h to 2 h`"),
    ] {
        let text = roast(&format!("  lamb in oven\n  air 140 °C\n  {typed}"));
        assert!(remedy(&text).contains(meant), "{typed}: {}", remedy(&text));
    }
}

#[test]
fn a_block_opens_only_at_the_start_of_a_line() {
    let found = said(&roast(&format!("{ROAST}, serve lamb")));
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0], ("line-unreadable".into(), "serve lamb".into()));
}

#[test]
fn cook_opens_a_block_only_before_a_quote() {
    // `cook` in the middle of a block is a slip in that block, not the end of it.
    let text = roast("  lamb in oven\n  cook slowly\n  air 140 °C\n  for 2 h");
    says(&text, &[("line-unreadable", "cook slowly")]);
    assert!(cook(&text).1.expect("a cook").phases[0].setting.is_some());
    clean(&roast(ROAST).replace("phase roast is cook", "phase cook"));
    clean(&roast(ROAST).replace("cook \"Leg", "cook“Leg").replace("lamb\"\n", "lamb”\n"));
}

#[test]
fn a_block_word_always_ends_the_block_before_it() {
    for bad in [
        "food in oven",
        "serve in oven",
        "crew and lamb in oven",
        "dish on bench",
        "kit is",
        "phase",
        "menu in oven",
    ] {
        let text = roast(&format!("{ROAST}\n{bad}\n  note \"below\""));
        let found = said(&text);
        assert_eq!(found, [("block-unreadable".to_string(), bad.to_string())], "{bad}");
        assert!(named(&cook(&text).1.expect("a cook"), "roast").notes.is_empty(), "{bad}");
    }
}

#[test]
fn below_a_bad_head_lines_have_no_effect_in_any_block() {
    let text = with_stock("kit bnech\n  air 20 °C\n  vented\n  holds", ROAST);
    let found = said(&text);
    // The head, and the form of the lines below it; nothing lands in the block above.
    assert_eq!(
        found,
        [("block-unreadable".into(), "kit bnech".into()), ("line-unreadable".into(), "holds".into())]
            as [(String, String); 2]
    );
    let cook = cook(&text).1.expect("a cook");
    assert!(cook.kit.iter().all(|kit| kit.name.value != "probe" || (!kit.vented && kit.ranges.is_empty())));
}

#[test]
fn what_only_follows_from_a_bad_line_is_not_said() {
    // The name that a bad head would have declared.
    says(
        &with_stock("food beef beef brisket\n  2 kg", "  beef in oven\n  air 140 °C\n  for 2 h")
            .replace("food lamb is lamb leg\n  2.4 kg\n  thickness 9 cm\n  starts at 5 °C\n", "")
            .replace("serve lamb", "serve beef"),
        &[("block-unreadable", "food beef beef brisket")],
    );
    // Also in the plural.
    says(
        &with_stock(
            "ingredient onion is 2,5 kg of them",
            "  lamb in oven\n  air 140 °C\n  use all onions\n  for 2 h",
        ),
        &[("decimal-comma", "2,5")],
    );
    // The end that a bad line would have said.
    says(&roast("  lamb in oven\n  air 140 °C\n  for 2,5 h"), &[("decimal-comma", "2,5")]);
    // The place.
    says(
        &roast("  lamb in the big oven\n  air 140 °C\n  for 2 h"),
        &[("line-unreadable", "lamb in the big oven")],
    );
    // The amount.
    says(&crate::common::texts::lamb("  2,4 kg"), &[("decimal-comma", "2,4")]);
    // What a bad line would have used.
    says(
        &with_stock("ingredient salt is 4 g salt", &format!("{ROAST}\n  use the salt now")),
        &[("line-unreadable", "use the salt now")],
    );
    // What a bad line would have made.
    says(
        &roast("  lamb in oven\n  air 140 °C\n  becomes dinner at last\n  for 2 h")
            .replace("serve lamb", "serve dinner"),
        &[("line-unreadable", "becomes dinner at last")],
    );
    // A serving that could not be read.
    says(&roast(ROAST).replace("serve lamb", "serve up lamb"), &[("block-unreadable", "serve up lamb")]);
}

#[test]
fn what_only_follows_from_a_bad_figure_is_not_said() {
    says(&roast("  lamb in oven\n  air 140 °C\n  for 2 hourss"), &[("unit-unknown", "2 hourss")]);
    says(&crate::common::texts::lamb("  2 lumps"), &[("unit-mismatch", "2 lumps")]);
    says(&crate::common::texts::lamb("  2 pieces of 3 cm"), &[("unit-mismatch", "3 cm")]);
    says(&crate::common::texts::ingredient("0 g salt"), &[("figure-impossible", "0 g")]);
}

#[test]
fn what_only_follows_from_a_missing_file_is_not_said() {
    let text = "cook \"x\"\nkit from \"kitchen.dwell\"\nfood lamb is lamb leg\n  2 kg\nphase roast is cook\n  lamb in oven\n  air 140 °C\n  for 2 h\nserve lamb\n  at 19:00\n";
    says(text, &[("file-missing", "kitchen.dwell")]);
    let (_, _, findings) = resolve_files(&[("a.dwell", text), ("kitchen.dwell", "kit oven is ovn\n")]);
    assert_eq!(findings.iter().map(|f| f.code.name()).collect::<Vec<_>>(), ["kit-class-unknown"]);
}

#[test]
fn two_facts_without_a_comma_are_refused() {
    for line in ["air 140 °C for 2 h", "lamb in oven air 140 °C", "for 2 h use all salt"] {
        let found = said(&roast(&format!("  {line}")));
        assert_eq!(found.len(), 1, "{line}: {found:?}");
        assert_eq!(found[0].0, "line-unreadable", "{line}");
    }
    assert!(remedy(&roast("  air 140 °C for 2 h")).contains("`air 140 °C, for 2 h`"));
}

#[test]
fn a_line_before_any_block_says_nothing() {
    says("air 3 °C\ncook \"x\"\n", &[("line-outside-block", "air 3 °C")]);
}
