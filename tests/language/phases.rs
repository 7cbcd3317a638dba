//! One test for each row of the table of phase clauses.

use crate::common::texts::{clean, item, named, phase, remedy, roast, said, says, with_stock};
use dwell::cook::{
    Amount, Call, Check, CoverKind, Day, Edge, Lasts, Moment, Order, OrderBound, Part, Room, Test,
};
use dwell::quantity::Duration;

const ROAST: &str = "  lamb in oven\n  air 140 °C\n  for 2 h";

/// The phase with one line more.
fn and(line: &str) -> dwell::cook::Phase {
    phase(&format!("{ROAST}\n  {line}"))
}

/// A second phase, `later`, before the serving.
fn then(lines: &str) -> String {
    roast(&format!("{ROAST}\nphase later is rest\n{lines}"))
}

#[test]
fn food_and_parts_of_it_are_placed() {
    let stock = "food ham is cooked ham\n  4 pieces of 1 kg";
    for (placing, parts) in [
        ("lamb and ham in oven", vec![Part::Whole, Part::Whole]),
        ("all the lamb and all of ham in the oven", vec![Part::Whole, Part::Whole]),
        ("half of ham in oven\n  becomes first", vec![Part::Fraction(0.5)]),
        ("half ham in oven\n  becomes first", vec![Part::Fraction(0.5)]),
        ("1/3 of ham in oven\n  becomes first", vec![Part::Fraction(1.0 / 3.0)]),
        ("40 % of ham in oven\n  becomes first", vec![Part::Fraction(0.4)]),
        ("the rest of ham in oven", vec![Part::Rest]),
        ("rest of ham and lamb in oven", vec![Part::Rest, Part::Whole]),
    ] {
        let text = with_stock(stock, &format!("  {placing}\n  air 140 °C\n  for 2 h"));
        let (_, cook, findings) = crate::common::cook(&text);
        assert!(findings.iter().all(|f| f.code.name() == "name-idle"), "{placing}: {:?}", said(&text));
        let found: Vec<Part> =
            cook.expect("a cook").phases[0].placings.iter().map(|p| p.part.clone()).collect();
        assert_eq!(found, parts, "{placing}");
    }
    let text = with_stock(stock, "  3 pieces of ham in oven\n  becomes first\n  air 140 °C\n  for 2 h");
    let cook = clean(&text);
    let expected = Part::Amount(Amount::Count { number: 3.0, word: "pieces".into() });
    assert_eq!(cook.phases[0].placings[0].part, expected);
}

#[test]
fn a_part_that_goes_its_own_way_needs_a_name() {
    let text = roast("  half of lamb in oven\n  air 140 °C\n  for 2 h");
    says(&text, &[("part-unnamed", "half of lamb")]);
    // The old name is what is left.
    let cook = clean(&roast(
        "  half of lamb in oven\n  becomes first\n  air 140 °C\n  for 2 h\nserve first\n  at 12:00",
    ));
    assert_eq!(cook.phases[2].placings[0].before, None);
}

#[test]
fn becomes_makes_one_food_from_the_start() {
    let cook = clean(
        &roast("  lamb in oven\n  becomes dinner is lamb leg\n  air 140 °C\n  for 2 h")
            .replace("serve lamb", "serve dinner"),
    );
    let made = cook.phases[0].becomes.expect("a new food").item;
    assert_eq!(cook.item(made).name, "dinner");
    assert!(cook.item(made).kind.is_some());
    let gone = roast("  lamb in oven\n  becomes dinner\n  air 140 °C\n  for 2 h");
    says(&gone, &[("food-eaten-up", "lamb")]);
    assert!(remedy(&gone).contains("`dinner`"));
}

#[test]
fn shape_and_state_hold_from_the_start_of_the_phase() {
    let phase = and("6 trays of 400 g, depth 6 cm\n  thickness 3 mm\n  injected");
    assert_eq!(phase.shape.pieces.as_ref().map(|p| (p.count, p.word.as_str())), Some((6.0, "trays")));
    assert_eq!(phase.shape.depth.map(|depth| depth.value.metres()), Some(0.06));
    assert_eq!(phase.shape.thickness.map(|thickness| thickness.value.metres()), Some(0.003));
    assert!(phase.shape.structure.is_some());
}

#[test]
fn settings_of_every_medium() {
    use dwell::cook::Medium;
    for (kit, line, medium) in [
        ("oven", "air 110 °C ± 5 °C", Medium::Air),
        ("water bath", "water 57 °C", Medium::Water),
        ("steam oven", "steam 95 °C", Medium::Steam),
        ("fryer", "oil 175 °C", Medium::Oil),
        ("griddle", "plate 250 °C", Medium::Plate),
        ("hob", "liquid 95 °C", Medium::Liquid),
    ] {
        let text = with_stock(&format!("kit one is {kit}"), &format!("  lamb in one\n  {line}\n  for 2 h"));
        assert_eq!(clean(&text).phases[0].setting.expect("a setting").medium, medium);
    }
    says(&roast(&format!("{ROAST}\n  air 150 °C")), &[("clause-twice", "air 150 °C")]);
}

