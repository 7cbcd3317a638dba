//! The rules over predicted curves: cooks that a look at settings and end points alone would get wrong.

mod common;

use dwell::compile::{Compiled, Options, compile};
use dwell::findings::{Finding, Severity};
use dwell::quantity::Scale;
use dwell::safety::{Judged, Verdict};

fn compiled(text: &str) -> Compiled {
    let options = Options { outline: true, ..Options::default() };
    let compiled = compile(&common::Memory(&[]), "test.dwell".into(), text.into(), &options);
    assert!(compiled.understood(), "{:#?}\n{text}", said(&compiled));
    compiled
}

fn said(compiled: &Compiled) -> Vec<String> {
    let one = |f: &Finding| {
        format!("{} {}: {}", f.code.name(), f.severity.name(), f.message.render(Scale::Celsius))
    };
    compiled.findings.iter().map(one).collect()
}

fn of<'c>(compiled: &'c Compiled, code: &str) -> Vec<&'c Finding> {
    compiled.findings.iter().filter(|finding| finding.code.name() == code).collect()
}

/// The only finding with this code.
fn one<'c>(compiled: &'c Compiled, code: &str) -> &'c Finding {
    let [finding] = of(compiled, code)[..] else { panic!("{code} in {:#?}", said(compiled)) };
    finding
}

fn rows(compiled: &Compiled, rule: &str) -> Vec<Judged> {
    let cooks = compiled.cooks();
    cooks.iter().flat_map(|cook| cook.judged).filter(|judged| judged.rule == rule).cloned().collect()
}

fn verdicts(compiled: &Compiled, rule: &str) -> Vec<Verdict> {
    rows(compiled, rule).iter().map(|judged| judged.verdict).collect()
}

fn text_of(finding: &Finding) -> String {
    finding.message.render(Scale::Celsius)
}

/// One food in a bath and then eaten; `before` are clauses of the food.
fn bath(rules: &str, food: &str, clauses: &str, water: &str, time: &str) -> String {
    format!(
        "cook \"From the bath\"\n  rules {rules}\nkit bath is water bath\nkit bench is bench\nkit fridge is fridge\n  air 3 °C\n\
         food joint is {food}\n{clauses}  starts at 4 °C\ningredient bags is 1 vacuum bag\n\
         phase bag-up is prep\n  joint on bench\n  use all bags\n  vacuum bagged\n  takes 5 min to 10 min, hands-on\n\
         phase bath is cook\n  joint in bath\n  water {water}\n  for {time}\nserve joint\n  at 18:30\n"
    )
}

// Come-up: FSIS Cooking Guideline (Revised Appendix A), 2021: 50 to 130 °F in no more than 6 h.

#[test]
fn a_thin_injected_joint_is_through_in_time() {
    let quick = bath("us-fsis", "pork shoulder", "  500 g\n  injected\n  thickness 4 cm\n", "60 °C", "4 h");
    let quick = compiled(&quick);
    assert!(of(&quick, "come-up-too-slow").is_empty(), "{:#?}", said(&quick));
    assert_eq!(verdicts(&quick, "us-fsis.comeup"), [Verdict::Met]);
    let [row] = &rows(&quick, "us-fsis.comeup")[..] else { panic!() };
    let why = row.why.render(Scale::Celsius);
    assert!(why.contains("Predicted") && why.contains("A probe has to show it"), "{why}");
}

#[test]
fn without_a_thickness_nothing_is_judged_and_it_is_said_what_to_add() {
    let unknown = compiled(&bath("us-fsis", "pork shoulder", "  9 kg\n  injected\n", "60 °C", "24 h"));
    assert!(of(&unknown, "come-up-too-slow").is_empty(), "{:#?}", said(&unknown));
    for rule in ["us-fsis.comeup", "us-fsis.meat"] {
        let rows = rows(&unknown, rule);
        let [row] = &rows[..] else { panic!("{rule}: {rows:#?}") };
        assert_eq!(row.verdict, Verdict::NotJudged);
        let why = row.why.render(Scale::Celsius);
        assert!(why.contains("say how thick `joint` is at its thickest: `thickness 8 cm`"), "{why}");
    }
}

// The kill along the core.

