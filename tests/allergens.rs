//! Allergens from the stock to the plate, and the cautions that a cook calls for.
//!
//! The list of allergens: Regulation (EU) No 1169/2011, annex II. Which foods hold them, beyond the annex's examples: common
//! practice, no source.

mod common;

use dwell::cook::{Allergen, Cook};
use dwell::safety::allergens::served;
use dwell::safety::cautions::cautions;
use dwell::tables::allergens::named;
use dwell::tables::{Species, Tables};

const HEAD: &str = "cook \"Supper\"\n  serves 4\n  rules uk\nkit oven is oven\nkit bench is bench\nkit probe is probe thermometer\n\
                    kit cabinet is smoking cabinet\n";

fn cook(text: &str) -> Cook {
    let (_, cook, findings) = common::cook(&format!("{HEAD}{text}"));
    cook.unwrap_or_else(|| panic!("{findings:#?}"))
}

/// Each serving's food with its allergens and where they come from.
fn held(cook: &Cook) -> Vec<String> {
    let one = |served: &dwell::safety::allergens::Served| {
        let each = served.holds.iter().map(|(allergen, items)| {
            let names: Vec<&str> = items.iter().map(|item| cook.item(*item).name.as_str()).collect();
            format!(" {} from {}", allergen.word(), names.join("+"))
        });
        format!("{}:{}", cook.item(served.food).name, each.collect::<Vec<_>>().join(","))
    };
    served(cook).iter().map(one).collect()
}

#[test]
fn what_is_used_and_mixed_is_carried_to_the_plate() {
    let cook = cook(
        "food joint is beef topside\n  2 kg\n  thickness 8 cm\nfood mash is mashed potato\n  1 kg\n\
         ingredient rub is 50 g house rub, contains mustard\ningredient cubes is 100 g butter\n\
         phase season is prep\n  joint on bench\n  use all rub\n  takes 5 min to 10 min, hands-on\n\
         phase roast is cook\n  joint in oven\n  air 160 °C\n  until core 75 °C, takes 1 h to 2 h\n  collect 100 ml of juice\n\
         phase stir is prep\n  mash on bench\n  use all juice\n  use all cubes\n  becomes pie\n  takes 5 min to 10 min, hands-on\n\
         serve joint\n  at 18:30\nserve pie\n  at 18:30\n",
    );
    assert_eq!(held(&cook), ["joint: mustard from rub", "pie: milk from cubes, mustard from rub"]);
}

#[test]
fn the_half_without_it_is_served_without_it() {
    let cook = cook(
        "food potatoes is potato\n  2 kg\n  thickness 5 cm\ningredient cream is 200 g double cream\n\
         phase plain is prep\n  half of potatoes on bench\n  becomes baked\n  takes 5 min to 10 min, hands-on\n\
         phase rich is prep\n  the rest of potatoes on bench\n  use all cream\n  becomes gratin\n  takes 5 min to 10 min, hands-on\n\
         serve baked\n  at 18:30\nserve gratin\n  at 18:30\n",
    );
    assert_eq!(held(&cook), ["baked:", "gratin: milk from cream"]);
}

#[test]
fn a_name_tells_what_is_in_it_and_a_like_name_does_not() {
    use Allergen::*;
    for (name, holds) in [
        ("black treacle", vec![]),
        ("green pesto", vec![Milk, Nuts]),
        ("hummus", vec![Sesame]),
        ("satay sauce", vec![Peanuts]),
        ("Crème fraîche", vec![Milk]),
        ("panko", vec![Gluten]),
        ("crab sticks", vec![Crustaceans, Fish]),
        ("Dijon", vec![Mustard]),
        ("brioche", vec![Gluten, Egg, Milk]),
        ("Mustard powder", vec![Mustard]),
        ("celeriac", vec![Celery]),
        ("soy sauce", vec![Gluten, Soya]),
        ("peanut butter", vec![Peanuts]),
        ("walnuts", vec![Nuts]),
        ("Worcestershire sauce", vec![Gluten, Fish]),
        ("butternut squash", vec![]),
        ("nutmeg", vec![]),
        ("coconut milk", vec![]),
        ("butter beans", vec![]),
        ("oyster mushrooms", vec![]),
        ("oyster sauce", vec![Molluscs]),
        ("rice noodles", vec![]),
        ("egg noodles", vec![Gluten, Egg]),
        ("dried prawns", vec![Crustaceans]),
        ("octopus", vec![Molluscs]),
        ("couscous", vec![Gluten]),
    ] {
        assert_eq!(named(name, None), holds, "{name}");
    }
}

/// Of the foods of the table, none that comes of fish, egg or milk is without its allergen.
#[test]
fn no_fish_egg_or_dairy_of_the_table_is_without_its_allergen() {
    let mut seen = 0;
    for food in Tables::built_in().foods.kinds() {
        let expected = match food.species {
            Species::Fish => vec![Allergen::Fish],
            Species::Egg => vec![Allergen::Egg],
            Species::Dairy => vec![Allergen::Milk],
            Species::Shellfish => vec![Allergen::Crustaceans, Allergen::Molluscs],
            _ => continue,
        };
        seen += 1;
        let held = named(&food.name, Some(food.species));
        assert!(expected.iter().any(|one| held.contains(one)), "{}: {held:?}", food.name);
    }
    assert!(seen > 10, "{seen}");
}

#[test]
fn cautions_are_those_that_apply() {
    let ids =
        |text: &str| -> Vec<String> { cautions(&cook(text)).iter().map(|one| one.id.clone()).collect() };
    let roots = "food roots is carrot\n  1 kg\nphase roast is cook\n  roots in oven\n  air 180 °C\n  for 1 h\nserve roots\n  at 18:30\n";
    assert_eq!(ids(roots), ["probe", "law"]);
    let smoked = "food joint is pork shoulder\n  2 kg\n  thickness 8 cm\nphase smoke is cook\n  joint in cabinet\n  air 110 °C\n  \
                  until core 80 °C, takes 4 h to 9 h\nserve joint\n  at 18:30\n";
    assert_eq!(ids(smoked), ["probe", "law", "toxins", "smoke", "who-eats"]);
    let sealed = smoked.replace(
        "phase smoke is cook\n  joint in cabinet",
        "phase bag is cook\n  joint in oven\n  vacuum bagged",
    );
    assert_eq!(ids(&sealed), ["probe", "law", "toxins", "sealed", "who-eats"]);
}

/// No caution says that something is safe, and each names where it is from.
#[test]
fn every_caution_has_a_source_and_promises_nothing() {
    for caution in dwell::tables::cautions::all() {
        let text = caution.text.to_lowercase();
        assert!(!text.contains(" is safe") && !text.contains(" are safe"), "{}", caution.text);
        assert!(!caution.source.is_empty(), "{}", caution.id);
        assert!(["verified", "secondary", "memory"].contains(&caution.status.as_str()), "{}", caution.id);
    }
}
