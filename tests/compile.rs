//! The stages tied together: which rules judge, what `allow` silences, what a menu decides.

use dwell::compile::{Compiled, Options, compile};
use dwell::findings::Severity;
use dwell::quantity::Scale;
use dwell::text::{FileProblem, Files};

mod common;

/// A roast that is held hot at 48 °C; the Food Code 2022, 3-501.16 (A)(1), asks for 57 °C (135 °F).
const LAMB: &str = r#"cook "Lamb left to wait"
  serves 6
  rules us-food-code

kit oven is oven
  air 40 °C to 250 °C
kit probe is probe thermometer

food lamb is lamb leg
  1 piece of 2.4 kg
  starts at 5 °C

phase roast is cook
  lamb in oven
  air 140 °C
  until core 63 °C, takes 1 h 45 min to 3 h

phase wait is hot hold
  lamb in oven
  air 48 °C
  for 1 h to 3 h

serve lamb
  at 19:00
"#;

fn with(files: &dyn Files, text: &str, options: &Options) -> Compiled {
    compile(files, "cook.dwell".into(), text.as_bytes().to_vec(), options)
}

fn alone(text: &str) -> Compiled {
    with(&common::Memory(&[]), text, &Options::default())
}

fn said(compiled: &Compiled) -> Vec<(&'static str, Severity)> {
    compiled.findings.iter().map(|finding| (finding.code.name(), finding.severity)).collect()
}

fn sets(compiled: &Compiled) -> Vec<String> {
    let mut sets: Vec<String> =
        compiled.cooks().iter().flat_map(|worked| worked.judged).map(|judged| judged.set.clone()).collect();
    sets.dedup();
    sets
}

#[test]
fn an_allowed_food_safety_error_stays_as_a_caution_with_its_reason() {
    let text =
        LAMB.replace("  air 48 °C\n", "  air 48 °C\n  allow hold-too-cool because \"sliced and seared\"\n");
    let compiled = alone(&text);
    assert_eq!(said(&compiled), [("hold-too-cool", Severity::Warning)]);
    let message = compiled.findings[0].message.render(Scale::Celsius);
    assert!(message.contains("sliced and seared"), "{message}");
    // The verdict does not change: allowing is not meeting.
    let worked = compiled.cooks();
    assert!(worked[0].judged.iter().any(|judged| judged.verdict.name() == "broken"));
}

#[test]
fn an_allow_counts_only_in_its_own_block() {
    let text =
        LAMB.replace("  air 140 °C\n", "  air 140 °C\n  allow hold-too-cool because \"sliced and seared\"\n");
    assert_eq!(
        said(&alone(&text)),
        [("allow-unused", Severity::Warning), ("hold-too-cool", Severity::Error)]
    );
}

#[test]
fn a_note_that_is_allowed_is_gone() {
    let flour =
        LAMB.replace("phase roast", "ingredient salt is 70 g salt\n\nphase roast").replace("48 °C", "68 °C");
    let used = flour.replace("  air 140 °C\n", "  air 140 °C\n  use 20 g of salt\n");
    assert_eq!(said(&alone(&used)), [("stock-left", Severity::Note)]);
    let allowed = used.replace("70 g salt\n", "70 g salt\n  allow stock-left because \"for the table\"\n");
    assert_eq!(said(&alone(&allowed)), []);
}

#[test]
fn a_line_that_is_not_understood_cannot_be_allowed() {
    let text = LAMB.replace("48 °C", "68 °C").replace(
        "  for 1 h to 3 h\n",
        "  for 1 h to 3 h\n  lid on\n  allow line-unreadable because \"it is fine\"\n",
    );
    let compiled = alone(&text);
    assert!(said(&compiled).contains(&("line-unreadable", Severity::Error)), "{:?}", said(&compiled));
    assert!(said(&compiled).contains(&("allow-unused", Severity::Warning)), "{:?}", said(&compiled));
}

#[test]
fn rules_come_from_whoever_is_nearest() {
    let good = LAMB.replace("48 °C", "68 °C");
    let unsaid = good.replace("  rules us-food-code\n", "");
    let assumed = alone(&unsaid);
    assert_eq!(
        (said(&assumed), sets(&assumed)),
        (vec![("rules-assumed", Severity::Warning)], vec!["us-food-code".into()])
    );

    let own = common::Memory(&[("dwell.toml", "rules = \"uk\"\n")]);
    let compiled = with(&own, &unsaid, &Options::default());
    assert_eq!((said(&compiled), sets(&compiled)), (vec![], vec!["uk".to_owned()]));
    // The cook's own word goes before that of the folder, and that of the command line before both.
    assert_eq!(sets(&with(&own, &good, &Options::default())), ["us-food-code"]);
    let asked = Options { rules: Some("uk".into()), ..Options::default() };
    assert_eq!(sets(&with(&common::Memory(&[]), &good, &asked)), ["uk"]);

    let odd = common::Memory(&[("dwell.toml", "rules = \"uq\"\n")]);
    assert!(said(&with(&odd, &good, &Options::default())).contains(&("rules-unknown", Severity::Error)));
}

