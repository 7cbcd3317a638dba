//! Every rule of the fine print, by its number.

mod common;

use common::texts::{clean, compiled, item, lamb, named, phase, roast, says, with_stock};
use dwell::compile::{Options as Run, compile};
use dwell::cook::{
    Allergen, Amount, Capacity, Check, Cook, Document, Lasts, Medium, Moment, OrderBound, Origin, Part,
    PhaseId, Service,
};
use dwell::ledger::{Ledger, balance, scale, spread_each};
use dwell::quantity::Scale;
use dwell::timing::{OnTime, Options, Timeline, plan};

const ROAST: &str = "  lamb in oven\n  air 140 °C\n  for 2 h";

fn ledger(text: &str) -> (Cook, Ledger, Vec<&'static str>) {
    let cook = clean(text);
    let (ledger, findings) = balance(&cook);
    (cook, ledger, findings.iter().map(|finding| finding.code.name()).collect())
}

fn timeline(text: &str) -> (Timeline, Vec<&'static str>) {
    let (timeline, findings) = plan(&clean(text), &Options::default());
    (timeline, findings.iter().map(|finding| finding.code.name()).collect())
}

/// Codes of errors and warnings of the whole compiler.
fn codes(text: &str) -> Vec<String> {
    compiled(text).into_iter().map(|(code, _)| code).collect()
}

/// Mass in kg of the one food of a phase, as it starts and ends.
fn masses(text: &str, phase: usize) -> (f64, f64) {
    let (_, ledger, _) = ledger(text);
    let food = &ledger.phases[phase].foods[0];
    let kg = |weight: Option<dwell::ledger::Weight>| weight.expect("a weight").mass.kg();
    (kg(food.start), kg(food.end))
}

// ------------------------------------------------------------------------------------------- form

#[test]
fn fine_print_01_a_phase_from_stock_names_its_place_draws_and_becomes() {
    let stock = "ingredient flour is 40 g flour";
    let made = "phase gravy is cook\n  on hob\n  becomes gravy is gravy, depth 4 cm\n  use all flour, use 700 ml of water\n  takes 10 min to 15 min\nphase roast";
    let text =
        with_stock(stock, ROAST).replace("phase roast", made).replace("serve lamb", "serve lamb and gravy");
    let cook = clean(&text);
    assert!(cook.phases[0].placings.is_empty() && cook.phases[0].becomes.is_some());
    let found = common::texts::said(
        &text.replace("  becomes gravy is gravy, depth 4 cm\n", "").replace(" and gravy", ""),
    );
    assert_eq!(found, [("becomes-missing".to_string(), "phase gravy is cook".to_string())]);
}

#[test]
fn fine_print_01_an_ingredient_cannot_be_placed() {
    let text = with_stock("ingredient salt is 40 g salt", &ROAST.replace("lamb in", "lamb and salt in"));
    says(&text, &[("ingredient-placed", "salt")]);
}

#[test]
fn fine_print_01_several_foods_share_no_shape_and_no_collect() {
    let two = |line: &str| {
        with_stock(
            "food ham is cooked ham\n  1 kg",
            &format!("  lamb and ham in oven\n  air 140 °C\n  for 2 h\n  {line}"),
        )
    };
    clean(&two("until-then").replace("  until-then\n", ""));
    for line in ["thickness 3 cm", "depth 3 cm", "shape slab", "4 pieces of 500 g"] {
        says(&two(line), &[("food-unclear", line)]);
    }
    let collect = "collect 250 ml of juices";
    let used = |text: String| {
        text.replace("serve lamb", "phase warm is hot hold\n  juices on hob\n  for 1 h\nserve lamb")
    };
    says(&used(two(collect)), &[("food-unclear", collect)]);
    clean(&used(two(&format!("{collect} from ham"))));
}

#[test]
fn fine_print_01_water_ice_and_foil_need_no_stock_line() {
    for line in
        ["use 2 l of water", "use 3 kg of ice", "wrapped in foil", "with 2 l of water", "with 2 kg of ice"]
    {
        clean(&roast(&format!("{ROAST}\n  {line}")));
    }
    says(&roast(&format!("{ROAST}\n  use 2 l of wine")), &[("name-unknown", "wine")]);
}

