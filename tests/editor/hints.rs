//! What is written beside the lines.

use dwell::editor::{HintKind, Wanted, hints};

use crate::common::texts::GOOD;
use crate::support::{Written, declared};

const ALL: Wanted = Wanted { times: true, scale: true, core: true };

/// Each hint behind the line that it stands on, trimmed.
fn beside(written: &Written, wanted: Wanted) -> Vec<String> {
    let view = written.view();
    let text = view.text();
    let all = hints(&view, 0..text.len(), wanted);
    let line = |at: usize| text[..at].rsplit('\n').next().unwrap_or("").trim();
    all.into_iter().map(|hint| format!("{} | {}", line(hint.after), hint.text)).collect()
}

#[test]
fn each_kind_stands_where_it_belongs() {
    let written = Written::example("turkey-crown.dwell", "cook");
    let beside = beside(&written, ALL);
    let of = |start: &str| {
        beside.iter().filter(|hint| hint.starts_with(start)).map(String::as_str).collect::<Vec<_>>()
    };
    assert_eq!(of("air 50 °C"), ["air 50 °C to 250 °C | (122 °F to 482 °F)"]);
    assert_eq!(of("starts at 5 °C"), ["starts at 5 °C | (41 °F)"]);
    assert_eq!(of("until core 72 °C"), ["until core 72 °C | (161.6 °F)"]);
    let roast = of("phase roast is cook | ");
    assert!(roast.len() == 1 && roast[0].ends_with("ends 13:00 to 13:55"), "{roast:?}");
    let core = of("fills 2 shelves | ");
    assert_eq!(core, ["fills 2 shelves | core at its end: predicted 72 °C (71 to 73 °C)"]);
}

#[test]
fn a_twin_that_is_written_needs_no_other() {
    let written = Written::example("overnight-shoulder.dwell", "cook");
    assert!(!beside(&written, ALL).iter().any(|hint| hint.starts_with("air 110 °C")));
}

#[test]
fn a_difference_is_no_temperature() {
    let written = Written::one(
        "kit oven is fan oven\n  air 50 °C to 250 °C ± 9 °C\nkit bath is water bath\n  swing ± 0.5 °C\n",
    );
    let scale = Wanted { times: false, scale: true, core: false };
    assert_eq!(
        beside(&written, scale),
        ["air 50 °C to 250 °C ± 9 °C | (122 °F to 482 °F ± 16.2 °F)", "swing ± 0.5 °C | (0.9 °F)"]
    );
}

#[test]
fn each_kind_can_be_left_out() {
    let written = Written::example("turkey-crown.dwell", "cook");
    let view = written.view();
    let none = Wanted { times: false, scale: false, core: false };
    let kinds = |wanted| {
        hints(&view, 0..view.text().len(), wanted).into_iter().map(|hint| hint.kind).collect::<Vec<_>>()
    };
    assert!(kinds(none).is_empty());
    for (wanted, kind) in [
        (Wanted { times: true, ..none }, HintKind::Times),
        (Wanted { scale: true, ..none }, HintKind::Scale),
        (Wanted { core: true, ..none }, HintKind::Core),
    ] {
        let kinds = kinds(wanted);
        assert!(!kinds.is_empty() && kinds.iter().all(|found| *found == kind), "{kinds:?}");
    }
}

#[test]
fn only_what_is_asked_about_is_hinted() {
    let written = Written::example("turkey-crown.dwell", "phase roast");
    let view = written.view();
    let line = written.at..written.at + 20;
    let found = hints(&view, line.clone(), ALL);
    assert!(!found.is_empty() && found.iter().all(|hint| line.contains(&hint.after)), "{found:?}");
}