#[test]
fn a_bath_that_is_long_enough_only_if_all_goes_as_usual_is_a_warning_with_a_cure() {
    // By its own thickness alone; 12 h are enough for all of it.
    let clauses = "  2 kg\n  thickness 7 cm ± 2 cm\n";
    let hours: Vec<(u32, Vec<Severity>)> = (2..=12)
        .map(|hours| {
            let text = bath("us-food-code", "pork loin", clauses, "60 °C", &format!("{hours} h"));
            let found = compiled(&text);
            (hours, of(&found, "cook-end-too-cool").iter().map(|finding| finding.severity).collect())
        })
        .collect();
    let first = |wanted: &[Severity]| hours.iter().position(|(_, found)| found == wanted);
    let (error, warning, none) = (first(&[Severity::Error]), first(&[Severity::Warning]), first(&[]));
    assert!(error < warning && warning < none && error.is_some(), "{hours:?}");
    // More time never makes it worse.
    assert!(hours.windows(2).all(|pair| pair[0].1.is_empty() <= pair[1].1.is_empty()), "{hours:?}");
    let text =
        bath("us-food-code", "pork loin", clauses, "60 °C", &format!("{} h", hours[warning.unwrap()].0));
    let found = compiled(&text);
    let finding = one(&found, "cook-end-too-cool");
    assert!(text_of(finding).starts_with("At the cold end of what is predicted, "), "{}", text_of(finding));
    assert!(text_of(finding).contains("short"), "{}", text_of(finding));
    let cure = finding.remedy.render(Scale::Celsius);
    assert!(
        cure.contains("hotter or longer") && cure.contains("`until core") && cure.contains('±'),
        "{cure}"
    );
}

#[test]
fn what_a_probe_ends_is_no_fault_of_a_prediction() {
    let text = |end: &str| {
        format!(
            "cook \"Bird\"\n  rules us-food-code\nkit oven is oven\nkit probe is probe thermometer\n\
             food bird is chicken breast\n  600 g\n  thickness 6 cm\n  starts at 4 °C\n\
             phase roast is cook\n  bird in oven\n  air 160 °C\n  {end}\nserve bird\n  at 18:30, up to 20 min late\n"
        )
    };
    // So short that no prediction gets there: the probe decides all the same.
    let probed = compiled(&text("until core 75 °C, takes 15 min to 20 min"));
    assert_eq!(verdicts(&probed, "us-fc.cook.165"), [Verdict::Met]);
    assert!(of(&probed, "cook-end-too-cool").is_empty(), "{:#?}", said(&probed));
    let timed = compiled(&text("for 20 min"));
    assert_eq!(one(&timed, "cook-end-too-cool").severity, Severity::Error);
}

/// UK: 75 °C for 30 s, 70 °C for 2 min: an end at 75 °C satisfies it by itself.
#[test]
fn a_probe_end_counts_with_the_heat_just_before_and_after_it() {
    let text = "cook \"Leg\"\n  rules uk\nkit oven is oven\nkit probe is probe thermometer\n\
                food lamb is lamb leg\n  2.4 kg\n  thickness 9 cm\n  starts at 4 °C\n\
                phase roast is cook\n  lamb in oven\n  air 140 °C\n  until core 75 °C, takes 2 h to 4 h\n\
                serve lamb\n  at 19:00\n";
    assert_eq!(verdicts(&compiled(text), "uk.cook"), [Verdict::Met]);
}

// Cooling. FDA Food Code 2022, 3-501.14: 57 °C to 21 °C within 2 h, to 5 °C within 6 h in all.

fn chilli(depth: &str, cool: &str) -> String {
    format!(
        "cook \"Chilli\"\n  rules us-food-code\nkit oven is steam oven\nkit chiller is blast chiller\n  air -20 °C to 5 °C\n\
         kit fridge is fridge\n  air 3 °C\nkit probe is probe thermometer\n\
         food chilli is meat stew\n  20 kg\n  depth {depth}\n  starts at 4 °C\n\
         phase simmer is cook\n  chilli in oven\n  covered\n  air 110 °C, moisture 90 %\n  until core 85 °C\n\
         phase chill is cool\n  chilli in chiller\n  air 0 °C\n  {cool}\n\
         phase keep is cold hold\n  chilli in fridge\n  for 1 day\nserve chilli\n  at 12:00\n"
    )
}

#[test]
fn cooling_that_is_late_only_on_the_warm_bound_is_a_warning() {
    let found: Vec<(u32, Vec<Severity>)> = (2..=16)
        .map(|cm| {
            let found = compiled(&chilli(&format!("{cm} cm"), "until core 5 °C"));
            (cm, of(&found, "cool-too-slow").iter().map(|finding| finding.severity).collect())
        })
        .collect();
    let first = |wanted: &[Severity]| found.iter().position(|(_, found)| found == wanted);
    let (none, warning, error) = (first(&[]), first(&[Severity::Warning]), first(&[Severity::Error]));
    assert!(none.is_some() && none < warning && warning < error, "{found:?}");
    let cm = found[warning.unwrap()].0;
    let warned = compiled(&chilli(&format!("{cm} cm"), "until core 5 °C"));
    let finding = one(&warned, "cool-too-slow");
    assert!(text_of(finding).starts_with("At the warm end of what is predicted, "), "{}", text_of(finding));
    assert!(text_of(finding).contains("too long"), "{}", text_of(finding));
}