#[test]
fn covers_and_what_the_food_lies_in() {
    for (line, kind) in [
        ("uncovered", CoverKind::Uncovered),
        ("covered", CoverKind::Covered),
        ("wrapped in foil", CoverKind::Wrapped),
        ("sealed in the foil", CoverKind::Sealed),
        ("bagged", CoverKind::Bagged),
        ("vacuum bagged", CoverKind::VacuumBagged),
    ] {
        assert_eq!(and(line).shape.covers[0].kind, kind, "{line}");
    }
    let both = and("wrapped in foil, sealed in foil").shape.covers;
    assert_eq!(both.len(), 2);
    assert_eq!(both[0].stuff.as_ref().map(|stuff| stuff.value.as_str()), Some("foil"));
    assert!(and("with 120 ml of water").lie_in.expect("a bath").item.is_none());
    let paper = with_stock("ingredient paper is 2 m butcher paper", &format!("{ROAST}\n  wrapped in paper"));
    clean(&paper);
    says(
        &paper.replace("wrapped in paper", "wrapped in papyrus, use all paper"),
        &[("name-unknown", "papyrus")],
    );
    let oil = with_stock("ingredient oil is 2 l rapeseed oil", &format!("{ROAST}\n  with 2 l of oil"));
    let cook = clean(&oil);
    assert_eq!(named(&cook, "roast").lie_in.as_ref().and_then(|bath| bath.item), Some(item(&cook, "oil")));
}

#[test]
fn moisture_and_fan_override_the_kit() {
    let phase = and("moisture 40 %, fan");
    assert_eq!(phase.moisture.map(|share| share.value.fraction()), Some(0.4));
    assert_eq!(phase.fan.map(|fan| fan.value), Some(true));
    assert_eq!(and("still").fan.map(|fan| fan.value), Some(false));
}

#[test]
fn smoke_draws_on_the_stock() {
    let stock = "kit hut is smoking cabinet\ningredient beech is 250 g beech chips";
    for (line, part) in [
        ("smoke from beech", Part::Whole),
        ("smoke from 150 g of beech", Part::Amount(Amount::Mass(dwell::quantity::Mass::from_kg(0.15)))),
    ] {
        let cook = clean(&with_stock(stock, &format!("  lamb in hut\n  air 110 °C\n  for 2 h\n  {line}")));
        let draw = cook.phases[0].smoke.as_ref().and_then(|smoke| smoke.draw.clone()).expect("a draw");
        assert_eq!(draw.part, part);
    }
}

#[test]
fn for_is_the_clock_or_your_choice() {
    let lasts = |line: &str| phase(&format!("  lamb in oven\n  air 140 °C\n  {line}")).lasts;
    let hours = Duration::from_hours;
    assert_eq!(lasts("for 5 h"), Lasts::Fixed(hours(5.0)));
    assert_eq!(lasts("for 8 h to 14 h"), Lasts::Chosen { low: hours(8.0), high: Some(hours(14.0)) });
    assert_eq!(lasts("for up to 1 h"), Lasts::Chosen { low: Duration::ZERO, high: Some(hours(1.0)) });
    assert_eq!(lasts("for at least 10 h"), Lasts::Chosen { low: hours(10.0), high: None });
    assert_eq!(lasts("takes 1 h to 2 h"), Lasts::Nature { low: hours(1.0), high: hours(2.0), each: false });
    assert_eq!(lasts("takes 1 h"), Lasts::Nature { low: hours(1.0), high: hours(1.0), each: false });
}

#[test]
fn until_waits_for_core_surface_ph_or_a_spoken_test() {
    let tests = |line: &str| -> Vec<Test> {
        let until = phase(&format!("  lamb in oven\n  air 140 °C\n  {line}")).until.expect("an end");
        until.tests.into_iter().map(|test| test.value).collect()
    };
    let degrees = dwell::quantity::Temperature::from_celsius;
    assert_eq!(tests("until core 84 °C"), [Test::Core(degrees(84.0))]);
    assert_eq!(tests("until surface 63 °C, takes 1 h to 2 h"), [Test::Surface(degrees(63.0))]);
    assert_eq!(tests("until pH 4.6, takes 10 h to 20 h"), [Test::Ph(4.6)]);
    let two = [Test::Core(degrees(90.0)), Test::Spoken("tender".into())];
    assert_eq!(tests("until core 90 °C and \"tender\", takes 1 h to 2 h"), two);
    assert_eq!(tests("until \"tender\" and core 90 °C and \"brown\"\n  takes 1 h to 2 h").len(), 3);
    // Without a range a figure is for the prediction to time, a spoken test for nobody.
    let open = phase("  lamb in oven\n  air 140 °C\n  until core 84 °C");
    assert_eq!(open.lasts, Lasts::Open);
    says(&roast("  lamb in oven\n  air 140 °C\n  until \"tender\""), &[("end-missing", "until \"tender\"")]);
}

