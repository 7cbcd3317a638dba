//! A cook for another number of people.

mod common;

use dwell::cook::{Amount, Cook, Lasts, Origin, Stock};
use dwell::findings::Severity;
use dwell::ledger::{balance, scale, spread_each};

fn cook(text: &str) -> Cook {
    let (_, cook, findings) = common::cook(text);
    assert!(findings.is_empty(), "{findings:#?}");
    cook.expect("a cook")
}

fn shoulder() -> Cook {
    let all = common::examples();
    let mut files: Vec<(&str, &str)> =
        all.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    files.sort_by_key(|(name, _)| *name != "overnight-shoulder.dwell");
    match common::resolve_files(&files).1 {
        Some(dwell::cook::Document::Cook(cook)) => *cook,
        _ => panic!("the example is a cook"),
    }
}

fn stock<'c>(cook: &'c Cook, name: &str) -> &'c Stock {
    match &cook.items.iter().find(|item| item.name == name).expect("the item").origin {
        Origin::Food(stock) | Origin::Ingredient(stock) => stock,
        _ => panic!("{name} is not bought"),
    }
}

fn bought(cook: &Cook, name: &str) -> String {
    stock(cook, name).amount.as_ref().expect("an amount").value.show()
}

fn scaled(text: &str, people: u32) -> (Cook, Vec<&'static str>) {
    let mut cook = cook(text);
    let findings = scale(&mut cook, people);
    let after = balance(&cook).1;
    assert!(after.iter().all(|finding| finding.severity != Severity::Error), "{after:#?}");
    (cook, findings.iter().map(|finding| finding.code.name()).collect())
}

const BENCH: &str = "cook \"Test\"\n serves 4\n kit bench is bench\n kit pan is hob\n";

#[test]
fn the_shoulder_for_forty() {
    // 40 / 16 = 2.5, by hand.
    let mut cook = shoulder();
    let times = |cook: &Cook| cook.phases.iter().map(|phase| phase.lasts).collect::<Vec<Lasts>>();
    let before = times(&cook);
    scale(&mut cook, 40);
    let pieces = stock(&cook, "shoulder").shape.pieces.as_ref().expect("pieces");
    assert_eq!((pieces.count, pieces.each.show()), (5.0, "3.2 kg".into()));
    assert_eq!(stock(&cook, "shoulder").shape.thickness.expect("a thickness").value.metres(), 0.11);
    let all =
        [("shoulder", "16 kg"), ("salt", "175 g"), ("pepper", "100 g"), ("beech", "625 g"), ("paper", "5 m")];
    for (name, amount) in all {
        assert_eq!(bought(&cook, name), amount, "{name}");
    }
    let phase = |name: &str| cook.phases.iter().find(|phase| phase.name == name).expect("the phase");
    assert_eq!(phase("smoke").collects[0].amount.show(), "625 ml");
    assert_eq!(phase("wrap").lie_in.as_ref().expect("water").amount.show(), "300 ml");
    let trays = phase("pull").shape.pieces.as_ref().expect("trays");
    assert_eq!((trays.count, trays.each.show()), (5.0, "1.8 kg".into()));
    assert_eq!(phase("pull").shape.depth.expect("a depth").value.metres(), 0.05);
    // Times stay.
    assert_eq!(times(&cook), before);
}

#[test]
fn back_and_forth_is_where_it_was() {
    let mut cook = shoulder();
    let (before, _) = balance(&cook);
    scale(&mut cook, 40);
    scale(&mut cook, 16);
    let (after, _) = balance(&cook);
    for (a, b) in before.items.iter().zip(&after.items) {
        let (a, b) =
            (a.came.amount().map(|amount| amount.show()), b.came.amount().map(|amount| amount.show()));
        assert_eq!(a, b);
    }
}

#[test]
fn pieces_go_up_to_whole_ones_and_what_is_made_of_them_follows() {
    let text = format!(
        "{BENCH} food meat is beef mince, 2 pieces of 3 kg\n ingredient salt is 40 g salt\n\
         phase divide is prep\n meat on bench, use all salt\n 4 trays of 1.5 kg, depth 5 cm, for 5 min, unattended\n serve meat, at 18:30\n"
    );
    // For 5 there would be 2.5 pieces: 3 are bought, half as much again.
    let (cook, _) = scaled(&text, 5);
    assert_eq!(stock(&cook, "meat").shape.pieces.as_ref().map(|pieces| pieces.count), Some(3.0));
    assert_eq!(bought(&cook, "meat"), "9 kg");
    assert_eq!(bought(&cook, "salt"), "50 g");
    let trays = cook.phases[0].shape.pieces.as_ref().expect("trays");
    assert_eq!((trays.count, trays.each.show()), (6.0, "1.5 kg".into()));
    // For 3, 1.5 pieces: 2 are bought, as now.
    assert_eq!(bought(&scaled(&text, 3).0, "meat"), "6 kg");
}