#[test]
fn hot_food_that_is_put_away_is_judged_on_its_way_down_in_the_fridge() {
    let away = |depth: &str| {
        chilli(depth, "until core 5 °C")
            .replace("phase chill is cool\n  chilli in chiller\n  air 0 °C\n  until core 5 °C\n", "")
    };
    let deep = compiled(&away("20 cm"));
    let finding = one(&deep, "cool-too-slow");
    assert_eq!((finding.severity, finding.phase.as_deref()), (Severity::Error, Some("keep")));
}

// Holding.

fn held(cook: &str, wait: &str, hold: &str) -> String {
    format!(
        "cook \"Joint\"\n  rules us-food-code\nkit oven is oven\nkit bench is bench\nkit cabinet is holding cabinet\n\
         kit probe is probe thermometer\n\
         food joint is pork loin\n  2 kg\n  thickness 9 cm\n  starts at 4 °C\n\
         phase roast is cook\n  joint in oven\n  air 140 °C\n  {cook}\n\
         phase rest\n  joint on bench\n  for {wait}\n\
         phase wait is hot hold\n  joint in cabinet\n  {hold}\n  for 1 h\nserve joint\n  at 19:00\n"
    )
}

/// FDA Food Code 2022, 3-501.16: 57 °C (135 °F) or above.
#[test]
fn food_that_goes_into_a_hold_of_the_right_setting_too_cold_is_found() {
    let late = compiled(&held("until core 71 °C", "3 h", "air 60 °C"));
    let finding = one(&late, "hold-entered-cold");
    assert_eq!((finding.severity, finding.phase.as_deref()), (Severity::Error, Some("wait")));
    assert!(
        text_of(finding).starts_with("As predicted, the core of `joint` is as cold as "),
        "{}",
        text_of(finding)
    );
    let soon = compiled(&held("until core 71 °C", "10 min", "air 75 °C, sealed in foil"));
    assert!(
        of(&soon, "hold-entered-cold").is_empty() && of(&soon, "hold-too-cool").is_empty(),
        "{:#?}",
        said(&soon)
    );
    assert!(verdicts(&soon, "us-fc.hold.hot").iter().all(|verdict| *verdict == Verdict::Met));
}

#[test]
fn a_verdict_never_says_safe_and_a_predicted_one_says_so() {
    for text in [
        held("until core 71 °C", "3 h", "air 60 °C"),
        chilli("30 cm", "until core 5 °C"),
        bath("us-fsis", "pork shoulder", "  9 kg\n  injected\n  thickness 18 cm\n", "60 °C", "24 h"),
    ] {
        let found = compiled(&text);
        for cook in found.cooks() {
            for judged in cook.judged {
                let why = judged.why.render(Scale::Celsius);
                assert!(!why.to_lowercase().contains("safe"), "{why}");
            }
        }
        for said in said(&found) {
            assert!(!said.to_lowercase().contains(" safe"), "{said}");
        }
    }
}

/// FDA Food Code 2022, 3-403.11(A): 74 °C (165 °F) for 15 s within 2 h of leaving 5 °C.
#[test]
fn reheating_for_a_hold_is_judged_by_its_heat_and_its_time() {
    let text = |depth: &str, reheat: &str| {
        format!(
            "cook \"Stew again\"\n  rules us-food-code\nkit oven is steam oven\nkit cabinet is holding cabinet\n\
             kit probe is probe thermometer\nfood stew is meat stew\n  10 kg\n  depth {depth}\n  starts at 4 °C\n\
             phase warm is reheat\n  stew in oven\n  covered\n  {reheat}\n\
             phase wait is hot hold\n  stew in cabinet\n  covered\n  air 75 °C\n  for 30 min\nserve stew\n  at 12:00\n"
        )
    };
    let deep = compiled(&text("25 cm", "air 110 °C, moisture 90 %\n  until core 76 °C"));
    assert_eq!(one(&deep, "reheat-too-slow").severity, Severity::Error, "{:#?}", said(&deep));
    let short = compiled(&text("6 cm", "air 110 °C, moisture 90 %\n  for 15 min"));
    assert_eq!(one(&short, "reheat-too-cool").severity, Severity::Error, "{:#?}", said(&short));
    let flat = compiled(&text("3 cm", "air 150 °C, moisture 90 %\n  until core 80 °C"));
    assert!(
        of(&flat, "reheat-too-slow").iter().all(|f| f.severity == Severity::Warning),
        "{:#?}",
        said(&flat)
    );
}

