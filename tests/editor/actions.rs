//! Changes that are offered do what they say.

use std::collections::BTreeMap;

use dwell::compile::{Compiled, Options, compile};
use dwell::editor::{Action, Aim, NewFile, View, actions};
use dwell::findings::{ALL, Code, Edit, Finding, Severity, Stage};
use dwell::syntax::parse;
use dwell::text::{FileId, Span};

use crate::common::Memory;
use crate::common::texts::{GOOD, TOO_COOL};

const MAIN: FileId = FileId(0);

/// A file and those that it names.
type Files<'f> = [(&'f str, &'f str)];

fn compiled(files: &Files, text: &str, options: &Options) -> Compiled {
    compile(&Memory(files), files[0].0.into(), text.into(), options)
}

/// What is offered at a place, everything about the text being known.
fn offered(files: &Files, compiled: &Compiled, at: Span) -> Vec<Action> {
    let text = &compiled.sources.get(MAIN).text;
    let (tree, _) = parse(MAIN, text);
    let declared = Options { declared_only: true, ..Options::default() };
    let again = |text: &str, beside: &[NewFile]| {
        let beside = beside.iter().map(|(name, text)| (name.as_str(), text.as_str()));
        let files: Vec<_> = files.iter().copied().chain(beside).collect();
        self::compiled(&files, text, &declared).findings
    };
    actions(&View { tree: &tree, compiled, file: MAIN }, at, &again)
}

fn known(files: &Files, text: &str) -> Compiled {
    compiled(files, text, &Options { cures: true, ..Options::default() })
}

fn counts(findings: &[Finding]) -> BTreeMap<Code, usize> {
    findings.iter().fold(BTreeMap::new(), |mut counts, finding| {
        *counts.entry(finding.code).or_default() += 1;
        counts
    })
}

/// What is predicted once every line can be read.
fn predicted(code: Code) -> bool {
    matches!(code.stage(), Stage::Heat | Stage::Safety | Stage::Timing)
}

/// Makes the change; its finding has to be gone, and nothing new there but what was `hidden`.
fn hold(files: &Files, before: &Compiled, action: &Action, hidden: impl Fn(Code) -> bool) {
    let text = &before.sources.get(MAIN).text;
    assert!(action.edits.is_sorted_by(|a, b| a.span.end <= b.span.start), "{action:?}");
    let mut changed = Edit::apply(text, &action.edits);
    if matches!(action.aim, Aim::Allow(_)) {
        // Nobody's reason stands there but the cook's, and there has to be one.
        let unsaid = known(files, &changed).findings.into_iter().filter(|one| one.code == Code::AllowUnknown);
        assert_eq!(unsaid.count(), 1, "{action:?}\n{changed}");
        changed = changed.replace("because \"\"", "because \"the cook says so\"");
    }
    let after = known(files, &changed);
    if let Aim::Begin(nth) = action.aim {
        // What is missing now is told, and the name is known.
        let same = |one: &Finding| {
            one.code == before.findings[nth].code && one.message == before.findings[nth].message
        };
        assert!(!after.findings.iter().any(same), "{action:?}\n{changed}");
        return;
    }
    let (had, has) = (counts(&before.findings), counts(&after.findings));
    // A cure that was tried counts errors and warnings: a note may have been silent beside the error.
    let cured = |nth: usize| before.findings[nth].cure.is_some();
    let silent = matches!(action.aim, Aim::Mend(nth) if cured(nth));
    for (code, count) in has
        .iter()
        .filter(|(code, _)| !hidden(**code))
        .filter(|(code, _)| !(silent && code.severity() == Severity::Note))
    {
        let then = had.get(code).copied().unwrap_or(0);
        assert!(*count <= then, "{action:?} brings up {}\n{changed}", code.name());
    }
    if let Aim::Mend(nth) | Aim::Allow(nth) = action.aim {
        let code = before.findings[nth].code;
        assert!(has.get(&code).unwrap_or(&0) < &had[&code], "{action:?} leaves {}\n{changed}", code.name());
    }
}

/// All that is offered for the bad example of a code.
fn for_example(code: Code) -> Vec<Action> {
    let explained = code.explained();
    let files: Vec<_> =
        explained.bad.iter().map(|one| (one.name.unwrap_or("main.dwell"), one.text)).collect();
    let Some((_, text)) = files.first() else { return Vec::new() };
    let before = known(&files, text);
    let mut all = Vec::new();
    for finding in before.findings.iter().filter(|finding| finding.span.file == MAIN) {
        for action in offered(&files, &before, finding.span) {
            hold(&files, &before, &action, |_| false);
            all.push(action);
        }
    }
    all
}

/// Of each code with an example: what is offered to mend it, and whether it may be left as it is.
#[test]
fn each_offer_for_a_bad_example_cures_and_harms_nothing() {
    let mut told = String::new();
    for &code in ALL {
        let offered = for_example(code);
        let titles = offered.iter().filter(|action| matches!(action.aim, Aim::Mend(_) | Aim::Allow(_)));
        for action in titles {
            told += &format!("{}: {}\n", code.name(), action.title);
        }
    }
    insta::assert_snapshot!("offers", told);
}