#[test]
fn fine_print_02_salt_and_ph_are_checkpoints_in_a_phase() {
    let phase = phase(&format!("{ROAST}\n  salt 2.5 %\n  pH 4.6"));
    assert_eq!(phase.shape.salt.map(|salt| salt.value.fraction()), Some(0.025));
    assert_eq!(phase.shape.ph.map(|ph| ph.value), Some(4.6));
    for line in ["starts at 4 °C", "frozen", "cooked", "trim loss 8 %", "cooked yield 60 %", "contains milk"]
    {
        says(&roast(&format!("{ROAST}\n  {line}")), &[("clause-out-of-place", line)]);
    }
}

#[test]
fn fine_print_02_kit_takes_a_range_or_a_figure_for_any_setting_of_its_class() {
    let kit =
        |lines: &str| clean(&with_stock(&format!("kit one is hob\n{lines}"), ROAST)).kit.pop().expect("kit");
    let one = kit("  oil 100 °C to 190 °C\n  liquid 95 °C\n  holds 60 l\n  room 28 °C");
    let oil = one.ranges.iter().find(|range| range.medium == Medium::Oil).expect("oil");
    let liquid = one.ranges.iter().find(|range| range.medium == Medium::Liquid).expect("liquid");
    assert_eq!((oil.low.celsius(), oil.high.celsius()), (100.0, 190.0));
    assert_eq!(liquid.low, liquid.high);
    assert!(matches!(one.holds.map(|holds| holds.value), Some(Capacity::Volume(_))));
    assert_eq!(one.room.map(|room| room.celsius()), Some(28.0));
}

#[test]
fn fine_print_02_food_may_start_covered_frozen_or_as_a_volume() {
    let cook = clean(&lamb("  3 jars of 500 ml\n  starts at -18 °C\n  vacuum bagged"));
    let Origin::Food(stock) = &cook.items[0].origin else { panic!() };
    assert_eq!(stock.starts_at.map(|start| start.value.celsius()), Some(-18.0));
    assert_eq!(stock.shape.covers.len(), 1);
    assert!(matches!(stock.amount.as_ref().map(|a| &a.value), Some(Amount::Volume(_))));
}

#[test]
fn fine_print_02_a_serving_takes_a_cold_limit_a_day_and_parts() {
    let cook = clean(&roast(ROAST).replace(
        "serve lamb\n  at 19:00",
        "serve half of lamb\n  on Saturday at 19:30\n  core 8 °C or below",
    ));
    let serving = &cook.phases[1];
    assert_eq!(serving.placings[0].part, Part::Fraction(0.5));
    assert!(matches!(serving.checks[0].value, Check::Core { low: None, high: Some(_) }));
    assert!(matches!(&serving.service, Some(Service::At { at, .. }) if at.value.day.is_some()));
}

#[test]
fn fine_print_03_before_reads_as_by_and_serving_is_the_first_below() {
    let text = roast(ROAST).replace(
        "serve lamb",
        "serve half of lamb\n  at 12:00\nphase keep is rest\n  lamb on bench\n  ends before 18:00\n  ends 30 min before serving\n  for up to 9 h\nserve lamb",
    );
    let orders = named(&clean(&text), "keep").orders.clone();
    assert!(matches!(orders[0].bound, OrderBound::NoLater(Moment::Clock(_))));
    assert!(matches!(orders[1].bound, OrderBound::Before { moment: Moment::Serving(PhaseId(3)), .. }));
    let above = roast(ROAST).replace(
        "serve lamb\n  at 19:00",
        "serve lamb\n  at 19:00\nphase linger is rest\n  lamb on bench\n  for 1 h\n  starts after serving",
    );
    says(&above, &[("name-unknown", "starts after serving")]);
}

#[test]
fn fine_print_03_when_is_the_same_minute_give_or_take_the_moves() {
    let text = roast(ROAST).replace(
        "serve lamb",
        "phase rest\n  lamb on bench\n  starts when roast ends\n  for 1 h\nserve lamb",
    );
    assert_eq!(named(&clean(&text), "rest").orders[0].bound, OrderBound::When(Moment::Ends(PhaseId(0))));
    assert_eq!(timeline(&text).0.on_time, OnTime::Always);
}

