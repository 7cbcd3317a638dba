//! Descriptions: what follows an amount or `is`, up to the comma.

use crate::common::texts::{clean, ingredient, lamb, remedy, roast, said, says, with_stock};
use dwell::cook::{Allergen, Cook, Origin, Stock};

fn stock(cook: &Cook) -> &Stock {
    match &cook.items[0].origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => stock,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_description_runs_to_the_comma_and_holds_any_word() {
    let cook = clean(&ingredient("70 g coarse sea salt (grey), from \"dry store\""));
    assert_eq!(stock(&cook).description, "coarse sea salt (grey)");
    assert_eq!(stock(&cook).supplier.as_ref().map(|name| name.value.as_str()), Some("dry store"));
    for words in [
        "salt & vinegar mix",
        "flour 00",
        "tomatoes in their juice",
        "rub for the lamb",
        "half-fat cheese",
        "best of both",
        "water from the well",
    ] {
        assert_eq!(stock(&clean(&ingredient(&format!("70 g {words}")))).description, words);
    }
}

#[test]
fn a_comma_of_its_own_goes_in_quotes() {
    let cook = clean(&ingredient("2 onions \"quartered, roots on\""));
    assert_eq!(stock(&cook).description, "onions, quartered, roots on");
    let cook = clean(&ingredient("60 g \"butter, soft\", contains milk"));
    assert_eq!(stock(&cook).description, "butter, soft");
    assert_eq!(stock(&cook).contains[0].value, Allergen::Milk);
}

#[test]
fn an_end_that_could_be_a_clause_of_its_block_is_an_error_that_offers_the_comma() {
    for (line, offered) in [
        ("60 g soft butter contains milk", "`ingredient thing is 60 g soft butter, contains milk`"),
        ("70 g sea salt from \"dry store\"", "`ingredient thing is 70 g sea salt, from \"dry store\"`"),
        ("70 g sea salt to taste", "`ingredient thing is 70 g sea salt, to taste`"),
        ("70 g sea salt on hand 500 g", "`ingredient thing is 70 g sea salt, on hand 500 g`"),
        ("70 g salt nitrite 6 %", "`ingredient thing is 70 g salt, nitrite 6 %`"),
        ("70 g salt same for any number", "`ingredient thing is 70 g salt, same for any number`"),
    ] {
        let text = ingredient(line);
        let found = said(&text);
        assert_eq!(found.len(), 1, "{line}: {found:?}");
        assert_eq!(found[0].0, "comma-missing", "{line}: {found:?}");
        assert!(remedy(&text).contains(offered), "{line}: {}", remedy(&text));
    }
    for text in [
        lamb("  2 kg").replace("lamb leg", "lamb leg frozen"),
        lamb("  2 kg").replace("lamb leg", "lamb leg from \"butcher\""),
        lamb("  2 kg").replace("lamb leg", "lamb leg starts at 4 °C"),
        lamb("  2 kg").replace("is oven", "is oven air 50 °C to 250 °C"),
        lamb("  2 kg").replace("is oven", "is oven vented"),
        roast("  lamb in oven\n  air 140 °C\n  becomes dinner is lamb leg covered\n  for 2 h"),
    ] {
        assert_eq!(said(&text).first().map(|(code, _)| code.as_str()), Some("comma-missing"), "{text}");
    }
    // A clause of another block is no clause here.
    clean(&ingredient("50 g spice for 4 h"));
    clean(&ingredient("50 g spice air 4 °C"));
}

#[test]
fn a_piece_that_is_only_a_name_spoils_its_whole_line() {
    let text = ingredient("2 onions, quartered");
    let found = said(&text);
    assert_eq!(found, [("name-alone".to_string(), "quartered".to_string())]);
    assert!(remedy(&text).contains("`and`") && remedy(&text).contains("quotes"));
    for piece in ["pepper", "salt", "oil", "bay", "corn", "mint", "rind", "ghee"] {
        let text = with_stock(
            "ingredient thing is 4 g thing",
            &format!("  lamb in oven\n  air 140 °C\n  for 2 h\n  use all thing, {piece}"),
        );
        let found = said(&text);
        assert_eq!(found, [("name-alone".to_string(), piece.to_string())]);
        let cook = crate::common::cook(&text).1.expect("a cook");
        assert!(cook.phases[0].uses.is_empty(), "no piece of the line takes effect");
    }
}

#[test]
fn a_slip_in_a_clause_word_after_a_comma_is_still_seen() {
    let text = roast("  lamb in oven, coverd\n  air 140 °C\n  for 2 h");
    says(&text, &[("line-unreadable", "coverd")]);
    assert!(remedy(&text).contains("`covered`"));
}
