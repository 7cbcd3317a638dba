//! Drawing, parting, dividing and collecting: what comes out, and what is refused.

mod common;

use dwell::cook::{Amount, Cook};
use dwell::findings::Finding;
use dwell::ledger::{Ledger, balance};
use dwell::quantity::Scale;

/// Butter of this amount on bread, used by these lines.
fn butter(bought: &str, uses: &str) -> String {
    format!(
        "cook \"Test\"\n\
         kit bench is bench\n\
         food bread is white bread, 2 kg\n\
         ingredient butter is {bought}\n\
         phase spread is prep\n bread on bench\n {uses}\n for 10 min\n\
         serve bread, at 18:30\n"
    )
}

/// A food of these lines, through these phases, served under the name of `served`.
fn food(lines: &str, phases: &str, served: &str) -> String {
    format!(
        "cook \"Test\"\n kit bench is bench\n kit pan is hob\n kit oven is oven\n kit cold is fridge\n\
         food meat is {lines}\n{phases}\nserve {served}, at 18:30\n"
    )
}

fn ledger_of(text: &str) -> (Cook, Ledger, Vec<Finding>) {
    let (_, cook, findings) = common::cook(text);
    let said: Vec<_> = findings.iter().map(|f| f.message.render(Scale::Celsius)).collect();
    assert!(said.is_empty(), "{said:?} in\n{text}");
    let cook = cook.expect("a cook");
    let (ledger, findings) = balance(&cook);
    (cook, ledger, findings)
}

fn codes(text: &str) -> Vec<&'static str> {
    ledger_of(text).2.iter().map(|finding| finding.code.name()).collect()
}

/// What is left of an item, in kilograms.
fn kg_left(text: &str, name: &str) -> f64 {
    let (cook, ledger, _) = ledger_of(text);
    let at = cook.items.iter().position(|item| item.name == name).expect("the item");
    ledger.items[at].left.mass.expect("a mass").mass.kg()
}