#[test]
fn fine_print_04_what_food_lies_in_is_no_part_of_it() {
    let text = with_stock(
        "ingredient oil is 2 l rapeseed oil",
        &format!("{ROAST}\n  with 2 l of oil\n  collect 1.5 l of used-oil"),
    )
    .replace(
        "serve lamb",
        "phase pour is prep\n  lamb on bench\n  use all used-oil\n  for 5 min\nserve lamb",
    );
    let (cook, ledger, found) = ledger(&text);
    assert!(found.is_empty(), "{found:?}");
    assert!(ledger.items[item(&cook, "oil").0 as usize].left_share.abs() < 1e-9, "drawn from stock");
    let (start, end) = masses(&text, 0);
    assert!((start - 2.4).abs() < 1e-9 && (end - 2.4).abs() < 1e-9, "{start} {end}");
    // A new cover ends the lying in it: then there is no such oil to collect.
    let lifted = text.replace("  collect 1.5 l", "  collect 1 ml of fat\nphase lift is rest\n  lamb on bench\n  covered\n  for 5 min\n  collect 1.5 l").replace("use all used-oil", "use all used-oil and fat").replace("2.4 kg", "1.2 kg");
    assert!(self::ledger(&lifted).2.contains(&"stock-overdrawn"));
}

#[test]
fn fine_print_05_one_line_each_one_end_idle_kit_closed_allergens() {
    // `oven` is used; fridge, hob and bench are not, and nothing is said of it.
    clean(&roast(ROAST));
    says(&roast(ROAST).replace("at 19:00", "at 19:00 in Dublin"), &[("zone-unknown", "Dublin")]);
    says(&roast(&format!("{ROAST}\n  until core 60 °C")), &[("clause-twice", "for 2 h")]);
    for (_, word) in Allergen::ALL {
        clean(&common::texts::ingredient(&format!("4 g mix, contains {word} and milk")));
    }
    says(&common::texts::ingredient("4 g mix, contains garlic"), &[("allergen-unknown", "garlic")]);
    says(&common::texts::ingredient("4 g mix, contains milk, egg"), &[("name-alone", "egg")]);
}

// ---------------------------------------------------------------------------------------- meaning

#[test]
fn fine_print_06_use_passes_no_mass_unless_something_becomes() {
    let stock = "ingredient salt is 400 g salt";
    let rub = with_stock(stock, &format!("{ROAST}\n  use all salt"));
    assert!((masses(&rub, 0).1 - 2.4).abs() < 1e-9);
    let brine = with_stock(stock, &format!("{ROAST}\n  use all salt\n  becomes ham"))
        .replace("serve lamb", "serve ham");
    assert!((masses(&brine, 0).0 - 2.8).abs() < 1e-9);
}

#[test]
fn fine_print_06_use_passes_rawness_on() {
    let text = "cook \"x\"\n  serves 8\n  rules us-food-code\nkit oven is oven\nkit bench is bench\nkit probe is probe thermometer\n\
        food ham is cooked ham\n  2 kg, cooked\nfood mince is beef mince\n  1 kg\n\
        phase fill is prep\n  ham on bench\n  use all mince\n  for 10 min\nserve ham\n  at 19:00\n";
    assert!(codes(text).contains(&"raw-into-cooked".to_string()), "{:?}", codes(text));
}

#[test]
fn fine_print_06_what_is_used_exists_as_the_phase_starts() {
    let same = roast(&format!("{ROAST}\n  collect 250 ml of juices\n  use all juices"));
    says(&same, &[("used-too-early", "all juices")]);
    let later = roast(&format!("{ROAST}\n  use all juices")).replace(
        "serve lamb",
        "phase rest\n  lamb on bench\n  for 1 h\n  collect 250 ml of juices\nserve lamb",
    );
    assert_eq!(common::texts::said(&later)[0], ("used-too-early".to_string(), "juices".to_string()));
}

#[test]
fn fine_print_07_what_is_collected_stays_beside_its_parent_in_the_same_medium() {
    let text = roast(&format!("{ROAST}\n  collect 250 ml of juices"))
        .replace("serve lamb", "phase warm is hot hold\n  juices in oven\n  for 1 h\nserve lamb");
    let cook = clean(&text);
    let warm = named(&cook, "warm");
    assert!(warm.setting.expect("the oven's").kept);
    assert_eq!(warm.placings[0].before, Some(PhaseId(0)));
    assert_eq!(named(&cook, "roast").hands.on.minutes(), 0.0, "it needs no hands");
}