#[test]
fn what_is_not_worked_out_is_not_hinted() {
    // A line that is not understood: no times, no forecast, but the scale.
    let written = Written::example("turkey-crown.dwell", "phase roast");
    let broken = written.view().text().replace("  fills 2 shelves", "  fills and fills");
    let written = Written::one(&broken);
    let kinds: Vec<HintKind> =
        hints(&written.view(), 0..broken.len(), ALL).into_iter().map(|hint| hint.kind).collect();
    assert!(!kinds.is_empty() && kinds.iter().all(|kind| *kind == HintKind::Scale), "{kinds:?}");
    // The same before the full check.
    let written = Written::example("turkey-crown.dwell", "phase roast");
    let compiled = declared(written.view().text());
    let view = dwell::editor::View { compiled: &compiled, ..written.view() };
    let kinds: Vec<HintKind> =
        hints(&view, 0..view.text().len(), ALL).into_iter().map(|hint| hint.kind).collect();
    assert!(!kinds.is_empty() && kinds.iter().all(|kind| *kind == HintKind::Scale), "{kinds:?}");
}

#[test]
fn times_that_nobody_promises_are_told_apart() {
    let late = Written::example("turkey-crown.dwell", "phase roast");
    let late = late.view().text().replace(
        "air 170 °C\n  until core 72 °C, takes 1 h 40 min to 2 h 20 min",
        "air 170 °C\n  until \"done\", takes 1 h to 40 h",
    );
    let written = Written::one(&late);
    let view = written.view();
    let times: Vec<_> = hints(&view, 0..late.len(), Wanted { times: true, scale: false, core: false });
    assert!(!times.is_empty());
    for hint in times {
        assert!(hint.text.starts_with("perhaps ") && hint.means.contains("only with luck"), "{hint:?}");
    }
}

#[test]
fn the_dishes_of_a_menu_have_their_times() {
    let written = Written::example("club-supper.dwell", "menu");
    let times = Wanted { times: true, scale: false, core: false };
    let beside = beside(&written, times);
    assert_eq!(beside.len(), 3);
    assert_eq!(beside[0], "dish \"overnight-shoulder.dwell\" for 40 | 22:00 to 22:05, served 18:30 to 18:45");
}

#[test]
fn times_that_rest_on_a_predicted_length_say_so() {
    let times = Wanted { times: true, scale: false, core: false };
    let example = Written::example("turkey-crown.dwell", "cook");
    let said = "until core 72 °C, takes 1 h 40 min to 2 h 20 min";
    let text = example.view().text().replace(said, "until core 72 °C");
    assert_ne!(text, example.view().text());
    let is_predicted = |hint: &str| hint.ends_with(", as predicted");
    // Every length is said.
    assert!(!beside(&example, times).iter().any(|hint| is_predicted(hint)));
    let beside = beside(&Written::one(&text), times);
    let roast = beside.iter().position(|hint| hint.starts_with("phase roast is cook | ")).expect("the roast");
    assert!(roast > 0 && beside.len() > roast + 1, "{beside:?}");
    assert!(!is_predicted(&beside[0]), "what is over before the roast begins: {beside:?}");
    assert!(beside[roast..].iter().all(|hint| is_predicted(hint)), "{beside:?}");
}

#[test]
fn a_dish_that_rests_on_a_predicted_length_says_so() {
    let dish = GOOD
        .replace("kit bench is bench", "kit bench is bench\nkit hob is hob\nkit probe is probe thermometer")
        .replace("\nserve", "\nphase stew is cook\n  apples on hob\n  liquid 95 °C\n  {end}\n\nserve");
    let menu = "menu \"Lunch\"\n  serve at 13:00\n\ndish \"apples.dwell\"\n";
    let times = Wanted { times: true, scale: false, core: false };
    for (end, predicted) in [("for 20 min", false), ("until core 85 °C", true)] {
        let dish = dish.replace("{end}", end);
        let written = Written::of(&[("lunch.dwell", menu), ("apples.dwell", &dish)]);
        let [hint] = &beside(&written, times)[..] else { panic!("{:#?}", written.compiled.findings) };
        assert_eq!(hint.ends_with(", as predicted"), predicted, "{hint}");
    }
}