/// The mass of the only food of a phase as it starts and ends.
fn kg_through(text: &str, phase: &str) -> (f64, f64) {
    let (cook, ledger, _) = ledger_of(text);
    let at = cook.phases.iter().position(|known| known.name == phase).expect("the phase");
    let food = &ledger.phases[at].foods[0];
    (food.start.expect("a mass").mass.kg(), food.end.expect("a mass").mass.kg())
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[test]
fn ounces_come_out_of_kilograms() {
    // 16 oz are 1 lb = 0.453 592 37 kg exactly (NIST SP 811, appendix B).
    let left = kg_left(&butter("1 kg butter", "use 16 oz of butter"), "butter");
    assert!(near(left, 1.0 - 0.453_592_37), "{left}");
    assert_eq!(
        codes(&butter("1 kg butter", "use 35 oz of butter")),
        ["stock-left"; 0],
        "0.8 % is left: rounding"
    );
    assert_eq!(
        codes(&butter("1 kg butter", "use 36 oz of butter")),
        ["stock-overdrawn"],
        "2 % over is not rounding"
    );
    assert_eq!(codes(&butter("2.2 lb butter", "use 1 kg of butter")), ["stock-overdrawn"; 0], "0.2 % is");
}

#[test]
fn kitchen_spoons_come_out_of_litres() {
    // A US cup is a sixteenth of 231 cubic inches: 236.588 ml (NIST Handbook 44, appendix C).
    let text = butter("1 l oil", "use 4 cups of butter").replace("\"Test\"", "\"Test\"\n measures us");
    let (cook, ledger, _) = ledger_of(&text);
    let at = cook.items.iter().position(|item| item.name == "butter").expect("the item");
    let left = ledger.items[at].left.volume.expect("a volume").cubic_metres();
    assert!((left - (1e-3 - 4.0 * 236.588_236_5e-6)).abs() < 1e-12, "{left}");
}

#[test]
fn shares_are_of_all_there_was() {
    assert!(near(kg_left(&butter("1 kg butter", "use 1/3 of butter"), "butter"), 2.0 / 3.0));
    assert!(codes(&butter("1 kg butter", "use half of butter, use half of butter")).is_empty());
    assert!(codes(&butter("1 kg butter", "use 300 g of butter, use the rest of butter")).is_empty());
    assert_eq!(
        codes(&butter("1 kg butter", "use 600 g of butter, use half of butter")),
        ["stock-overdrawn"],
        "half of all is more than is left"
    );
    assert_eq!(codes(&butter("1 kg butter", "use all butter, use the rest of butter")), ["stock-overdrawn"]);
}

#[test]
fn what_does_not_relate_is_refused_once() {
    assert_eq!(codes(&butter("1 kg butter", "use 200 ml of butter")), ["units-unrelated"]);
    assert_eq!(codes(&butter("2 m butter", "use 200 g of butter")), ["units-unrelated"]);
    assert_eq!(codes(&butter("8 vacuum bags", "use 100 g of butter")), ["units-unrelated"]);
}

#[test]
fn counts_are_drawn_by_name() {
    assert!(codes(&butter("65 buns", "use 65 butter")).is_empty());
    assert!(codes(&butter("65 buns", "use 64 buns of butter, use 1 bun of butter")).is_empty());
    assert_eq!(codes(&butter("65 buns", "use 66 butter")), ["stock-overdrawn"]);
}

#[test]
fn what_is_to_taste_never_runs_out() {
    assert!(codes(&butter("fine salt, to taste", "use 5 g of butter, use all butter")).is_empty());
}

#[test]
fn trimming_comes_off_on_the_first_bench_and_yield_over_the_first_cooking() {
    // 10 kg, 8 % off, then 60 % of what is trimmed: 9.2 kg and 5.52 kg by hand.
    let phases = "phase trim is prep\n meat on bench, for 20 min\n\
        phase one is cook\n meat in oven, air 110 °C, for 2 h\n\
        phase two is cook\n meat in oven, air 130 °C, for 2 h\n\
        phase rest\n meat on bench, for 20 min\n\
        phase three is cook\n meat in oven, air 200 °C, for 20 min";
    let text = food("pork shoulder, 10 kg, trim loss 8 %, cooked yield 60 %", phases, "meat");
    for (phase, start, end) in [
        ("trim", 9.2, 9.2),
        ("one", 9.2, 9.2),
        ("two", 9.2, 5.52),
        ("rest", 5.52, 5.52),
        ("three", 5.52, 5.52),
    ] {
        let (from, to) = kg_through(&text, phase);
        assert!(near(from, start) && near(to, end), "{phase}: {from} to {to}");
    }
}

#[test]
fn the_yield_allows_for_what_is_collected() {
    let phases = "phase roast is cook\n meat in oven, air 110 °C, for 2 h, collect 500 ml of juices\n\
        phase sauce is cook\n juices on pan, liquid 90 °C, for 5 min\n\
        phase stand is rest\n meat on bench, for 5 min, use all juices";
    let with_yield = food("pork shoulder, 10 kg, cooked yield 60 %", phases, "meat");
    assert!(near(kg_through(&with_yield, "stand").0, 6.0));
    // Without a yield the juices come out of the only mass there is.
    let without = food("pork shoulder, 10 kg", phases, "meat");
    assert!(near(kg_through(&without, "stand").0, 9.5));
}

#[test]
fn what_it_lies_in_is_collected_first() {
    let phases = "phase soften is cook\n meat in oven, with 2 l of fat, air 110 °C, for 2 h\n collect 2 l of liquor\n\
        phase use is prep\n meat on bench, for 5 min, use all liquor";
    let text = food("pork shoulder, 1 kg\ningredient fat is 2 l goose fat", phases, "meat");
    assert!(near(kg_through(&text, "use").0, 1.0));
    assert!(codes(&text).is_empty());
    let emptied = text.replace(
        "for 2 h\n collect",
        "for 2 h\nphase lift is prep\n meat on bench, uncovered, for 5 min\n collect",
    );
    assert_eq!(codes(&emptied), ["stock-overdrawn"], "a new cover ends the lying in it");
}

#[test]
fn using_passes_no_mass_and_becoming_mixes() {
    let salt = "pork shoulder, 4 kg\ningredient salt is 400 g salt";
    let rub = "phase rub is prep\n meat on bench, for 5 min, use all salt";
    assert!(near(kg_through(&food(salt, rub, "meat"), "rub").1, 4.0));
    let brine = "phase brine is prep\n meat on bench, becomes ham, for 5 min, use all salt";
    assert!(near(kg_through(&food(salt, brine, "ham"), "brine").1, 4.4));
    let written = "phase brine is prep\n meat on bench, becomes ham, 4.2 kg, for 5 min, use all salt";
    let (start, end) = kg_through(&food(salt, written, "ham"), "brine");
    assert!(near(start, 4.4) && near(end, 4.2), "the sum is the mass at the start: {start} to {end}");
}

#[test]
fn onions_of_no_known_mass_make_a_sum_about() {
    let text = food(
        "pork shoulder, 4 kg\ningredient onions is 2 onions",
        "phase mix is prep\n meat on bench, becomes stew, for 5 min, use all onions",
        "stew",
    );
    let (_, ledger, _) = ledger_of(&text);
    let start = ledger.phases[0].foods[0].start.expect("a mass");
    assert!(start.about && near(start.mass.kg(), 4.0));
}

#[test]
fn trays_may_come_out_three_per_cent_over() {
    let into = |trays: &str| {
        food(
            "beef mince, 10 kg",
            &format!("phase divide is prep\n meat on bench, {trays}, depth 5 cm, for 5 min"),
            "meat",
        )
    };
    assert!(codes(&into("4 trays of 2.5 kg")).is_empty());
    assert!(codes(&into("4 trays of 2.57 kg")).is_empty(), "2.8 % over");
    assert_eq!(codes(&into("4 trays of 2.6 kg")), ["stock-overdrawn"], "4 % over");
    assert!(codes(&into("4 trays of 2.43 kg")).is_empty(), "2.8 % under");
    assert_eq!(codes(&into("4 trays of 2 kg")), ["stock-left"]);
    let (_, ledger, findings) = ledger_of(&into("4 trays of 2.6 kg"));
    assert_eq!(ledger.phases[0].foods[0].pieces, Some((4.0, "trays".into())));
    assert!(findings[0].remedy.render(Scale::Celsius).contains("`4 trays of 2.5 kg`"));
}

/// What the ledger says of a text, in words.
fn said(text: &str) -> Vec<String> {
    ledger_of(text).2.iter().map(|finding| finding.message.render(Scale::Celsius)).collect()
}

#[test]
fn left_overs_are_told_apart_and_in_the_units_of_the_file() {
    let divided = "phase divide is prep\n meat on bench, 4 trays of 2 lb, depth 2 in, for 5 min\n\
                   phase keep is cold hold\n 2 trays of meat in cold, air 3 °C, becomes early, for 1 h";
    let text = food("beef mince, 10 lb", divided, "early");
    assert_eq!(
        said(&text),
        ["Left over at the end: 4 lb of meat, 2 lb of meat beside the pieces."],
        "two trays are left, and what four trays did not take"
    );
    let twice = "phase divide is prep\n meat on bench, 4 trays of 2 kg, depth 5 cm, for 5 min\n\
                 phase again is prep\n meat on bench, 2 trays of 3 kg, depth 5 cm, for 5 min";
    let text = food("beef mince, 10 kg", twice, "meat");
    assert_eq!(said(&text), ["Left over at the end: 4 kg of meat."], "2 kg beside, twice");
    let bags = butter("4 vacuum bags", "use 2 bags").replace("butter", "bags");
    assert_eq!(said(&bags), ["Left over at the end: 2 vacuum bags."], "and not: of bags");
}

#[test]
fn an_overdrawn_division_offers_what_comes_out() {
    let text = food(
        "beef mince, 10 lb",
        "phase divide is prep\n meat on bench, 3 trays of 4 lb, depth 2 in, for 5 min",
        "meat",
    );
    let (_, _, findings) = ledger_of(&text);
    assert_eq!(said(&text), ["3 trays of 4 lb are 12 lb; there is only 10 lb of meat here."]);
    let remedy = findings[0].remedy.render(Scale::Celsius);
    assert_eq!(remedy, "Write `3 trays of 3.33 lb`, or buy more.");
}

#[test]
fn a_cover_draws_nothing_by_itself() {
    let wrap = |paper: &str, lines: &str| {
        butter(paper, &format!("wrapped in paper\n {lines}")).replace("butter", "paper")
    };
    let text = wrap("6 ft baking paper", "note \"tight\"");
    assert_eq!(said(&text), ["No line says how much paper this takes, so it is not known to be enough."]);
    let remedy = ledger_of(&text).2[0].remedy.render(Scale::Celsius);
    assert!(remedy.contains("`use 6 ft of paper`"), "{remedy}");
    assert!(codes(&wrap("6 ft baking paper", "use all paper")).is_empty());
    assert!(codes(&wrap("paper, to taste", "note \"tight\"")).is_empty(), "nobody counts it");
    let foil = butter("200 g butter", "use all butter\n wrapped in foil");
    assert!(codes(&foil).is_empty(), "foil needs no line");
    // The same piece, named again further down.
    let twice = wrap("6 ft baking paper", "use all paper")
        .replace("serve", "phase stand is rest\n bread on bench\n wrapped in paper\n for 5 min\nserve");
    assert!(codes(&twice).is_empty());
}

#[test]
fn parts_leave_the_rest_behind() {
    let phases = "phase divide is prep\n meat on bench, 6 trays of 2 kg, depth 5 cm, for 5 min\n\
        phase one is cold hold\n 2 trays of meat in cold, air 3 °C, becomes early, for 1 h\n\
        phase two is cold hold\n half of meat in cold, air 3 °C, becomes middle, for 1 h\n\
        phase three is cold hold\n the rest of meat in cold, air 3 °C, becomes late, for 1 h";
    let text = food("beef mince, 12 kg", phases, "early and middle and late");
    for (phase, kg) in [("one", 4.0), ("two", 6.0), ("three", 2.0)] {
        assert!(near(kg_through(&text, phase).0, kg), "{phase}");
    }
    assert!(codes(&text).is_empty());
    let too_many = text.replace("2 trays of", "4 trays of");
    assert_eq!(
        codes(&too_many),
        ["stock-overdrawn", "stock-overdrawn"],
        "half is more than is left, then nothing is"
    );
}

#[test]
fn a_new_count_needs_a_new_thickness() {
    let into = |shape: &str| {
        codes(&food(
            "beef mince, 4 pieces of 3 kg",
            &format!("phase divide is prep\n meat on bench, {shape}, for 5 min"),
            "meat",
        ))
    };
    assert_eq!(into("6 trays of 2 kg"), ["count-without-shape"]);
    assert!(into("6 trays of 2 kg, depth 5 cm").is_empty());
    assert!(into("6 slices of 2 kg, thickness 2 cm").is_empty());
    assert!(into("4 pieces of 3 kg").is_empty(), "said again, not changed");
}

#[test]
fn promised_and_served_are_compared() {
    let serves = |people: u32, phases: &str, served: &str| {
        codes(
            &food("beef mince, 12 kg", phases, served)
                .replace("\"Test\"", &format!("\"Test\"\n serves {people} with 200 g each")),
        )
    };
    assert!(serves(60, "", "meat").is_empty());
    assert_eq!(serves(61, "", "meat"), ["servings-short"]);
    // A serving that leaves something for later eats N × Q.
    let twice = "serve meat, at 12:00\nphase keep is cold hold\n meat in cold, air 3 °C, for 1 h";
    assert!(serves(30, twice, "meat").is_empty());
    let text =
        food("beef mince, 12 kg", twice, "meat").replace("\"Test\"", "\"Test\"\n serves 30 with 200 g each");
    assert!(near(kg_through(&text, "keep").0, 6.0));
}

#[test]
fn amounts_in_prose_are_said_unless_a_clause_says_them() {
    let with = |text: &str| codes(&butter("200 g butter", &format!("use all butter, do \"{text}\"")));
    assert_eq!(with("Add 40 g of salt."), ["amount-in-prose"]);
    assert_eq!(with("Add ½ l of milk, 2 cups of flour."), ["amount-in-prose"; 2]);
    assert!(with("Spread the 200 g of butter; leave 6 mm; 5 min at 20 °C.").is_empty());
    let text = butter("200 g butter", "use all butter, do \"Add 40 g of salt.\"");
    let (sources, cook, _) = common::cook(&text);
    let findings = balance(&cook.expect("a cook")).1;
    assert_eq!(sources.slice(findings[0].span), "40 g", "the span is the amount, not the sentence");
}

#[test]
fn drawn_amounts_are_told_in_figures() {
    let (_, ledger, _) = ledger_of(&butter("200 g butter", "use 1/4 of butter, use all butter"));
    let drawn: Vec<String> = ledger.phases[0]
        .drawn
        .iter()
        .map(|drawn| drawn.amount.as_ref().map_or(String::new(), Amount::show))
        .collect();
    assert_eq!(drawn, ["50 g", "150 g"]);
}

#[test]
fn losses_follow_the_food_under_every_name() {
    let stock = "potato, 10 kg, trim loss 10 %, cooked yield 80 %";
    let steps = "phase weigh is cold hold\n meat in cold, air 3 °C, becomes batch, for 1 h\n\
        phase peel is prep\n batch on bench, becomes peeled, for 5 min\n\
        phase roast is cook\n peeled in oven, air 180 °C, becomes roasted, for 1 h";
    let text = food(stock, steps, "roasted");
    // 10 kg, less a tenth, times 0.8: by hand.
    assert!(near(kg_through(&text, "peel").0, 9.0));
    assert!(near(kg_through(&text, "roast").1, 7.2));
    assert!(codes(&text).is_empty());
    assert_eq!(codes(&food(stock, "", "meat")), ["loss-never-taken"; 2]);
    let unpeeled = "phase roast is cook\n meat in oven, air 180 °C, for 1 h";
    assert_eq!(codes(&food(stock, unpeeled, "meat")), ["loss-never-taken"]);
    let raw = "phase peel is prep\n meat on bench, for 5 min";
    assert_eq!(codes(&food(stock, raw, "meat")), ["loss-never-taken"]);
}

#[test]
fn losses_of_several_foods_blend() {
    let stock = "beef mince, 6 kg, cooked yield 50 %\nfood beans is cooked beans, 4 kg";
    let steps = "phase mix is prep\n meat and beans on bench, becomes mix, for 5 min\n\
        phase roast is cook\n mix in oven, air 180 °C, for 1 h";
    // Half of six and all of four.
    assert!(near(kg_through(&food(stock, steps, "mix"), "roast").1, 7.0));
    let at_once = "phase roast is cook\n meat and beans in oven, air 180 °C, becomes mix, for 1 h";
    assert!(near(kg_through(&food(stock, at_once, "mix"), "roast").1, 7.0));
}

#[test]
fn promised_pieces_are_counted() {
    let buns = |people: u32| {
        let text = food("white bread, 65 pieces of 60 g", "", "meat");
        codes(&text.replace("\"Test\"", &format!("\"Test\"\n serves {people} with 1 piece each")))
    };
    assert!(buns(65).is_empty());
    assert_eq!(buns(66), ["servings-short"]);
}

#[test]
fn a_sauce_is_made_of_stock_alone() {
    let text = "cook \"Test\"\n kit pan is hob\n ingredient flour is 40 g flour\n ingredient milk is 960 ml milk\n\
        phase sauce is cook\n on pan\n becomes sauce\n use all flour and milk\n liquid 95 °C\n for 10 min\n\
        serve sauce, at 18:30\n";
    let (_, ledger, findings) = ledger_of(text);
    assert!(findings.is_empty());
    // A litre is taken for a kilogram, and the sum said as "about".
    let start = ledger.phases[0].foods[0].start.expect("a mass");
    assert!(start.about && near(start.mass.kg(), 1.0));
}

#[test]
fn a_note_beside_a_food_is_read_as_well() {
    let text = food("pork shoulder, 4 kg\n note \"Ask for 2 kg of bones.\"", "", "meat");
    assert_eq!(codes(&text), ["amount-in-prose"]);
}