#[test]
fn fine_print_08_prep_on_a_bench_is_hands_on_and_nothing_else() {
    let hands = |text: &str| clean(text).phases[0].hands.on.minutes();
    let prep = roast("  lamb on bench\n  for 20 min").replace("roast is cook", "dress is prep");
    assert!(hands(&prep).is_infinite());
    assert_eq!(hands(&prep.replace("on bench", "in fridge")), 0.0);
    assert_eq!(hands(&prep.replace("is prep", "is rest")), 0.0);
    assert_eq!(hands(&prep.replace("for 20 min", "for 20 min, unattended")), 0.0);
    assert_eq!(hands(&prep.replace("for 20 min", "for 20 min, hands-on 10 min")), 10.0);
}

#[test]
fn fine_print_08_without_a_crew_hands_are_not_judged_and_that_is_said() {
    assert!(!timeline(&roast(ROAST)).0.hands_judged);
    assert!(timeline(&with_stock("crew\n  1 person", ROAST)).0.hands_judged);
}

#[test]
fn fine_print_08_a_programmable_kit_changes_its_own_setting() {
    let two = |kit: &str| {
        with_stock(
            &format!("kit hot is oven\n{kit}\ncrew\n  1 person\n  asleep 23:00 to 06:30"),
            "  lamb in hot\n  air 140 °C\n  for 2 h\nphase low is cook\n  lamb in hot\n  air 90 °C\n  for 9 h",
        )
        .replace("at 19:00", "at 09:00")
    };
    // The setting changes at midnight, when nobody is awake.
    assert_eq!(timeline(&two("")).0.on_time, OnTime::Never);
    let (programmed, _) = timeline(&two("  programmable"));
    assert!(programmed.jobs.iter().all(|job| job.phase != "low" || job.hands == 0), "{:#?}", programmed.jobs);
}

#[test]
fn fine_print_09_an_amount_beside_becomes_is_the_mass_at_the_end() {
    let text = roast("  lamb in oven\n  becomes dinner is lamb leg, 2 kg\n  air 140 °C\n  for 2 h")
        .replace("serve lamb", "serve dinner");
    let (start, end) = masses(&text, 0);
    assert!((start - 2.4).abs() < 1e-9 && (end - 2.0).abs() < 1e-9, "{start} {end}");
}

#[test]
fn fine_print_09_trim_on_the_first_bench_yield_over_the_first_cooking() {
    let text = roast(ROAST)
        .replace("  starts at 5 °C", "  trim loss 10 %\n  cooked yield 50 %")
        .replace("phase roast", "phase trim is prep\n  lamb on bench\n  for 10 min\nphase roast");
    let (start, end) = masses(&text, 1);
    assert!((start - 2.16).abs() < 1e-9 && (end - 1.08).abs() < 1e-9, "{start} {end}");
}

#[test]
fn fine_print_09_three_per_cent_over_is_rounding() {
    let trays = |each: &str| roast(&format!("{ROAST}\n  3 trays of {each}, depth 4 cm"));
    assert!(!ledger(&trays("823 g")).2.contains(&"stock-overdrawn"));
    assert!(ledger(&trays("825 g")).2.contains(&"stock-overdrawn"));
}

#[test]
fn fine_print_10_every_never_falls_at_or_after_the_end_nor_in_sleep() {
    let text = with_stock(
        "crew\n  1 person\n  asleep 23:00 to 06:30",
        "  lamb in oven\n  air 140 °C\n  for 3 h\n  every 60 min do \"Baste.\"",
    );
    let baste = |text: &str| -> Vec<(i64, bool)> {
        let (timeline, _) = timeline(text);
        let start = timeline.phases[0].start.expect("a start").latest;
        let jobs = timeline.jobs.iter().filter(|job| job.text.render(Scale::Celsius).contains("Baste"));
        jobs.map(|job| (job.at.latest - start, job.dropped)).collect()
    };
    assert_eq!(baste(&text), [(60, false), (120, false)]);
    // Dropped, not moved, and said to be.
    let night = baste(&text.replace("for 3 h", "for 11 h").replace("at 19:00", "at 09:00"));
    assert_eq!(night.len(), 10);
    assert!(night.iter().any(|job| job.1) && night.iter().any(|job| !job.1), "{night:?}");
    assert!(night.iter().zip(1..).all(|(job, nth)| job.0 == 60 * nth), "{night:?}");
}