#[test]
fn a_phase_has_one_end_and_needs_one() {
    says(&roast("  lamb in oven\n  air 140 °C"), &[("end-missing", "phase roast is cook")]);
    says(&roast(&format!("{ROAST}\n  until core 60 °C")), &[("clause-twice", "for 2 h")]);
    says(&roast(&format!("{ROAST}\n  for 3 h")), &[("clause-twice", "for 3 h")]);
    says(&roast(&format!("{ROAST}\n  takes 1 h to 2 h")), &[("clause-twice", "for 2 h")]);
}

#[test]
fn within_and_checkpoints() {
    assert_eq!(and("within 90 min").within.map(|limit| limit.value.minutes()), Some(90.0));
    let checks = and("expect core 60 °C to 72 °C\n  expect weight 80 % to 84 %\n  expect pH 4.4 to 4.6\n  expect surface 70 °C or above").checks;
    assert_eq!(checks.len(), 4);
    assert!(
        matches!(checks[0].value, Check::Core { low: Some(low), high: Some(high) } if low.celsius() == 60.0 && high.celsius() == 72.0)
    );
    assert!(
        matches!(checks[1].value, Check::Weight { low, high } if low.fraction() == 0.8 && high.fraction() == 0.84)
    );
    assert!(matches!(checks[2].value, Check::Ph { low: 4.4, high: 4.6 }));
    assert!(matches!(checks[3].value, Check::Surface { low: Some(_), high: None }));
    assert_eq!(and("salt 2.5 %").shape.salt.map(|share| share.value.fraction()), Some(0.025));
}

#[test]
fn a_figure_of_the_food_alone_gets_both_readings() {
    let text = roast("  lamb in oven\n  air 140 °C\n  core 60 °C");
    says(&text, &[("clause-out-of-place", "core 60 °C")]);
    assert!(remedy(&text).contains("`until core 60 °C`") && remedy(&text).contains("`expect core 60 °C`"));
}

#[test]
fn use_draws_on_stock() {
    let stock = "ingredient salt is 40 g salt\ningredient pepper is 9 g pepper\ningredient buns is 65 buns";
    let parts = |uses: &str| -> Vec<Part> {
        let text = with_stock(stock, &format!("{ROAST}\n  {uses}"));
        let (_, cook, findings) = crate::common::cook(&text);
        assert!(findings.iter().all(|f| f.code.name() == "name-idle"), "{uses}: {:?}", said(&text));
        cook.expect("a cook").phases[0].uses.iter().map(|draw| draw.part.clone()).collect()
    };
    let grams = |grams: f64| Part::Amount(Amount::Mass(dwell::quantity::Mass::from_kg(grams / 1000.0)));
    assert_eq!(parts("use all salt"), [Part::Whole]);
    assert_eq!(parts("use all of the salt"), [Part::Whole]);
    assert_eq!(parts("use all salt and pepper"), [Part::Whole, Part::Whole]);
    assert_eq!(parts("use half of salt and the rest of pepper"), [Part::Fraction(0.5), Part::Rest]);
    assert_eq!(parts("use 40 g of salt"), [grams(40.0)]);
    assert_eq!(parts("use 65 buns"), [Part::Amount(Amount::Count { number: 65.0, word: "buns".into() })]);
    assert_eq!(parts("use 10 g of salt and 5 g of pepper").len(), 2);
    assert_eq!(parts("use 1/4 of salt"), [Part::Fraction(0.25)]);
    let bare = with_stock("ingredient salt is 40 g salt", &format!("{ROAST}\n  use salt"));
    assert!(said(&bare).iter().any(|(code, at)| code == "unit-missing" && at == "salt"));
    assert!(remedy(&bare).contains("`use all salt`"));
}

#[test]
fn collect_makes_a_food_with_its_parent() {
    let text = with_stock(
        "",
        "  lamb in oven\n  air 140 °C\n  for 2 h\n  collect 250 ml of drippings is gravy from lamb\nphase warm is hot hold\n  drippings on hob\n  for 1 h",
    );
    let cook = clean(&text.replace("serve lamb", "serve lamb and drippings"));
    let collect = &cook.phases[0].collects[0];
    assert_eq!(collect.from, Some(item(&cook, "lamb")));
    assert!(cook.item(collect.item).kind.is_some());
    assert_eq!(cook.phases[1].placings[0].before, Some(dwell::cook::PhaseId(0)));
    says(&roast(&format!("{ROAST}\n  collect 250 ml of drippings")), &[("name-idle", "drippings")]);
}