/// Food Hygiene (Scotland) Regulations 2006, schedule 4: 82 °C; New Brunswick Regulation 2009-138: 74 °C; FSAI, advice for
/// caterers: 70 °C; French Arrêté of 21 December 2009, annex IV: 63 °C; FDA Food Code 2022, 3-403.11: no figure for what is
/// served at once, to order.
#[test]
fn what_is_eaten_warm_again_has_to_be_hot_enough_and_what_is_eaten_cold_has_not() {
    let text = |rules: &str, warm: &str| {
        format!(
            "cook \"Stew again\"\n  rules {rules}\nkit hob is hob\nkit fridge is fridge\n  air 2 °C\n\
             kit probe is probe thermometer\nfood stew is meat stew\n  2 kg\n  depth 3 cm\n  starts at 2 °C\n\
             phase keep is cold hold\n  stew in fridge\n  for 12 h\n{warm}serve stew\n  at 12:00, up to 30 min late\n"
        )
    };
    let ends_at = |celsius: u32| {
        format!(
            "phase warm is reheat\n  stew in hob\n  liquid 95 °C\n  until core {celsius} °C, takes 10 min to 20 min\n"
        )
    };
    for (rules, asked) in [("uk-scotland", 82), ("ca-nb", 74), ("eu-ie", 70), ("fr", 63)] {
        let short = compiled(&text(rules, &ends_at(asked - 1)));
        let finding = one(&short, "reheat-too-cool");
        assert_eq!(finding.severity, Severity::Error, "{rules}: {:#?}", said(&short));
        assert!(
            text_of(finding).contains(&format!("{asked} °C before it is eaten warm")),
            "{}",
            text_of(finding)
        );
        assert!(!finding.remedy.render(Scale::Celsius).contains("holding"), "{rules}");
        for enough in [ends_at(asked), String::new()] {
            let compiled = compiled(&text(rules, &enough));
            assert!(of(&compiled, "reheat-too-cool").is_empty(), "{rules}: {:#?}", said(&compiled));
        }
    }
    let at_once = compiled(&text("us-food-code", &ends_at(50)));
    assert!(of(&at_once, "reheat-too-cool").is_empty(), "{:#?}", said(&at_once));
}

/// A time is no temperature: a minute on the hob does not reheat a pot.
#[test]
fn reheating_by_the_clock_alone_is_judged_on_the_predicted_core() {
    let text = |time: &str| {
        format!(
            "cook \"Stew again\"\n  rules ca-nb\nkit hob is hob\nfood stew is meat stew\n  2 kg\n  depth 8 cm\n  starts at 4 °C\n\
             phase warm is reheat\n  stew in hob\n  liquid 95 °C\n  for {time}\nserve stew\n  at 12:00\n"
        )
    };
    assert_eq!(one(&compiled(&text("1 min")), "reheat-too-cool").severity, Severity::Error);
    let long = compiled(&text("4 h"));
    assert!(of(&long, "reheat-too-cool").is_empty(), "{:#?}", said(&long));
    assert_eq!(verdicts(&long, "ca.nb.leftovers"), [Verdict::Met], "{:#?}", rows(&long, "ca.nb.leftovers"));
}

/// Food Hygiene Regulations, schedule 4 (England, Wales, NI): below 63 °C for less than 2 h, once. The clock starts when the
/// food passes 63 °C, which a thick joint does later than a thin one.
#[test]
fn time_below_the_hot_limit_starts_when_the_core_passes_it() {
    let text = |thickness: &str, rest: &str, serve: &str| {
        format!(
            "cook \"On the board\"\n  rules uk\nkit oven is oven\nkit bench is bench\n  air 20 °C\nkit probe is probe thermometer\n\
             food joint is beef topside\n  3 kg\n  thickness {thickness}\nphase roast is cook\n  joint in oven\n  air 160 °C\n  \
             until core 75 °C, takes 1 h to 4 h\nphase stand is rest\n  joint on bench\n  for {rest}\nserve joint\n  {serve}\n"
        )
    };
    let thin = compiled(&text("2 cm", "2 h 20 min", "at 18:30"));
    assert_eq!(one(&thin, "time-without-control").severity, Severity::Error);
    assert!(
        text_of(one(&thin, "time-without-control")).contains("below 63 °C for 2 h"),
        "{:#?}",
        said(&thin)
    );
    let thick = compiled(&text("14 cm", "2 h 20 min", "at 18:30"));
    assert!(of(&thick, "time-without-control").is_empty(), "{:#?}", said(&thick));
    assert_eq!(verdicts(&thick, "uk.hold.hot.tolerance"), [Verdict::Met]);
    let long = compiled(&text("14 cm", "5 h", "at 18:30"));
    assert_eq!(one(&long, "time-without-control").severity, Severity::Error);
    // What stands on the table meanwhile is not predicted: the declared times speak.
    let buffet = compiled(&text("14 cm", "1 h 30 min", "from 18:30 to 20:30"));
    assert_eq!(one(&buffet, "time-without-control").severity, Severity::Warning, "{:#?}", said(&buffet));
}

