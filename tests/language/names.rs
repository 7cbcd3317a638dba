//! What a name may be, and how it is found again.

use crate::common::texts::{clean, item, named, said, says, with_stock};
use dwell::cook::Part;

/// A cook in which the one food, placed and served, has this name.
fn called(name: &str) -> String {
    format!(
        "cook \"x\"\nkit oven is oven\nfood {name} is lamb leg\n  2 kg\n\
         phase roast is cook\n  {name} in oven\n  air 140 °C\n  for 2 h\nserve {name}\n  at 19:00\n"
    )
}

#[test]
fn names_in_any_script() {
    for name in [
        "lamb",
        "pork-2",
        "L4mb",
        "muiceoil",
        "feoil-chaorach",
        "mairteoil-shaillte",
        "uaineoil",
        "Ím",
        "خروف",
        "لحم-الضأن",
        "טלה",
        "แกะ",
        "เนื้อแกะ",
        "मेमना",
        "भेड़-का-मांस",
        "羊肉",
        "баранина",
        "αρνί",
        "क्‍ष",
    ] {
        let cook = clean(&called(name));
        assert_eq!(cook.items[0].name, name);
    }
}

#[test]
fn right_to_left_names_with_their_marks() {
    // Marks of direction that an editor leaves around a name are blanks.
    let text = called("טלה")
        .replace("  טלה in", "  \u{200f}טלה\u{200e} in")
        .replace("serve טלה", "serve \u{2067}טלה\u{2069}");
    clean(&text);
}

#[test]
fn marks_that_take_no_room_do_not_make_another_name() {
    // A zero-width space, a joiner, a byte order mark, a soft hyphen pasted from a page.
    for mark in ["\u{200b}", "\u{feff}", "\u{2060}", "\u{200d}", "\u{200c}", "\u{ad}", "\u{fe0f}"] {
        let text = called("lamb").replace("  lamb in", &format!("  lamb{mark} in"));
        assert_eq!(said(&text), [], "{mark:?}");
    }
}

#[test]
fn one_letter_written_in_two_ways_is_one_name() {
    // The same letter composed and decomposed (Unicode Standard Annex 15).
    let text = called("bé").replace("serve bé", "serve be\u{301}");
    clean(&text);
    let text = called("im")
        .replace("food im", "food ÍM")
        .replace("im in", "ím in")
        .replace("serve im", "serve I\u{301}m");
    clean(&text);
}

#[test]
fn names_ignore_case() {
    let text = called("Lamb").replace("serve Lamb", "serve LAMB").replace("  Lamb in", "  lamb in");
    clean(&text);
    let text = called("ÉIRE").replace("serve ÉIRE", "serve éire");
    clean(&text);
}

#[test]
fn names_may_differ_by_a_final_s_where_one_fits() {
    let eggs =
        with_stock("ingredient eggs is 6 eggs", "  lamb in oven\n  air 140 °C\n  use 1 egg\n  for 2 h");
    let cook = clean(&eggs);
    assert_eq!(cook.phases[0].uses[0].item, item(&cook, "eggs"));
    let bun =
        with_stock("ingredient bun is 65 buns", "  lamb in oven\n  air 140 °C\n  use 65 buns\n  for 2 h");
    assert_eq!(clean(&bun).phases[0].uses.len(), 1);
    // An exact name goes first.
    let both = with_stock(
        "ingredient egg is 1 goose egg\ningredient eggs is 6 hen eggs",
        "  lamb in oven\n  air 140 °C\n  use all egg\n  use all eggs\n  for 2 h",
    );
    let cook = clean(&both);
    assert_ne!(cook.phases[0].uses[0].item, cook.phases[0].uses[1].item);
    clean(&called("lamb").replace("in oven", "in ovens"));
    says(
        &with_stock("ingredient bus is 1 g x", "  lamb in oven\n  air 140 °C\n  use all b\n  for 2 h")
            .replace("ingredient bus is 1 g x", ""),
        &[("name-unknown", "b")],
    );
}

#[test]
fn kit_stock_and_phases_are_three_name_spaces() {
    let text = called("oven").replace("phase roast", "phase oven");
    let cook = clean(&text);
    assert_eq!((cook.items[0].name.as_str(), cook.kit[0].name.value.as_str()), ("oven", "oven"));
    assert_eq!(cook.phases[0].name, "oven");
}