/// The titles of what is offered where `at` stands in a text, each of them held.
fn titles(text: &str, at: &str) -> Vec<String> {
    let files = [("main.dwell", text)];
    let before = known(&files, text);
    let start = text.find(at).expect("the place");
    let span = Span::new(MAIN, start, start + at.len());
    let offered = offered(&files, &before, span);
    let hidden = |code: Code| !before.understood() && predicted(code);
    offered.iter().for_each(|action| hold(&files, &before, action, hidden));
    offered.into_iter().map(|action| action.title).collect()
}

fn wrong(name: &str) -> String {
    let path = format!("{}/examples/wrong/{name}.dwell", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("the example")
}

#[test]
fn a_missing_scale_offers_both_where_both_can_be() {
    let text = GOOD.replace("18 °C", "18");
    assert_eq!(
        titles(&text, "starts at 18"),
        ["Write `18 °C` (heat and times not predicted)", "Write `18 °F` (heat and times not predicted)"]
    );
    // In an oven that goes down to 50 °C one of them cannot be.
    let text = TOO_COOL.replace("air 140 °C", "air 100").replace("air 40 °C", "air 50 °C");
    assert_eq!(titles(&text, "air 100"), ["Write `100 °C` (heat and times not predicted)"]);
}

#[test]
fn a_slip_is_mended_where_one_word_is_near() {
    assert_eq!(titles(&wrong("name-misspelt"), "all rbu"), ["Write `rub` (heat and times not predicted)"]);
    assert_eq!(
        titles(&GOOD.replace("13:00", "13.00"), "13.00"),
        ["Write `13:00` (heat and times not predicted)"]
    );
    assert_eq!(
        titles(&GOOD.replace("13:00", "1:30 pm"), "1:30 pm"),
        ["Write `13:30` (heat and times not predicted)"]
    );
    assert_eq!(
        titles(&GOOD.replace("5 min to", "1,5 min to"), "1,5"),
        ["Write `1.5` (heat and times not predicted)"]
    );
}

#[test]
fn stock_that_is_used_before_it_is_declared_is_declared_as_it_is_used() {
    let text = GOOD.replace("  takes", "  use 20 g of sugar\n  takes");
    assert_eq!(
        titles(&text, "sugar"),
        ["Declare it: `ingredient sugar is 20 g sugar` (heat and times not predicted)"]
    );
    // How much of it there is nobody said.
    assert!(titles(&text.replace("20 g of", "all"), "sugar").is_empty());
}

#[test]
fn an_offer_that_shows_what_another_line_hid_is_made_where_nothing_better_is() {
    let text = GOOD
        .replace("18 °C", "18")
        .replace("  takes 5", "  use 20 g of apples\n  use 9 kg of apples\n  takes 5");
    let files = [("main.dwell", text.as_str())];
    let before = known(&files, &text);
    let at = before.findings.iter().find(|finding| finding.code == Code::UnitMissing).expect("it").span;
    assert_eq!(offered(&files, &before, at).len(), 2);
}

/// What may make somebody ill, burn, or spoil food or kit, and what was measured of that; by hand.
const HAZARDS: [&str; 47] = [
    "food-unrecognised",
    "rules-assumed",
    "hold-too-cool",
    "hold-too-warm",
    "hold-entered-cold",
    "cook-end-too-cool",
    "come-up-too-slow",
    "reheat-too-cool",
    "reheat-too-slow",
    "reheated-twice",
    "cool-too-slow",
    "nitrite-too-high",
    "kept-too-long",
    "thaw-not-frozen",
    "parasites-not-frozen",
    "thaw-too-warm",
    "time-without-control",
    "raw-into-cooked",
    "growth-above-limit",
    "setting-out-of-range",
    "setting-not-had",
    "setting-missing",
    "settings-clash",
    "kit-too-full",
    "probe-missing",
    "smoke-not-had",
    "smoke-unvented",
    "kit-unfit",
    "bag-missing",
    "bag-too-hot",
    "pot-too-deep",
    "cover-not-drawn",
    "end-out-of-reach",
    "expectation-unlikely",
    "reading-contradicts",
    "reading-unplaced",
    "log-unreadable",
    "log-row-unreadable",
    "log-out-of-order",
    "log-gap",
    "log-ends-early",
    "sensor-implausible",
    "end-missing",
    "clock-time-twice",
    "never-on-time",
    "phase-overdue",
    "twin-disagrees",
];

#[test]
fn what_may_hurt_somebody_cannot_be_left_as_it_is() {
    for name in HAZARDS {
        let code = Code::find(name).expect("a code");
        for action in for_example(code) {
            let aim = action.aim;
            assert!(!matches!(aim, Aim::Allow(_)) || !action.title.contains(name), "{name}: {action:?}");
        }
    }
    assert_eq!(titles(TOO_COOL, "air 48 °C").len(), 2, "a cure and a twin");
}

#[test]
fn a_mend_of_which_nothing_was_predicted_says_so() {
    let said = |code: Code| {
        let titles = for_example(code).into_iter().filter(|action| matches!(action.aim, Aim::Mend(_)));
        let says: Vec<bool> =
            titles.map(|action| action.title.ends_with(" (heat and times not predicted)")).collect();
        assert!(!says.is_empty(), "{}", code.name());
        says
    };
    // A cover, a setting, a length.
    for code in [Code::BagMissing, Code::BagTooHot, Code::SettingOutOfRange, Code::UnitMissing] {
        assert!(said(code).into_iter().all(|says| says), "{}", code.name());
    }
    // A sign that was forgotten; cures that a full check has tried.
    for code in [Code::QuoteUnclosed, Code::ProbeMissing, Code::HoldTooCool, Code::CookEndTooCool] {
        assert!(!said(code).into_iter().any(|says| says), "{}", code.name());
    }
}

#[test]
fn a_temperature_is_given_its_twin() {
    assert_eq!(titles(GOOD, "18 °C"), ["Write (64 °F) beside it"]);
    let twin = GOOD.replace("18 °C", "18 °C (64 °F)");
    assert!(titles(&twin, "18 °C").is_empty());
    assert_eq!(titles(TOO_COOL, "air 40 °C to 250 °C"), ["Write (104 °F to 482 °F) beside it"]);
    assert_eq!(titles(&GOOD.replace("18 °C", "64 °F"), "64 °F"), ["Write (18 °C) beside it"]);
}

/// Two dishes for the crew, on one kitchen.
const TWO: &str = "// For the Saturday outing.\ncook \"Crew lunch\"\n  serves 4\n  rules us-food-code\n\nkit bench is bench\n\
    kit fridge is fridge\n\ncrew\n  2 people\n\n// From the boathouse tree.\nfood apples is apple\n  4 pieces of 150 g\n  \
    starts at 18 °C\n\nfood pears is pear\n  4 pieces of 150 g\n  starts at 18 °C\n\nphase slice is prep\n  apples on bench\n  \
    takes 5 min to 10 min\n\nphase peel is prep\n  pears on bench\n  takes 5 min to 10 min\n\nserve apples\n  at 13:00, up to 15 min late\n\n\
    serve pears\n  at 13:00, up to 15 min late\n";

fn splits(text: &str) -> Vec<Action> {
    let files = [("lunch.dwell", text)];
    let mut offered =
        offered(&files, &known(&files, text), Span::new(MAIN, text.find("cook").expect("it"), text.len()));
    offered.retain(|action| !action.files.is_empty());
    offered
}

#[test]
fn a_cook_of_two_dishes_is_split_into_a_menu_that_says_the_same() {
    let [split] = &splits(TWO)[..] else { panic!("one way to split it") };
    let menu = Edit::apply(TWO, &split.edits);
    let mut files = vec![("lunch.dwell", menu.as_str())];
    files.extend(split.files.iter().map(|(name, text)| (name.as_str(), text.as_str())));
    let (one, two) = (known(&[("lunch.dwell", TWO)], TWO), known(&files, &menu));
    assert_eq!(counts(&one.findings), counts(&two.findings));
    assert_eq!(two.cooks().len(), 2);
    assert_eq!(two.meal().expect("a plan").on_time, one.cooks()[0].timeline.expect("a plan").on_time);
    let all: String = files.iter().map(|(name, text)| format!("=== {name}\n{text}")).collect();
    for (name, text) in files {
        let (tree, found) = parse(MAIN, text);
        assert!(found.is_empty() && dwell::syntax::format(&tree, text) == text, "{name} is laid out\n{text}");
    }
    insta::assert_snapshot!("split", all);
}

#[test]
fn dishes_that_hang_together_are_not_split() {
    for (from, to) in [
        ("  pears on bench\n", "  pears on bench\n  starts after slice ends\n"),
        ("  pears on bench\n", "  pears on bench\n  use 1 apple\n"),
        ("  serves 4\n", "  serves 4 with 300 g each\n"),
        ("serve pears\n  at 13:00, up to 15 min late\n", ""),
        ("serve pears\n  at 13:00, up to 15 min late\n", "serve pears\n  from 13:00 to 14:00\n"),
        (
            "at 13:00, up to 15 min late\n\nserve pears\n  at 13:00",
            "at Saturday 13:00\n\nserve pears\n  at 14:00",
        ),
    ] {
        assert!(TWO.contains(from), "{from}");
        assert!(splits(&TWO.replace(from, to)).is_empty(), "{to}");
    }
    assert!(splits(GOOD).is_empty());
}

#[test]
fn a_food_that_nobody_declared_is_begun_where_its_kind_is_known() {
    let text =
        GOOD.replace("phase slice", "phase peel is prep\n  carrots on bench\n  takes 5 min\n\nphase slice");
    assert_eq!(titles(&text, "carrots"), ["Declare `carrots` as a food; how much of it is for you to write"]);
    assert_eq!(titles(&text.replace("carrots", "gadgets"), "gadgets"), [""; 0]);
}