#[test]
fn dwell_toml_is_found_in_a_folder_above() {
    struct Above;
    impl Files for Above {
        fn read(&self, _: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
            match path {
                "../dwell.toml" => Ok(("dwell.toml".into(), b"rules = \"uk\"\n".to_vec())),
                _ if path.starts_with("../../") => Err(FileProblem::Outside),
                _ => Err(FileProblem::Missing),
            }
        }
    }
    let unsaid = LAMB.replace("  rules us-food-code\n", "");
    assert_eq!(sets(&with(&Above, &unsaid, &Options::default())), ["uk"]);
}

#[test]
fn a_dish_is_judged_by_its_own_rules_and_the_menus_for_its_people() {
    let files = [("lamb.dwell", LAMB)];
    let menu = "menu \"Supper\"\n  rules uk\n  serve at 2026-12-12 18:30 in Europe/Dublin\n\ndish \"lamb.dwell\" for 12\n";
    let compiled = with(&common::Memory(&files), menu, &Options::default());
    assert_eq!(sets(&compiled), ["us-food-code", "uk"]);
    let worked = compiled.cooks();
    assert_eq!(worked[0].cook.serves.as_ref().unwrap().people, 12);
    // The menu's hour replaces the dish's own: it has a date now.
    let start = worked[0].timeline.unwrap().start.expect("it can be timed");
    let shown = worked[0].timeline.unwrap().clock.rfc3339(start.latest);
    assert!(shown.is_some_and(|time| time.starts_with("2026-12-12T")));
    // Both sets refuse the hold: 57 °C in the one, 63 °C in the other.
    let refused = said(&compiled).iter().filter(|(code, _)| *code == "hold-too-cool").count();
    assert_eq!(refused, 2, "{:?}", said(&compiled));
}

#[test]
fn dishes_that_do_not_agree_are_reported_unless_the_menu_decides() {
    let early = LAMB.replace("48 °C", "68 °C").replace("at 19:00", "at 18:00");
    let late = LAMB.replace("48 °C", "68 °C");
    let files = [("early.dwell", early.as_str()), ("late.dwell", late.as_str())];
    let dishes = "\ndish \"early.dwell\"\ndish \"late.dwell\"\n";
    let codes = |menu: String| -> Vec<&str> {
        let compiled = with(&common::Memory(&files), &menu, &Options::default());
        compiled.findings.iter().map(|finding| finding.code.name()).collect()
    };
    assert_eq!(codes(format!("menu \"Supper\"\n{dishes}")), ["dishes-disagree"]);
    assert_eq!(codes(format!("menu \"Supper\"\n  serve at 19:30\n{dishes}")), ["on-time-if-lucky"]);
}

#[test]
fn findings_stand_in_the_order_of_the_file_and_none_twice() {
    let files = [("kitchen.dwell", "kit oven is ovn\n"), ("a.dwell", LAMB), ("b.dwell", LAMB)];
    let menu = "menu \"Supper\"\n  serve at 18:30\n\nkit from \"kitchen.dwell\"\nkit from \"kitchen.dwell\"\n\
                dish \"a.dwell\"\ndish \"a.dwell\"\ndish \"b.dwell\"\n";
    let compiled = with(&common::Memory(&files), menu, &Options::default());
    let places: Vec<_> = compiled.findings.iter().map(|finding| finding.span).collect();
    assert!(places.is_sorted());
    let classes = said(&compiled).iter().filter(|(code, _)| *code == "kit-class-unknown").count();
    assert_eq!(classes, 1);
    let holds = said(&compiled).iter().filter(|(code, _)| *code == "hold-too-cool").count();
    assert_eq!(holds, 2, "once for each file: {:?}", said(&compiled));
}

#[test]
fn times_are_worked_out_only_for_a_cook_that_is_understood() {
    let compiled = alone(&LAMB.replace("serves 6", "serves several"));
    assert!(!compiled.understood());
    assert!(compiled.cooks()[0].timeline.is_none());
    assert!(alone(LAMB).cooks()[0].timeline.is_some(), "a fault of food safety does not stop the clock");
}