/// A checkpoint that the prediction does not come near is no cook.
#[test]
fn what_is_only_expected_does_not_outweigh_what_is_predicted() {
    let text = |time: &str, expected: &str| {
        format!(
            "cook \"By the clock\"\n  rules us-food-code\nkit oven is oven\nkit probe is probe thermometer\nfood bird is whole chicken\n  \
             1 piece of 1.8 kg\n  thickness 9 cm\n  starts at 4 °C\nphase roast is cook\n  bird in oven\n  air 120 °C\n  for {time}\n\
             {expected}serve bird\n  at 18:30\n"
        )
    };
    let wish = compiled(&text("45 min", "  expect core 75 °C or above\n"));
    assert_eq!(one(&wish, "cook-end-too-cool").severity, Severity::Warning, "{:#?}", said(&wish));
    let none = compiled(&text("45 min", ""));
    assert_eq!(one(&none, "cook-end-too-cool").severity, Severity::Error, "{:#?}", said(&none));
}

/// FDA Food Code 2022, 3-501.16 and 3-501.19: what is ready is kept at 57 °C, or for no more than 4 h, whatever the phase is called.
#[test]
fn what_is_ready_is_not_kept_warm_by_calling_it_a_cook() {
    let text = |celsius: u32| {
        format!(
            "cook \"On the hob\"\n  rules us-food-code\nkit hob is hob\nkit probe is probe thermometer\nfood stew is meat stew\n  2 kg\n  \
             depth 8 cm\n  starts at 4 °C\nphase heat is reheat\n  stew in hob\n  liquid 95 °C\n  until core 80 °C, takes 20 min to 40 min\n\
             phase simmer is cook\n  stew in hob\n  liquid {celsius} °C\n  for 9 h\nserve stew\n  at 18:30, up to 1 h late\n"
        )
    };
    assert_eq!(one(&compiled(&text(55)), "time-without-control").severity, Severity::Error);
    assert!(of(&compiled(&text(70)), "time-without-control").is_empty());
}

#[test]
fn hours_in_the_room_of_what_nobody_knows_are_in_doubt() {
    let text = |time: &str, filling: &str| {
        format!(
            "cook \"Sandwiches\"\n  rules us-food-code\nkit bench is bench\nfood bread is white bread\n  1 kg\n\
             ingredient filling is 1 kg {filling}\nphase make is prep\n  bread on bench\n  use all filling\n  becomes sandwiches\n  \
             for {time}\nserve sandwiches\n  at 18:30\n"
        )
    };
    let long = compiled(&text("12 h", "best farm spread"));
    assert_eq!(one(&long, "time-without-control").severity, Severity::Warning, "{:#?}", said(&long));
    for (time, filling) in [("2 h", "best farm spread"), ("12 h", "jam")] {
        let calm = compiled(&text(time, filling));
        assert!(of(&calm, "time-without-control").is_empty(), "{filling}: {:#?}", said(&calm));
    }
}

/// Food Hygiene Regulations, schedule 4: below 63 °C for less than 2 h, above 8 °C for less than 4 h. What is bought at 60 °C may
/// have come down from the heat long ago.
#[test]
fn what_is_bought_warm_is_held_to_the_rules_of_both_sides() {
    let text = |starts: u32, time: &str| {
        format!(
            "cook \"Bought\"\n  rules uk\nkit bench is bench\n  air 20 °C\nfood chicken is cooked chicken\n  1 kg\n  starts at {starts} °C\n\
             phase stand is prep\n  chicken on bench\n  for {time}\nserve chicken\n  at 18:30\n"
        )
    };
    let warm = compiled(&text(60, "3 h 30 min"));
    assert_eq!(one(&warm, "time-without-control").severity, Severity::Warning, "{:#?}", said(&warm));
    for (starts, time) in [(60, "1 h"), (5, "3 h 30 min")] {
        let calm = compiled(&text(starts, time));
        assert!(of(&calm, "time-without-control").is_empty(), "{starts} °C: {:#?}", said(&calm));
    }
}