#[test]
fn fine_print_11_somebody_is_awake_through_the_range_of_a_spoken_test() {
    let text = |end: &str| {
        with_stock(
            "crew\n  1 person\n  asleep 23:00 to 06:30",
            &format!("  lamb in oven\n  air 140 °C\n  {end}"),
        )
        .replace("at 19:00", "at 06:45, up to 15 min late")
    };
    assert_ne!(timeline(&text("until \"tender\", takes 2 h to 4 h")).0.on_time, OnTime::Always);
}

#[test]
fn fine_print_12_servings_are_compared_and_buy_nothing() {
    let text = roast(ROAST).replace("serves 8", "serves 8 with 500 g each");
    assert!(ledger(&text).2.contains(&"servings-short"));
    let (cook, _, _) = ledger(&text);
    let Origin::Food(stock) = &cook.items[0].origin else { panic!() };
    assert!(
        matches!(&stock.amount.as_ref().expect("bought").value, Amount::Mass(mass) if (mass.kg() - 2.4).abs() < 1e-9)
    );
    assert!(!ledger(&text.replace("500 g", "300 g")).2.contains(&"servings-short"));
}

#[test]
fn fine_print_12_a_serving_eats_all_unless_the_food_goes_on() {
    let on = roast(ROAST)
        .replace("serves 8", "serves 8 with 100 g each")
        .replace("serve lamb\n  at 19:00", "serve lamb\n  at 12:00\nphase keep is rest\n  lamb on bench\n  for up to 7 h\nserve lamb\n  at 19:00");
    // Eight of 100 g are eaten, the rest goes on.
    assert!((masses(&on, 2).0 - 1.6).abs() < 1e-9, "{:?}", masses(&on, 2));
}

#[test]
fn fine_print_13_a_dish_is_judged_by_its_rules_and_the_menus() {
    let dish = roast(ROAST);
    let judged = |menu: &str, dish: &str| {
        let files = common::Memory(&[("lamb.dwell", dish)]);
        let menu = format!("menu \"Supper\"\n{menu}\n  serve at 19:00\ndish \"lamb.dwell\"\n");
        let compiled = compile(&files, "menu.dwell".into(), menu.into_bytes(), &Run::default());
        let sets: std::collections::BTreeSet<String> =
            compiled.cooks()[0].judged.iter().map(|judged| judged.set.to_string()).collect();
        let assumed = compiled.findings.iter().any(|finding| finding.code.name() == "rules-assumed");
        (sets.into_iter().collect::<Vec<_>>(), assumed)
    };
    let (both, assumed) = judged("  rules us-food-code", &dish);
    assert_eq!((both.len(), assumed), (2, false), "{both:?}");
    let (one, assumed) = judged("  rules us-food-code", &dish.replace("  rules uk\n", ""));
    assert_eq!((one.len(), assumed), (1, false));
    assert!(judged("", &dish.replace("  rules uk\n", "")).1, "none anywhere: assumed, with a warning");
}

#[test]
fn fine_print_13_a_menu_has_its_own_crew_and_time() {
    let dish = with_stock("crew\n  1 person", ROAST);
    let menu = "menu \"Supper\"\n  serve at 18:30\ncrew\n  3 people\ndish \"lamb.dwell\"\n";
    let (_, document, findings) = common::resolve_files(&[("menu.dwell", menu), ("lamb.dwell", &dish)]);
    assert!(findings.is_empty());
    let Some(Document::Menu(menu)) = document else { panic!() };
    assert_eq!(menu.crew.map(|crew| crew.people), Some(3));
    assert_eq!(menu.serve.map(|at| at.value.time.to_string()), Some("18:30".into()));
}

