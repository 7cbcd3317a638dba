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
fn fine_print_01_until_is_met_when_all_meet_it() {
    let text = with_stock(
        "food hen is chicken\n  1.6 kg\n  thickness 8 cm",
        "  lamb and hen in oven\n  air 140 °C\n  until core 60 °C, takes 2 h to 3 h",
    )
    .replace("serve lamb", "serve lamb and hen")
    .replace("rules uk", "rules us-food-code");
    // One end for both: each has met the 60 °C by then, and each is judged by it.
    let cook = clean(&text);
    assert_eq!(cook.phases[0].placings.len(), 2);
    let compiled =
        compile(&common::Memory(&[]), "x.dwell".into(), text.clone().into_bytes(), &Run::default());
    let judged = |food: &str| {
        let cooks = compiled.cooks();
        let all = cooks[0].judged.iter().filter(|one| one.phase.as_deref() == Some("roast"));
        all.filter(|one| one.food.as_deref() == Some(food)).count()
    };
    assert!(judged("lamb") > 0 && judged("hen") > 0);
    let cool = compiled.findings.iter().filter(|found| found.code.name() == "cook-end-too-cool");
    let foods: Vec<Option<&str>> = cool.map(|found| found.food.as_deref()).collect();
    assert!(foods.contains(&Some("hen")), "60 °C in both, which is too cool for poultry: {foods:?}");
    let ends = timeline(&text).0.phases.into_iter().map(|phase| phase.end.expect("an end"));
    assert_eq!(ends.count(), 2, "one phase and a serving, not one for each food");
}