#[test]
fn what_the_cook_does_and_when() {
    let jobs = and(
        "do \"Salt.\"\n  at end do \"Lift.\"\n  at core 60 °C do \"Turn.\"\n  every 45 min do \"Baste.\"",
    )
    .jobs;
    let calls: Vec<Call> = jobs.iter().map(|job| job.call).collect();
    let degrees = dwell::quantity::Temperature::from_celsius;
    let often = Duration::from_minutes(45.0);
    assert_eq!(calls, [Call::Start, Call::End, Call::AtCore(degrees(60.0)), Call::Every(often)]);
}

#[test]
fn who_must_be_there() {
    assert!(and("hands-on").hands.on.minutes().is_infinite());
    assert_eq!(and("hands-on 10 min").hands.on.minutes(), 10.0);
    assert_eq!(and("unattended").hands.on.minutes(), 0.0);
    assert_eq!(and("look in every 1 h").hands.look_in.map(|every| every.minutes()), Some(60.0));
    says(&roast(&format!("{ROAST}\n  hands-on\n  unattended")), &[("clause-twice", "unattended")]);
}

#[test]
fn order_clauses_of_every_form() {
    let order = |line: &str| -> Order {
        let cook = clean(&then(&format!("  lamb on bench\n  for up to 2 h\n  {line}")));
        named(&cook, "later").orders[0]
    };
    let roast = dwell::cook::PhaseId(0);
    let serving = Moment::Serving(dwell::cook::PhaseId(2));
    let minutes = Duration::from_minutes;
    assert_eq!(order("starts when roast ends").bound, OrderBound::When(Moment::Ends(roast)));
    assert_eq!(order("ends when serving").bound, OrderBound::When(serving));
    assert_eq!(order("starts after roast ends").bound, OrderBound::NoSooner(Moment::Ends(roast)));
    assert_eq!(order("starts after roast starts").edge, Edge::Start);
    assert_eq!(order("ends before serving").bound, OrderBound::NoLater(serving));
    let before = |at_least| OrderBound::Before { by: minutes(30.0), at_least, moment: serving };
    assert_eq!(order("ends 30 min before serving").bound, before(false));
    assert_eq!(order("ends at least 30 min before serving").bound, before(true));
    let after = |at_least| OrderBound::After { by: minutes(60.0), at_least, moment: Moment::Starts(roast) };
    assert_eq!(order("starts 1 h after roast starts").bound, after(false));
    assert_eq!(order("starts at least 1 h after roast starts").bound, after(true));
    for (line, expected) in [
        ("ends by 18:00", "by"),
        ("ends at 18:00", "at"),
        ("ends before 18:00", "by"),
        ("starts after Saturday 08:00", "after"),
        ("ends by 2026-12-12 18:00", "by"),
        ("starts when 08:00", "at"),
    ] {
        let found = match order(line).bound {
            OrderBound::NoLater(Moment::Clock(_)) => "by",
            OrderBound::NoSooner(Moment::Clock(_)) => "after",
            OrderBound::When(Moment::Clock(_)) => "at",
            other => panic!("{line}: {other:?}"),
        };
        assert_eq!(found, expected, "{line}");
    }
    let thursday = OrderBound::OnDay(Day::Weekday(chrono::Weekday::Thu));
    assert_eq!(order("starts on Thursday").bound, thursday);
    assert!(matches!(order("ends on 2026-12-12").bound, OrderBound::OnDay(Day::Date(_))));
    says(&then("  lamb on bench\n  for 2 h\n  starts when roats ends"), &[("name-unknown", "roats")]);
    says(&then("  lamb on bench\n  for 2 h\n  starts when later ends"), &[("food-unclear", "later")]);
}

#[test]
fn room_notes_and_what_is_allowed() {
    assert_eq!(and("fills 2 shelves").fills.map(|room| room.value), Some(Room::Shelves(2.0)));
    assert_eq!(and("fills 1 shelf").fills.map(|room| room.value), Some(Room::Shelves(1.0)));
    assert_eq!(and("note \"Hot.\"").notes[0].value, "Hot.");
    let cook = clean(&roast(&format!("{ROAST}\n  allow hold-too-cool because \"It is eaten at once.\"")));
    assert_eq!(cook.allows[0].because, "It is eaten at once.");
    says(&roast(&format!("{ROAST}\n  allow hold-too-cool")), &[("allow-unknown", "allow hold-too-cool")]);
    says(
        &roast(&format!("{ROAST}\n  allow hold-to-cool because \"x\"")),
        &[("allow-unknown", "hold-to-cool")],
    );
}