#[test]
fn fine_print_14_a_serving_without_a_day_shares_the_day_above() {
    let two = roast(ROAST).replace(
        "serve lamb\n  at 19:00",
        "serve half of lamb\n  at Saturday 12:00\nphase keep is rest\n  lamb on bench\n  for up to 9 h\nserve lamb\n  at 19:00",
    );
    let (timeline, found) = timeline(&two);
    assert!(found.is_empty(), "{found:?}");
    let starts: Vec<i64> =
        timeline.servings.iter().map(|line| line.promised.expect("a time").earliest).collect();
    assert_eq!(starts[1] - starts[0], 7 * 60);
}

#[test]
fn fine_print_14_a_weekday_elsewhere_needs_the_servings_day() {
    let text = |at: &str| {
        roast(&format!("{ROAST}\n  starts on Thursday"))
            .replace("at 19:00", at)
            .replace("for 2 h", "for 2 days")
    };
    assert!(timeline(&text("at 19:00")).1.contains(&"weekday-missing"));
    assert!(!timeline(&text("at Saturday 10:00")).1.contains(&"weekday-missing"));
}

#[test]
fn fine_print_14_serve_moves_all_written_times_equally() {
    let text = roast(&format!("{ROAST}\n  starts at 16:30")).replace("at 19:00", "at 19:00, up to 1 h late");
    let cook = clean(&text);
    let Some(Service::At { at, .. }) = &cook.phases[1].service else { panic!() };
    let later = dwell::quantity::ClockTime::new(20, 0).expect("a time");
    let moved = Options { serve: Some(dwell::cook::When { time: later, ..at.value }), ..Options::default() };
    let start = |options: &Options| plan(&cook, options).0.phases[0].start.expect("a start").latest;
    let serving = |options: &Options| plan(&cook, options).0.servings[0].promised.expect("a time");
    let (before, after) = (serving(&Options::default()), serving(&moved));
    assert_eq!(after.earliest - before.earliest, 60);
    assert_eq!(start(&moved) - start(&Options::default()), 60);
    assert_eq!(after.latest - after.earliest, before.latest - before.earliest, "windows keep their length");
}

#[test]
fn fine_print_15_a_setting_lasts_while_the_food_stays_in_that_kit() {
    let next = |lines: &str| {
        let text = roast(ROAST)
            .replace("serve lamb", &format!("phase next is cook\n{lines}\n  for 1 h\nserve lamb"));
        named(&clean(&text), "next").setting
    };
    let kept = next("  lamb in oven").expect("kept");
    assert!(kept.kept && kept.temperature.celsius() == 140.0);
    assert!(next("  lamb on hob").is_none());
    assert!(!next("  lamb in oven\n  air 90 °C").expect("its own").kept);
}

#[test]
fn fine_print_15_any_cover_replaces_all_covers_and_a_new_count_starts_uncovered() {
    // A bag in a water bath is what the kit stage looks for.
    let bath = |prep: &str| {
        let text = with_stock(
            "kit bath is water bath",
            "  lamb in bath\n  water 60 °C\n  for 20 h",
        )
        .replace("phase roast", &format!("phase dress is prep\n  lamb on bench\n  vacuum bagged\n  for 10 min\nphase open is prep\n  lamb on bench\n  for 10 min\n{prep}phase roast"));
        codes(&text).contains(&"bag-missing".to_string())
    };
    assert!(!bath(""));
    assert!(bath("  covered\n"), "any cover replaces all");
    assert!(bath("  8 pieces of 300 g, thickness 4 cm\n"), "a new count starts uncovered");
}

#[test]
fn fine_print_16_only_times_for_each_grow_with_the_number() {
    let prep = |takes: &str| {
        roast(&format!("  lamb on bench\n  {takes}"))
            .replace("roast is cook", "dress is prep")
            .replace("  2.4 kg", "  4 pieces of 600 g")
    };
    let scaled = |takes: &str| {
        let mut cook = clean(&prep(takes));
        let found: Vec<_> = scale(&mut cook, 16).iter().map(|finding| finding.code.name()).collect();
        spread_each(&mut cook);
        let Lasts::Nature { low, high, .. } = cook.phases[0].lasts else { panic!("{takes}") };
        (low.minutes(), high.minutes(), found)
    };
    assert_eq!(scaled("takes 3 min to 5 min each"), (24.0, 40.0, vec![]));
    assert_eq!(scaled("takes 3 min to 5 min"), (3.0, 5.0, vec!["hands-not-scaled"]));
}