#[test]
fn fine_print_01_parting_happens_as_the_phase_starts() {
    let text = roast(ROAST).replace(
        "phase roast is cook\n  lamb in oven",
        "phase part is prep\n  half of lamb on bench\n  becomes joint\n  for 10 min\nphase roast is cook\n  joint in oven",
    );
    let text = text.replace(
        "serve lamb",
        "phase keep is cold hold\n  lamb in fridge\n  for up to 1 day\nserve lamb and joint",
    );
    let (start, end) = masses(&text, 0);
    assert!((start - 1.2).abs() < 1e-9 && (end - 1.2).abs() < 1e-9, "{start} {end}");
    assert!((masses(&text, 2).0 - 1.2).abs() < 1e-9, "the old name is what is left");
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
fn fine_print_02_a_cold_limit_counts_for_every_food_of_the_serving() {
    let text = |limit: &str| {
        with_stock(
            "food ham is cooked ham\n  1 kg\n  starts at 4 °C\nfood rice is cooked rice\n  1 kg\n  depth 4 cm\n  starts at 4 °C",
            ROAST,
        )
        .replace("rules uk", "rules us-food-code")
        .replace(
            "serve lamb\n  at 19:00",
            &format!("serve ham and rice\n  from 12:00 to 17:00\n  core {limit} or below\nserve lamb\n  at 19:00"),
        )
    };
    let judged = |limit: &str| {
        let compiled =
            compile(&common::Memory(&[]), "x.dwell".into(), text(limit).into_bytes(), &Run::default());
        let cooks = compiled.cooks();
        let served = cooks[0].judged.iter().filter(|one| one.rule == "us-fc.tphc.4h");
        let served = served.filter(|one| one.phase.as_deref() == Some("serve ham and rice"));
        served
            .map(|one| format!("{} {}", one.verdict.name(), one.food.as_deref().unwrap_or("-")))
            .collect::<Vec<_>>()
    };
    // FDA Food Code 2022, 3-501.16 and 3-501.19: cold is 5 °C or below; else five hours are one too many.
    let cold = judged("5 °C");
    assert!(
        cold.iter().all(|one| one.starts_with("not-judged")),
        "the writer's word, and a probe's: {cold:?}"
    );
    assert!(cold.contains(&"not-judged ham".into()) && cold.contains(&"not-judged rice".into()), "{cold:?}");
    let cool = judged("8 °C");
    assert!(cool.contains(&"broken ham".into()) && cool.contains(&"broken rice".into()), "{cool:?}");
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
fn fine_print_03_every_form_of_order() {
    let order = |line: &str| {
        let text = roast(ROAST).replace("at 19:00", "at Saturday 19:00").replace(
            "serve lamb",
            &format!("phase keep is rest\n  lamb on bench\n  {line}\n  for up to 9 h\nserve lamb"),
        );
        named(&clean(&text), "keep").orders[0].bound
    };
    use {Moment::Clock, Moment::Ends, OrderBound as B};
    assert!(matches!(order("starts on Saturday"), B::OnDay(_)));
    assert!(matches!(order("ends on Saturday"), B::OnDay(_)));
    assert!(matches!(order("starts at 12:00"), B::When(Clock(_))));
    assert!(matches!(order("ends by 18:00"), B::NoLater(Clock(_))));
    assert!(matches!(order("ends before 18:00"), B::NoLater(Clock(_))));
    assert!(matches!(order("starts when roast ends"), B::When(Ends(_))));
    assert!(matches!(order("starts after roast ends"), B::NoSooner(Ends(_))));
    assert!(matches!(order("ends 30 min before serving"), B::Before { at_least: false, .. }));
    assert!(matches!(order("ends at least 30 min before serving"), B::Before { at_least: true, .. }));
    assert!(matches!(order("ends 1 h after roast ends"), B::After { at_least: false, .. }));
    assert!(matches!(order("ends at least 1 h after roast ends"), B::After { at_least: true, .. }));
}

#[test]
fn fine_print_03_one_person_makes_the_moves_of_both_in_turn() {
    let text = |order: &str| {
        with_stock("crew\n  1 person\nfood apples is apple\n  1 kg", "  lamb in oven\n  air 140 °C\n  for 2 h")
            .replace(
                "serve lamb",
                &format!(
                    "phase bake is cook\n  apples in oven\n  air 140 °C\n  {order}\n  for 2 h to 2 h 10 min\nserve lamb and apples"
                ),
            )
    };
    let (together, found) = timeline(&text("starts when roast starts"));
    assert_eq!((together.on_time, found), (OnTime::Always, vec![]), "5 min apart is the same minute");
    assert_ne!(timeline(&text("starts when roast starts, ends when roast starts")).0.on_time, OnTime::Always);
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

#[test]
fn fine_print_04_a_new_count_ends_the_lying_in_it_too() {
    let text = with_stock(
        "ingredient oil is 2 l rapeseed oil",
        &format!(
            "{ROAST}\n  with 2 l of oil\nphase part is prep\n  lamb on bench\n  4 pieces of 600 g, thickness 3 cm\n  for 5 min\nphase keep is rest\n  lamb on bench\n  for 5 min"
        ),
    );
    let cook = clean(&text);
    assert!(named(&cook, "roast").lie_in.is_some());
    // Nothing is left of it that could be collected.
    let drained = text
        .replace("phase keep is rest\n  lamb on bench\n  for 5 min", "phase keep is rest\n  lamb on bench\n  for 5 min\n  collect 1.9 l of spent\nphase pour is prep\n  lamb on bench\n  use all spent\n  for 5 min")
        .replace("  2.4 kg", "  1.2 kg")
        .replace("4 pieces of 600 g", "4 pieces of 300 g");
    assert!(ledger(&drained).2.contains(&"stock-overdrawn"));
}

#[test]
fn fine_print_05_lines_of_a_menu_stand_in_any_order_and_a_zone_is_utc_or_has_a_slash() {
    let dish = roast(ROAST);
    let kitchen = "kit spare is oven\n";
    let lines = ["serve at 18:30", "dish \"lamb.dwell\"", "kit from \"kitchen.dwell\""];
    for order in [[0, 1, 2], [1, 0, 2], [2, 1, 0], [1, 2, 0]] {
        let menu = order.map(|n| lines[n]).join("\n");
        let menu = format!("menu \"Supper\"\n{menu}\n");
        let files =
            [("menu.dwell", menu.as_str()), ("lamb.dwell", dish.as_str()), ("kitchen.dwell", kitchen)];
        let (_, document, findings) = common::resolve_files(&files);
        assert!(findings.is_empty(), "{menu}{findings:#?}");
        let Some(Document::Menu(menu)) = document else { panic!("{menu}") };
        assert_eq!((menu.dishes.len(), menu.kit.len(), menu.serve.is_some()), (1, 1, true));
    }
    clean(&roast(ROAST).replace("at 19:00", "at 2026-12-12 19:00 in UTC"));
    clean(&roast(ROAST).replace("at 19:00", "at 2026-12-12 19:00 in Europe/Dublin"));
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
fn fine_print_06_use_passes_history_on_and_names_allergens() {
    // Eggs that are only brushed on owe their kill wherever the bread goes.
    let text = |after: &str| {
        format!(
            "cook \"x\"\n  serves 8\n  rules us-food-code\nkit oven is oven\nkit bench is bench\nkit probe is probe thermometer\n\
             food loaf is white bread\n  1 kg\n  thickness 8 cm\ningredient eggs is 2 eggs, contains eggs\n\
             phase brush is prep\n  loaf on bench\n  use all eggs\n  for 10 min\n{after}serve loaf\n  at 19:00\n"
        )
    };
    assert!(codes(&text("")).contains(&"raw-into-cooked".to_string()), "{:?}", codes(&text("")));
    let bake =
        "phase bake is cook\n  loaf in oven\n  air 180 °C\n  until core 75 °C, takes 10 min to 15 min\n";
    assert!(!codes(&text(bake)).contains(&"raw-into-cooked".to_string()), "{:?}", codes(&text(bake)));
    let cook = clean(&text(bake));
    let (ledger, _) = balance(&cook);
    let list = dwell::output::prep::list(&[(&cook, &ledger)]);
    let [served] = list.cooks[0].served.as_slice() else { panic!("{:?}", list.cooks[0].served) };
    let named: Vec<_> =
        served.allergens.iter().map(|one| (one.allergen.as_str(), one.items.join(" "))).collect();
    // The bread by its name.
    assert_eq!(named, [("gluten", "loaf".to_string()), ("egg", "eggs".to_string())]);
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
fn fine_print_08_a_move_takes_the_first_five_minutes_of_the_next_phase() {
    let (timeline, _) = timeline(&with_stock("crew\n  1 person", ROAST));
    let start = timeline.phases[0].start.expect("a start");
    let moves: Vec<_> = timeline.jobs.iter().filter(|job| job.phase == "roast" && job.at == start).collect();
    let [only] = moves.as_slice() else { panic!("{moves:#?}") };
    assert_eq!((only.hands, only.busy.as_deref()), (1, Some("5 min")));
    // Two such moves at once are more than one person has hands for.
    let two = |people: &str| {
        with_stock(&format!("crew\n  {people}\nfood apples is apple\n  1 kg"), ROAST).replace(
            "serve lamb",
            "phase bake is cook\n  apples in oven\n  air 140 °C\n  for 2 h\nserve lamb and apples",
        )
    };
    let verdict = |people: &str| self::timeline(&two(people)).0.on_time;
    assert_ne!(verdict("1 person"), OnTime::Always);
    assert_eq!(verdict("2 people"), OnTime::Always);
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
fn fine_print_08_a_programmable_kit_changes_its_setting_at_a_core_temperature() {
    let two = |kit: &str, clause: &str| {
        with_stock(
            &format!("kit hot is oven\n{kit}\ncrew\n  1 person\n  asleep 23:00 to 06:30"),
            &format!(
                "  lamb in hot\n  air 140 °C\n  until core 60 °C, takes 2 h to 3 h\n\
                 phase low is cook\n  lamb in hot\n  air 90 °C\n{clause}  for 8 h to 9 h"
            ),
        )
        .replace("at 19:00", "at 09:00")
    };
    // The core gets there between 23:30 and half past midnight, when nobody is awake.
    assert_eq!(timeline(&two("", "")).0.on_time, OnTime::Never);
    let (programmed, _) = timeline(&two("  programmable", ""));
    assert_eq!(programmed.on_time, OnTime::Always);
    assert!(programmed.jobs.iter().all(|job| job.phase != "low" || job.hands == 0), "{:#?}", programmed.jobs);
    // Settings only: what somebody has to do then keeps them up.
    assert_eq!(timeline(&two("  programmable", "  do \"Turn it.\"\n")).0.on_time, OnTime::Never);
}

#[test]
fn fine_print_09_nothing_else_changes_the_ledger() {
    let lines = [
        "uncovered",
        "covered",
        "wrapped in foil",
        "with 2 l of water",
        "use 40 g of salt",
        "use 2 l of water",
        "moisture 40 %",
        "fan",
        "expect core 60 °C to 72 °C",
        "expect weight 80 % to 84 %",
        "salt 2.5 %",
        "pH 5.6",
        "thickness 5 cm",
        "tenderised",
        "do \"Turn.\"",
        "every 30 min do \"Baste.\"",
        "hands-on",
        "look in every 30 min",
        "fills 2 shelves",
        "note \"Hot.\"",
        "within 4 h",
    ];
    for line in lines {
        let stock = if line == "use 40 g of salt" { "ingredient salt is 40 g salt" } else { "" };
        let text = with_stock(stock, &format!("{ROAST}\n  {line}"));
        assert_eq!(masses(&text, 0), (2.4, 2.4), "{line}");
        assert_eq!(masses(&text, 1).0, 2.4, "{line}");
    }
    let wood = "ingredient beech is 150 g beech chips\nkit den is smoking cabinet";
    let smoked = with_stock(wood, "  lamb in den\n  air 110 °C\n  smoke from 150 g of beech\n  for 2 h");
    assert_eq!(masses(&smoked, 0), (2.4, 2.4));
    // Whatever the phase is for, and wherever it is.
    for purpose in ["prep", "rest", "cure", "hot hold", "cool", "cold hold", "freeze", "thaw", "reheat"] {
        let text = roast(ROAST).replace("roast is cook", &format!("roast is {purpose}"));
        assert_eq!(masses(&text, 0), (2.4, 2.4), "{purpose}");
    }
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
fn fine_print_09_the_yield_includes_what_is_collected() {
    let text = |collect: &str| {
        roast(&format!("{ROAST}\n  {collect}")).replace("  starts at 5 °C", "  cooked yield 50 %").replace(
            "serve lamb",
            "phase pour is prep\n  lamb on bench\n  use all juices\n  for 5 min\nserve lamb",
        )
    };
    // Half of 2.4 kg is lost, the juices among it; without a yield they come off what there is.
    let with = text("collect 200 g of juices");
    assert!((masses(&with, 1).0 - 1.2).abs() < 1e-9, "{:?}", masses(&with, 1));
    let without = with.replace("  cooked yield 50 %\n", "");
    assert!((masses(&without, 1).0 - 2.2).abs() < 1e-9, "{:?}", masses(&without, 1));
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
fn fine_print_10_the_sheet_says_which_calls_are_left_out() {
    let text = with_stock(
        "crew\n  1 person\n  asleep 23:00 to 06:30",
        "  lamb in oven\n  air 140 °C\n  for 11 h\n  every 3 h do \"Baste.\"",
    );
    let page =
        dwell::output::timeline::text(&timeline(&text.replace("at 19:00", "at 09:00")).0, Scale::Celsius);
    let left_out = page.lines().filter(|line| line.contains("Baste.") && line.contains("left out")).count();
    // 22:00 and three hours: 01:00 and 04:00 in sleep, 07:00 not.
    assert_eq!((page.matches("Baste.").count(), left_out), (3, 2), "{page}");
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
fn fine_print_11_awake_through_all_of_the_range_and_no_more() {
    let verdict = |end: &str, serve: &str| {
        let text = with_stock(
            "crew\n  1 person\n  asleep 23:00 to 06:30\nkit warm is oven\n  programmable",
            &format!(
                "  lamb in oven\n  air 140 °C\n  {end}\nphase wait is hot hold\n  lamb in oven\n  air 140 °C\n  for up to 2 h"
            ),
        );
        timeline(&text.replace("at 19:00", serve)).0.on_time
    };
    // In before bed, 7 h later is before anybody is up to try it.
    assert_eq!(verdict("until \"tender\", takes 7 h to 9 h", "at 07:30"), OnTime::Never);
    assert_eq!(verdict("until core 80 °C, takes 7 h to 9 h", "at 07:30"), OnTime::Always);
    // 22:30 and 8 h is 06:30: awake from the first minute of the range on, asleep before.
    assert_eq!(verdict("until \"tender\", takes 8 h to 10 h", "at 08:30"), OnTime::Always);
}

#[test]
fn fine_print_11_with_looks_it_ends_at_a_look_and_only_they_are_awake() {
    let phase = |end: &str| {
        let text = with_stock(
            "crew\n  1 person",
            &format!(
                "  lamb in oven\n  air 140 °C\n  {end}\nphase wait is hot hold\n  lamb in oven\n  air 140 °C\n  for up to 1 h"
            ),
        );
        let (timeline, _) = timeline(&text);
        let (start, end) =
            (timeline.phases[0].start.expect("a start"), timeline.phases[0].end.expect("an end"));
        (timeline.on_time, end.earliest - start.earliest, end.latest - start.latest)
    };
    // Done after 70 min at the soonest: it is found at 90, and at the last at 120.
    let tender = "until \"tender\", takes 70 min to 2 h";
    for looks in ["every 30 min do \"Turn.\"", "look in every 30 min"] {
        assert_eq!(phase(&format!("{tender}\n  {looks}")), (OnTime::Always, 90, 120), "{looks}");
    }
    assert_eq!(phase(tender), (OnTime::Always, 70, 120), "without looks somebody stands by");
    let night = |looks: &str| {
        let text = with_stock(
            "crew\n  1 person\n  asleep 23:00 to 06:30",
            &format!(
                "  lamb in oven\n  air 140 °C\n  until \"tender\", takes 7 h to 9 h\n  {looks}\nphase wait is hot hold\n  lamb in oven\n  air 140 °C\n  for up to 2 h"
            ),
        );
        timeline(&text.replace("at 19:00", "at 07:30")).0.on_time
    };
    // In at 22:30: looks at 7 h and 9 h are 05:30 and 07:30; a look at 9 h alone is in the morning.
    assert_eq!(night("every 1 h do \"Turn.\""), OnTime::Never);
    assert_eq!(night("every 9 h do \"Turn.\""), OnTime::Always);
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
fn fine_print_13_without_the_menus_word_dishes_must_agree() {
    let crew = |hours: &str| with_stock(&format!("crew\n  1 person\n  asleep {hours}"), ROAST);
    let (early, late) = (crew("22:00 to 06:00"), crew("23:30 to 07:00"));
    let found = |menu: &str, other: &str| {
        let menu = format!("menu \"Supper\"\n{menu}\ndish \"a.dwell\"\ndish \"b.dwell\"\n");
        let files = [("menu.dwell", menu.as_str()), ("a.dwell", early.as_str()), ("b.dwell", other)];
        let codes: Vec<&str> = common::findings(&files).iter().map(|one| one.code.name()).collect();
        codes.contains(&"dishes-disagree")
    };
    assert!(found("  serve at 19:00", &late));
    assert!(!found("  serve at 19:00", &early));
    assert!(!found("  serve at 19:00\ncrew\n  1 person", &late));
    let sooner = early.replace("at 19:00", "at 18:00");
    assert!(found("", &sooner), "two servings and no word of the menu");
    assert!(!found("  serve at 19:00", &sooner));
}

#[test]
fn fine_print_13_no_rules_anywhere_are_the_food_code_with_a_warning() {
    let text = roast(ROAST).replace("  rules uk\n", "");
    let judged = |files: &[(&str, &str)]| {
        let compiled =
            compile(&common::Memory(files), "x.dwell".into(), text.clone().into_bytes(), &Run::default());
        let sets: std::collections::BTreeSet<String> =
            compiled.cooks()[0].judged.iter().map(|one| one.set.to_string()).collect();
        let warned = compiled.findings.iter().any(|found| found.code.name() == "rules-assumed");
        (sets.into_iter().collect::<Vec<_>>().join(" "), warned)
    };
    assert_eq!(judged(&[]), ("us-food-code".to_string(), true));
    assert_eq!(judged(&[("dwell.toml", "rules = \"uk\"\n")]), ("uk".to_string(), false));
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
fn fine_print_14_a_serving_without_a_day_shares_even_a_later_day() {
    let three = roast(ROAST).replace(
        "serve lamb\n  at 19:00",
        "serve half of lamb\n  at Saturday 12:00\nphase keep is cold hold\n  lamb in fridge\n  for up to 2 days\n\
         serve half of lamb\n  at Sunday 12:00\nphase last is cold hold\n  lamb in fridge\n  for up to 9 h\nserve lamb\n  at 19:00",
    );
    let (timeline, found) = timeline(&three);
    assert!(found.is_empty(), "{found:?}");
    let at: Vec<i64> = timeline.servings.iter().map(|line| line.promised.expect("a time").earliest).collect();
    assert_eq!((at[1] - at[0], at[2] - at[1]), (24 * 60, 7 * 60), "Sunday evening, not Saturday");
}

#[test]
fn fine_print_14_a_weekday_elsewhere_is_the_last_before_the_next_serving() {
    let start = |day: &str| {
        let text = roast(&ROAST.replace("for 2 h", "for 1 h to 9 days"))
            .replace("at 19:00", "at Saturday 19:00")
            .replace("for 1 h to 9 days", &format!("starts at {day} 18:00\n  for 1 h to 9 days"));
        let (timeline, found) = timeline(&text);
        assert!(found.is_empty(), "{day}: {found:?}");
        let (start, meal) = (timeline.phases[0].start.expect("a start"), timeline.servings[0].promised);
        meal.expect("a time").earliest - start.latest
    };
    assert_eq!(start("Saturday"), 60, "18:00 on the day itself");
    assert_eq!(start("Friday"), 25 * 60);
    assert_eq!(start("Sunday"), 60 + 6 * 24 * 60, "the Sunday before, not the day after");
}

#[test]
fn fine_print_14_serve_moves_servings_and_orders_and_leaves_the_crew_its_hours() {
    let text = with_stock(
        "crew\n  1 person\n  asleep 23:00 to 06:30",
        "  lamb in oven\n  air 140 °C\n  starts at Saturday 09:00\n  for 2 h to 4 h",
    )
    .replace(
        "serve lamb\n  at 19:00",
        "serve half of lamb\n  at Saturday 12:00, up to 10 min late\nphase keep is cold hold\n  lamb in fridge\n  for up to 2 days\n\
         serve lamb\n  at Sunday 13:00",
    );
    let cook = clean(&text);
    let saturday = 24 * 60;
    let planned = |day: u32, hour: u32| {
        let date = chrono::NaiveDate::from_ymd_opt(2026, 12, day).expect("a date");
        let time = dwell::quantity::ClockTime::new(hour, 0).expect("a time");
        let when = dwell::cook::When { time, day: Some(dwell::cook::Day::Date(date)), zone: None };
        let (timeline, found) = plan(&cook, &Options { serve: Some(when), ..Options::default() });
        let servings: Vec<_> = timeline.servings.iter().map(|line| line.promised.expect("a time")).collect();
        let codes: Vec<_> = found.iter().map(|one| one.code.name()).collect();
        let start = timeline.phases[0].start.expect("a start");
        let gaps = (servings[0].earliest - start.earliest, servings[1].earliest - servings[0].earliest);
        (gaps, servings[0].latest - servings[0].earliest, timeline.on_time, codes)
    };
    let gaps = (3 * 60, saturday + 60);
    // 12 December 2026 is a Saturday.
    assert_eq!(planned(12, 12), (gaps, 10, OnTime::Always, vec![]));
    assert_eq!(planned(12, 14), (gaps, 10, OnTime::Always, vec![]));
    let (moved, window, _, codes) = planned(11, 12);
    assert_eq!((moved, window, codes), (gaps, 10, vec!["weekday-moved"]));
    // At 08:00 the lamb would go in at 05:00, and the crew sleeps as long as ever.
    let (moved, _, on_time, codes) = planned(12, 8);
    assert_eq!((moved.1, on_time, codes), (gaps.1, OnTime::Never, vec!["never-on-time"]));
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

#[test]
fn fine_print_16_only_hands_on_the_bench_are_looked_at() {
    let mut cook = clean(
        &roast("  lamb in oven\n  air 140 °C\n  takes 2 h to 3 h").replace("  2.4 kg", "  4 pieces of 600 g"),
    );
    assert!(scale(&mut cook, 16).iter().all(|found| found.code.name() != "hands-not-scaled"));
    spread_each(&mut cook);
    let Lasts::Nature { low, high, .. } = cook.phases[0].lasts else { panic!() };
    assert_eq!((low.minutes(), high.minutes()), (120.0, 180.0));
}