#[test]
fn food_and_ingredients_are_one_name_space() {
    let text = with_stock("ingredient lamb is 2 g lamb fat", "  lamb in oven\n  air 140 °C\n  for 2 h");
    let found = said(&text);
    assert_eq!(found[0], ("name-taken".to_string(), "lamb".to_string()), "{found:?}");
    assert_eq!(found.len(), 1, "{found:?}");
}

#[test]
fn words_that_are_never_a_name() {
    for word in [
        "kit",
        "food",
        "ingredient",
        "phase",
        "serve",
        "crew",
        "menu",
        "dish",
        "dwell",
        "covered",
        "uncovered",
        "frozen",
        "cooked",
        "wrapped",
        "sealed",
        "bagged",
        "g",
        "cup",
        "min",
        "tsp",
        "litres",
    ] {
        let text = with_stock(
            &format!("ingredient {word} is 4 g of it"),
            &format!("  lamb in oven\n  air 140 °C\n  use 4 g of {word}\n  for 2 h"),
        );
        let found = said(&text);
        assert_eq!(found.first().map(|(code, _)| code.as_str()), Some("name-reserved"), "{word}: {found:?}");
        assert_eq!(found.len(), 1, "{word}: {found:?}");
    }
    for word in [
        "all", "and", "after", "at", "before", "by", "each", "for", "from", "half", "in", "is", "of", "on",
        "the", "to", "when", "with", "starts", "ends", "serving", "look",
    ] {
        let text =
            with_stock(&format!("ingredient {word} is 4 g of it"), "  lamb in oven\n  air 140 °C\n  for 2 h");
        let found = said(&text);
        assert_eq!(found.len(), 1, "{word}: {found:?}");
        assert!(["name-reserved", "block-unreadable"].contains(&found[0].0.as_str()), "{word}: {found:?}");
    }
}

#[test]
fn a_small_word_for_a_name_is_told_so() {
    let text = called("lamb").replace("phase roast", "phase after");
    says(&text, &[("block-unreadable", "phase after is cook")]);
    assert!(crate::common::texts::remedy(&text).contains("`phase my-after is cook`"));
    // That nothing cooks the lamb then only follows.
    let found = crate::common::texts::compiled(&text.replace("cook \"x\"", "cook \"x\"\n  rules uk"));
    assert_eq!(found.len(), 1, "{found:?}");
}

#[test]
fn any_other_clause_word_may_be_a_name() {
    for word in [
        "salt", "oil", "water", "air", "plate", "liquid", "core", "use", "note", "do", "fan", "smoke",
        "takes", "rules", "room", "weight", "depth", "by-catch",
    ] {
        let cook = clean(&called(word));
        assert_eq!(cook.phases[0].placings.len(), 1, "{word}");
        let cook = clean(&with_stock(
            &format!("ingredient {word} is 40 g of it"),
            &format!("  lamb in oven\n  air 140 °C\n  use all {word}\n  for 2 h"),
        ));
        assert_eq!(cook.phases[0].uses[0].part, Part::Whole, "{word}");
    }
}

#[test]
fn a_clause_word_that_heads_a_line_is_a_name_before_in_on_and() {
    let stock = "food salt is salmon\n  1 kg\nfood oil is lamb leg\n  1 kg";
    let cook = clean(&with_stock(stock, "  oil and salt and lamb in oven\n  air 140 °C\n  for 2 h"));
    let placed: Vec<_> =
        named(&cook, "roast").placings.iter().map(|p| cook.item(p.item).name.as_str()).collect();
    assert_eq!(placed, ["oil", "salt", "lamb"]);
    // Else it is the clause.
    let cook = clean(&with_stock("", "  lamb on hob\n  oil 150 °C\n  salt 2.5 %\n  for 2 h"));
    assert!(cook.phases[0].setting.is_some() && cook.phases[0].shape.salt.is_some());
}

#[test]
fn a_phase_named_after_a_purpose_has_it() {
    use dwell::cook::Purpose;
    for purpose in Purpose::WRITTEN {
        let name = purpose.words().replace(' ', "-");
        let text = called("lamb").replace("phase roast is cook", &format!("phase {name}"));
        assert_eq!(clean(&text).phases[0].purpose, purpose);
    }
}

#[test]
fn unknown_names_get_the_nearest() {
    let text = called("lamb").replace("serve lamb", "serve lmab");
    says(&text, &[("name-unknown", "lmab")]);
    assert!(crate::common::texts::remedy(&text).contains("`lamb`"));
}