#[test]
fn more_trays_hold_a_little_less_each() {
    let text = format!(
        "{BENCH} food meat is beef mince, 6 kg\n\
         phase divide is prep\n meat on bench, 4 trays of 1.5 kg, depth 5 cm, for 5 min, unattended\n serve meat, at 18:30\n"
    );
    let trays = |people| {
        let (cook, _) = scaled(&text, people);
        let pieces = cook.phases[0].shape.pieces.clone().expect("trays");
        let Amount::Mass(each) = pieces.each else { panic!("a mass") };
        (pieces.count, (each.kg() * 1000.0).round())
    };
    assert_eq!(trays(5), (5.0, 1500.0));
    assert_eq!(trays(8), (8.0, 1500.0));
    assert_eq!(trays(1), (1.0, 1500.0));
    // 30 / 16 of 4 trays are 7.5 trays, so 8; 30 / 16 of 6 kg are 11.25 kg, 1.406 kg in each.
    let text = text.replace("serves 4", "serves 16");
    let (cook, _) = scaled(&text, 30);
    let pieces = cook.phases[0].shape.pieces.as_ref().expect("trays");
    assert_eq!((pieces.count, pieces.each.show()), (8.0, "1.41 kg".into()));
}

#[test]
fn counts_drawn_in_parts_never_come_to_more_than_is_bought() {
    let text = format!(
        "{BENCH} food meat is beef mince, 6 kg\n ingredient eggs is 3 eggs\n\
         phase one is prep\n meat on bench, use 1 egg, for 5 min, unattended\n\
         phase two is prep\n meat on bench, use 1 egg, for 5 min, unattended\n\
         phase three is prep\n meat on bench, use 1 egg, for 5 min, unattended\n serve meat, at 18:30\n"
    );
    for people in 1..30 {
        let (cook, _) = scaled(&text, people);
        let needed = (f64::from(people) * 0.75).ceil();
        let Some(Amount::Count { number, .. }) =
            stock(&cook, "eggs").amount.as_ref().map(|amount| &amount.value)
        else {
            panic!("a count")
        };
        assert_eq!(*number, needed, "for {people}");
    }
}

#[test]
fn what_is_the_same_for_any_number_stays() {
    let text = format!(
        "{BENCH} food meat is beef mince, 6 kg\n ingredient salt is 40 g salt, same for any number\n\
         ingredient pepper is pepper, to taste\n ingredient oil is 100 ml oil, on hand 50 ml\n\
         phase one is prep\n meat on bench, use 40 g of salt, use all pepper and oil, for 5 min, unattended\n\
         serve meat, at 18:30\n"
    );
    let (cook, findings) = scaled(&text, 8);
    assert!(findings.is_empty());
    assert_eq!(bought(&cook, "salt"), "40 g");
    assert_eq!(bought(&cook, "oil"), "200 ml");
    assert_eq!(stock(&cook, "oil").on_hand.as_ref().map(|amount| amount.value.show()), Some("50 ml".into()));
    assert_eq!(stock(&cook, "pepper").amount, None);
}

#[test]
fn a_pot_more_than_twice_as_deep_is_reported() {
    let text = format!(
        "{BENCH} food meat is beef mince, 6 kg\n\
         phase one is prep\n meat on bench, becomes mix, depth 6 cm, for 5 min, unattended\n serve mix, at 18:30\n"
    );
    assert!(scaled(&text, 8).1.is_empty());
    let (cook, findings) = scaled(&text, 9);
    assert_eq!(findings, ["pot-too-deep"]);
    assert!((cook.phases[0].shape.depth.expect("a depth").value.metres() - 0.135).abs() < 1e-9);
}

#[test]
fn times_given_for_each_grow_and_others_get_a_note() {
    let text = |takes: &str| {
        format!(
            "{BENCH} food meat is beef mince, 6 pieces of 1 kg\n\
             phase one is prep\n meat on bench, takes {takes}\n serve meat, at 18:30\n"
        )
    };
    let (mut each, findings) = scaled(&text("3 min to 5 min each"), 8);
    assert!(findings.is_empty());
    spread_each(&mut each);
    let Lasts::Nature { low, high, .. } = each.phases[0].lasts else { panic!("nature's") };
    // Twelve pieces, by hand.
    assert_eq!((low.minutes(), high.minutes()), (36.0, 60.0));
    assert_eq!(scaled(&text("20 min to 30 min"), 8).1, ["hands-not-scaled"]);
    assert!(scaled(&text("20 min to 30 min, unattended"), 8).1.is_empty());
    assert!(scaled(&text("20 min to 30 min"), 2).1.is_empty(), "fewer are no trouble");
}

#[test]
fn a_cook_that_does_not_say_how_many_cannot_be_scaled() {
    let text = "cook \"Test\"\n kit bench is bench\n food meat is beef mince, 6 kg\n\
         phase one is prep\n meat on bench, for 5 min\n serve meat, at 18:30\n";
    let (cook, findings) = scaled(text, 8);
    assert_eq!(findings, ["serves-missing"]);
    assert_eq!(bought(&cook, "meat"), "6 kg");
}
