//! Every change that a remedy says was tried, made in the text and looked at again: by the report that a program
//! reads, and not by the way in which the cure was found.

mod common;

use std::collections::BTreeMap;
use std::sync::OnceLock;

use common::Memory;
use common::dice::Dice;
use dwell::compile::{Compiled, Options, compile};
use dwell::findings::Code;
use serde_json::Value;

fn run(text: &str, cures: bool) -> Compiled {
    let options = Options { cures, outline: true, ..Options::default() };
    // What the examples name, as they do.
    static EXAMPLES: OnceLock<Vec<(String, String)>> = OnceLock::new();
    let files = EXAMPLES.get_or_init(common::examples);
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    compile(&Memory(&files), "cook.dwell".into(), text.into(), &options)
}

fn report(compiled: &Compiled) -> Value {
    let mut report = dwell::output::json::Report::default();
    report.add(compiled);
    let report = report.text();
    serde_json::from_str(&report).expect("the report is JSON")
}

/// Byte offset of a line and a column, both from 1.
fn offset(text: &str, line: &Value, column: &Value) -> usize {
    let (line, column) = (line.as_u64().unwrap() as usize, column.as_u64().unwrap() as usize);
    let start: usize = text.split_inclusive('\n').take(line - 1).map(str::len).sum();
    start + text[start..].chars().take(column - 1).map(char::len_utf8).sum::<usize>()
}

/// The text with the edits of a cure made in it, the last first.
fn edited(text: &str, cure: &Value) -> String {
    let mut text = text.to_owned();
    for edit in cure["edits"].as_array().unwrap().iter().rev() {
        assert_eq!(edit["path"], "cook.dwell");
        let start = offset(&text, &edit["line"], &edit["column"]);
        let end = offset(&text, &edit["end_line"], &edit["end_column"]);
        text.replace_range(start..end, edit["text"].as_str().unwrap());
    }
    text
}

/// What a cook would take for the same finding, whatever line it has moved to.
fn same(one: &Value, other: &Value) -> bool {
    ["code", "phase", "food"].iter().all(|part| one[part] == other[part])
        && one["rule"]["set"] == other["rule"]["set"]
}

fn weighty(report: &Value) -> Vec<&Value> {
    let all = report["findings"].as_array().unwrap().iter();
    all.filter(|finding| finding["severity"] != "note").collect()
}

/// Looks at every cure that is offered for a text; gives the codes of errors and warnings of the stages that offer
/// cures, and whether one was offered.
fn check(name: &str, text: &str) -> Vec<(String, bool)> {
    let before = report(&run(text, true));
    let mut seen = Vec::new();
    for finding in weighty(&before) {
        let cure = &finding["cure"];
        seen.push((finding["code"].as_str().unwrap().to_owned(), !cure.is_null()));
        if cure.is_null() {
            continue;
        }
        let changed = edited(text, cure);
        let after = report(&run(&changed, false));
        let about =
            format!("{name}: {finding:#}\nin\n{text}\nchanged to\n{changed}\nsays {:#}", after["findings"]);
        assert!(!weighty(&after).iter().any(|other| same(other, finding)), "not cured: {about}");
        for now in weighty(&after) {
            let then = weighty(&before).into_iter().filter(|then| same(then, now));
            let graver = |then: &&Value| then["severity"] == "error" || now["severity"] == "warning";
            assert!(then.filter(graver).count() > 0, "new: {now:#}\n{about}");
        }
        // A fault that is not looked at any more is no cured one.
        let judged = after["judged"].as_array().unwrap().iter();
        let met = |row: &&Value| {
            row["verdict"] == "met" && row["phase"] == finding["phase"] && row["food"] == finding["food"]
        };
        assert!(finding["rule"].is_null() || judged.filter(met).count() > 0, "not met: {about}");
        // The words say what the edits do.
        let remedy = finding["remedy"].as_str().unwrap();
        for edit in cure["edits"].as_array().unwrap() {
            let shown = format!("`{}`", edit["text"].as_str().unwrap().trim());
            assert!(
                remedy.contains(&shown) && cure["text"].as_str().unwrap().contains(&shown),
                "{shown}: {about}"
            );
        }
    }
    seen
}

const KIT: &str = "kit oven is oven\nkit hob is hob\nkit bench is bench\nkit fridge is fridge\n  air 3 °C\n\
    kit chiller is blast chiller\n  air -20 °C to 5 °C\nkit bath is water bath\nkit probe is probe thermometer\n";

fn cook(food: &str, phases: &str) -> String {
    format!(
        "cook \"Supper after training\"\n  serves 6\n  rules us-food-code\n{KIT}food supper is {food}\n{phases}serve supper\n  at 19:00, up to 2 h late\n"
    )
}

/// A cook that goes wrong in one of the ways that cooks go wrong.
fn unsafe_cook(dice: &mut Dice) -> String {
    let joint = |dice: &mut Dice| {
        let kinds = ["lamb leg", "beef topside", "pork loin", "pork shoulder", "chicken", "turkey breast"];
        let kind = kinds[dice.roll(0, 5) as usize];
        let (cm, more) = (dice.roll(5, 12), ["", "  injected\n"][dice.roll(0, 1) as usize]);
        format!("{kind}\n  2 kg\n  thickness {cm} cm\n{more}  starts at 4 °C\n")
    };
    let cover = |dice: &mut Dice| {
        ["", "  covered\n", "  sealed in foil\n", "  uncovered\n"][dice.roll(0, 3) as usize]
    };
    let roast = |dice: &mut Dice, low, high| {
        let (air, core) = (10 * dice.roll(11, 18), dice.roll(low, high));
        format!(
            "phase roast is cook\n  supper in oven\n  air {air} °C\n  until core {core} °C, takes 1 h to 5 h\n"
        )
    };
    match dice.roll(0, 8) {
        // A hold that is too cool, or too dry, or comes too late.
        0 => {
            let (air, hours) = (dice.roll(45, 70), dice.roll(1, 6));
            let dish = joint(dice);
            let rest = match dice.one_in(3) {
                true => {
                    format!("phase stand is rest\n  supper on bench\n  for {} min\n", 15 * dice.roll(1, 12))
                }
                false => String::new(),
            };
            let (roast, cover) = (roast(dice, 71, 78), cover(dice));
            cook(
                &dish,
                &format!(
                    "{roast}{rest}phase wait is hot hold\n  supper in oven\n  air {air} °C\n{cover}  for 30 min to {hours} h\n"
                ),
            )
        }
        // A cook that ends too cool.
        1 => {
            let dish = joint(dice);
            cook(&dish, &roast(dice, 48, 70))
        }
        // A bath that is too short or too cool.
        2 => {
            let dish = joint(dice);
            let (water, hours) = (dice.roll(52, 64), dice.roll(1, 8));
            let length = match dice.roll(0, 2) {
                0 => format!("for {hours} h"),
                1 => format!("for at least {hours} h"),
                _ => format!("for {hours} h to {} h", hours + dice.roll(1, 4)),
            };
            cook(
                &dish,
                &format!(
                    "phase bathe is cook\n  supper in bath\n  vacuum bagged\n  water {water} °C\n  {length}\n"
                ),
            )
        }
        // A stew that cools too slowly.
        3 | 4 => {
            let (depth, kg) = (dice.roll(4, 30), dice.roll(6, 20));
            let cold = if dice.one_in(2) {
                "supper in fridge".into()
            } else {
                format!("supper in chiller\n  air {} °C", dice.roll(-15, 4))
            };
            let (cover, deep) = (cover(dice), dice.one_in(2));
            let end = match dice.roll(0, 2) {
                0 => "until core 5 °C, within 6 h".into(),
                1 => format!("until core 5 °C, takes {} h to 30 h", dice.roll(2, 20)),
                _ => format!("for {} h", dice.roll(2, 12)),
            };
            let trays = if deep {
                format!("phase fill is prep\n  supper on bench\n  depth {} cm\n  for 10 min\n", depth.min(12))
            } else {
                String::new()
            };
            cook(
                &format!("meat stew\n  {kg} kg, depth {depth} cm\n  starts at 4 °C\n"),
                &format!(
                    "phase simmer is cook\n  supper on hob\n  liquid 95 °C\n  until core 90 °C, takes 1 h to 6 h\n{trays}\
                     phase chill is cool\n  {cold}\n{cover}  {end}\nphase keep is cold hold\n  supper in fridge\n  for up to 2 days\n"
                ),
            )
        }
        // Kept too long, or reheated too little.
        5 => {
            let (days, core, hold) = (dice.roll(2, 14), dice.roll(50, 80), dice.one_in(2));
            let hold = if hold {
                "phase wait is hot hold\n  supper in oven\n  air 80 °C\n  sealed in foil\n  for up to 1 h\n"
            } else {
                ""
            };
            cook(
                "x",
                &format!(
                    "phase simmer is cook\n  mince on hob\n  becomes supper is meat stew, 4 kg, depth 4 cm\n  liquid 95 °C\n  until core 90 °C, takes 30 min to 2 h\n\
                     phase chill is cool\n  supper in chiller\n  air -10 °C\n  until core 4 °C, within 3 h\n\
                     phase keep is cold hold\n  supper in fridge\n  for 1 day to {days} days\n\
                     phase warm is reheat\n  supper on hob\n  liquid 95 °C\n  until core {core} °C, takes 20 min to 1 h 30 min\n{hold}"
                ),
            )
            .replace("food supper is x", "food mince is beef mince\n  4 kg, depth 4 cm\n  starts at 3 °C\n")
        }
        // Left in the room, or in a cupboard that is called cold.
        6 => {
            let (hours, dish) = (dice.roll(1, 9), joint(dice));
            let where_ =
                if dice.one_in(2) { "is rest\n  supper on bench" } else { "is prep\n  supper on bench" };
            let roast = roast(dice, 71, 78);
            cook(&dish, &format!("phase stand {where_}\n  for {hours} h\n{roast}"))
        }
        7 => {
            let (at, dish) = (dice.roll(6, 14), joint(dice));
            let roast = roast(dice, 71, 78);
            cook(
                &dish,
                &format!(
                    "phase keep is cold hold\n  supper in chiller\n  air {} °C\n  for up to 20 h\n{roast}",
                    at - 6
                ),
            )
            .replace("air 3 °C", &format!("air {at} °C"))
        }
        // An oven that does not get it there.
        _ => {
            let (dish, air, core) = (joint(dice), dice.roll(60, 90), dice.roll(60, 85));
            cook(
                &dish,
                &format!(
                    "phase roast is cook\n  supper in oven\n  air {air} °C\n  until core {core} °C, takes 2 h to 8 h\n"
                ),
            )
        }
    }
}

/// So many cooks that go wrong, and how often a cure was offered for each code of a finding.
fn random(seed: u64, cooks: usize) -> BTreeMap<String, (u32, u32)> {
    let mut dice = Dice(seed);
    let mut tally: BTreeMap<String, (u32, u32)> = BTreeMap::new();
    for n in 0..cooks {
        for (code, cured) in check(&format!("cook {n} of {seed}"), &unsafe_cook(&mut dice)) {
            let (seen, cures) = tally.entry(code).or_default();
            *seen += 1;
            *cures += u32::from(cured);
        }
    }
    tally
}

#[test]
fn every_cure_of_a_random_cook_cures_it_and_harms_nothing() {
    let tally = random(20_261_130, 110);
    // Not every fault has a cure of this kind, but one that is usual has one more often than not.
    for code in ["cook-end-too-cool", "hold-too-cool", "hold-too-warm", "kept-too-long", "end-out-of-reach"] {
        let (seen, cured) = tally.get(code).copied().unwrap_or_default();
        assert!(seen > 0 && 2 * cured > seen, "{code}: {tally:?}");
    }
}

#[test]
fn so_does_every_cure_of_others() {
    let tally = random(7_041_776, 110);
    let (seen, cured) = tally.get("cool-too-slow").copied().unwrap_or_default();
    assert!(seen > 0 && 3 * cured > seen, "{tally:?}");
}

#[test]
fn every_cure_of_an_example_cures_it() {
    for (name, text) in common::examples() {
        // A menu's dishes are examples themselves.
        if !text.contains("\ndish \"") {
            check(&name, &text);
        }
    }
    for folder in ["wrong", "unsafe"] {
        let folder = format!("{}/examples/{folder}", env!("CARGO_MANIFEST_DIR"));
        for entry in std::fs::read_dir(folder).expect("these examples are in the project") {
            let path = entry.expect("a readable folder").path();
            check(&path.display().to_string(), &std::fs::read_to_string(&path).expect("a readable example"));
        }
    }
}

#[test]
fn every_cure_of_the_long_texts_cures_the_bad_example() {
    for code in dwell::findings::ALL {
        for example in code.explained().bad.iter().take(1) {
            check(code.name(), example.text);
        }
    }
}

#[test]
fn every_cure_of_a_common_mistake_cures_it() {
    let table: toml::Value = toml::from_str(include_str!("mistakes.toml")).unwrap();
    for mistake in table["mistake"].as_array().unwrap() {
        let context = table["context"][mistake["context"].as_str().unwrap()].as_str().unwrap();
        check("a mistake", &context.replace("{}", mistake["typed"].as_str().unwrap()));
    }
}

/// The texts of the edits for the only finding of a code, after every cure was made and looked at.
fn cured(text: &str, code: &str) -> Vec<String> {
    check(code, text);
    let report = report(&run(text, true));
    let findings = report["findings"].as_array().unwrap();
    let finding = findings.iter().find(|finding| finding["code"] == code);
    let finding = finding.unwrap_or_else(|| panic!("no {code}: {findings:#?}"));
    let edits = finding["cure"]["edits"].as_array();
    edits.map_or_else(Vec::new, |edits| {
        edits.iter().map(|edit| edit["text"].as_str().unwrap().to_owned()).collect()
    })
}

const STEW: &str = "meat stew\n  12 kg, depth 20 cm\n  starts at 4 °C\n";
const SIMMER: &str =
    "phase simmer is cook\n  supper on hob\n  liquid 95 °C\n  until core 90 °C, takes 1 h to 2 h\n";

#[test]
fn a_hold_that_is_too_cool_is_to_be_hotter_and_in_foil() {
    let text = &common::examples().into_iter().find(|(name, _)| name == "too-cool.dwell").unwrap().1;
    assert_eq!(cured(text, "hold-too-cool"), ["air 65 °C", "sealed in foil"]);
    assert_eq!(cured(text, "cook-end-too-cool"), ["until core 63 °C"]);
    let report = report(&run(text, true));
    let hold =
        report["findings"].as_array().unwrap().iter().find(|one| one["code"] == "hold-too-cool").unwrap();
    let remedy = hold["remedy"].as_str().unwrap();
    let tried = "Tried: with `air 65 °C` instead of `air 48 °C` and `sealed in foil` instead of `covered` in `wait` this \
                 is met as predicted, and nothing new is found.";
    assert!(remedy.starts_with("Set it to 57 °C or hotter") && remedy.ends_with(tried), "{remedy}");
}

#[test]
fn a_deep_pot_is_to_be_cooled_less_deep() {
    let chill = "phase chill is cool\n  supper in chiller\n  air -5 °C\n  until core 5 °C, within 6 h\n\
                 phase keep is cold hold\n  supper in fridge\n  for up to 2 days\n";
    let text = cook(STEW, &format!("{SIMMER}{chill}"));
    let edits = cured(&text, "cool-too-slow");
    let [depth] = edits.as_slice() else { panic!("{edits:?}") };
    let cm: f64 = depth.trim().strip_prefix("depth ").unwrap().strip_suffix(" cm").unwrap().parse().unwrap();
    assert!((2.0..12.0).contains(&cm), "{depth}");
    // A line of its own, ended as the lines of this file are.
    assert!(depth.starts_with("\n  depth"), "{depth:?}");
    let windows = text.replace('\n', "\r\n");
    assert_eq!(cured(&windows, "cool-too-slow"), [depth.replace('\n', "\r\n")]);
}

#[test]
fn a_bath_that_is_too_short_is_to_be_longer_unless_dinner_would_be_late() {
    let beef = "beef topside\n  2 kg\n  thickness 6 cm\n  starts at 4 °C\n";
    let bathe = |start: &str| {
        format!("phase bathe is cook\n  supper in bath\n  vacuum bagged\n  water 60 °C\n{start}  for 2 h\n")
    };
    assert_eq!(cured(&cook(beef, &bathe("")), "cook-end-too-cool"), ["for 4 h 30 min"]);
    // From 17:00 there is no such time before 19:00.
    let late = cured(&cook(beef, &bathe("  starts at 17:00\n")), "cook-end-too-cool");
    assert!(!late.iter().any(|edit| edit.starts_with("for ")), "{late:?}");
}

#[test]
fn what_is_reheated_too_little_is_to_be_hotter_and_what_is_kept_too_long_eaten_sooner() {
    let mince = |days: &str, core: &str| {
        cook(
            "x",
            &format!(
                "phase simmer is cook\n  mince on hob\n  becomes supper is meat stew, 4 kg, depth 4 cm\n  liquid 95 °C\n  \
                 until core 90 °C, takes 30 min to 2 h\nphase chill is cool\n  supper in chiller\n  air -10 °C\n  \
                 until core 4 °C, within 3 h\nphase keep is cold hold\n  supper in fridge\n  for 1 day to {days}\n\
                 phase warm is reheat\n  supper on hob\n  liquid 95 °C\n  until core {core}, takes 20 min to 1 h\n\
                 phase wait is hot hold\n  supper in oven\n  air 80 °C\n  sealed in foil\n  for up to 1 h\n"
            ),
        )
        .replace("food supper is x", "food mince is beef mince\n  4 kg, depth 4 cm\n  starts at 3 °C\n")
    };
    assert_eq!(cured(&mince("3 days", "60 °C"), "reheat-too-cool"), ["until core 74 °C"]);
    assert_eq!(cured(&mince("3 days", "150 °F"), "reheat-too-cool"), ["until core 165 °F"]);
    // Seven days, the first included: FDA Food Code 2022, 3-501.17.
    assert_eq!(cured(&mince("10 days", "80 °C"), "kept-too-long"), ["for 1 day to 6 days"]);
}

#[test]
fn an_injected_joint_that_comes_up_too_slowly_gets_a_cure_that_holds_or_none() {
    let joint = "pork shoulder\n  4 kg\n  thickness 14 cm\n  injected\n  starts at 4 °C\n";
    for air in [65, 75, 85] {
        let roast = format!(
            "phase roast is cook\n  supper in oven\n  air {air} °C\n  until core 63 °C, takes 10 h to 30 h\n"
        );
        check("an injected joint", &cook(joint, &roast).replace("us-food-code", "us-fsis"));
    }
}

#[test]
fn without_a_forecast_nothing_is_claimed() {
    let joint = "lamb leg\n  2 kg\n  starts at 4 °C\n";
    let phases = "phase roast is cook\n  supper in oven\n  air 150 °C\n  until core 75 °C, takes 1 h to 2 h\n\
                  phase wait is hot hold\n  supper in oven\n  air 48 °C\n  for up to 1 h\n";
    assert!(cured(&cook(joint, phases), "hold-too-cool").is_empty());
}

#[test]
fn bought_ready_to_eat_no_number_of_days_is_claimed() {
    let phases = "phase keep is cold hold\n  supper in fridge\n  for up to 10 days\n";
    assert!(cured(&cook("meat stew\n  2 kg\n  starts at 4 °C\n", phases), "kept-too-long").is_empty());
}

#[test]
fn cures_are_looked_for_only_where_they_are_asked_for_and_repeat() {
    let text = cook(
        STEW,
        &format!(
            "{SIMMER}phase chill is cool\n  supper in chiller\n  air -5 °C\n  until core 5 °C, within 6 h\n"
        ),
    );
    let (plain, first, again) = (run(&text, false), run(&text, true), run(&text, true));
    assert_eq!(first.findings, again.findings);
    assert!(plain.findings.iter().all(|finding| finding.cure.is_none()));
    assert!(first.findings.iter().any(|finding| finding.cure.is_some()));
    for (plain, with) in plain.findings.iter().zip(&first.findings) {
        let scale = dwell::quantity::Scale::Celsius;
        let (short, long) = (plain.remedy.render(scale), with.remedy.render(scale));
        assert_eq!(long.len() > short.len(), with.cure.is_some());
        assert!(long.starts_with(&short), "{long}");
    }
}

#[test]
fn a_dish_of_a_menu_is_changed_in_its_own_file() {
    let dish = cook(
        STEW,
        &format!(
            "{SIMMER}phase chill is cool\n  supper in chiller\n  air -5 °C\n  until core 5 °C, within 6 h\n"
        ),
    );
    let menu = "menu \"Supper\"\n  rules us-food-code\ndish \"stew.dwell\" for 12\n";
    let files = [("menu.dwell", menu), ("stew.dwell", dish.as_str())];
    let options = Options { cures: true, outline: true, ..Options::default() };
    let compiled = compile(&Memory(&files), "menu.dwell".into(), menu.into(), &options);
    let report = report(&compiled);
    let cures = report["findings"].as_array().unwrap().iter().map(|finding| &finding["cure"]);
    let edits: Vec<&Value> = cures.filter_map(|cure| cure["edits"].as_array()).flatten().collect();
    assert!(!edits.is_empty(), "{report:#}");
    assert!(edits.iter().all(|edit| edit["path"] == "stew.dwell"), "{edits:?}");
}

#[test]
fn a_cook_longer_than_any_real_one_is_not_compiled_again_and_again() {
    let stands: String =
        (0..210).map(|n| format!("phase stand{n} is rest\n  supper on bench\n  for 5 min\n")).collect();
    let text = cook("lamb leg\n  2 kg\n  thickness 9 cm\n  starts at 4 °C\n", &stands);
    let found = run(&text, true).findings;
    assert!(!found.is_empty() && found.iter().all(|finding| finding.cure.is_none()));
}

#[test]
fn no_more_texts_are_compiled_than_a_file_is_worth() {
    use std::cell::Cell;
    /// Counts how often the file beside the cook is read: once for every text.
    struct Counting(Cell<usize>);
    impl dwell::text::Files for Counting {
        fn read(&self, _: &str, path: &str) -> Result<(String, Vec<u8>), dwell::text::FileProblem> {
            if path != "kitchen.dwell" {
                return Err(dwell::text::FileProblem::Missing);
            }
            self.0.set(self.0.get() + 1);
            Ok((path.into(), KIT.into()))
        }
    }
    let stews: String = (0..9)
        .map(|n| {
            format!(
                "food stew{n} is meat stew\n  12 kg, depth 25 cm\n  starts at 4 °C\nphase simmer{n} is cook\n  stew{n} on hob\n  \
                 liquid 95 °C\n  until core 90 °C, takes 1 h to 6 h\nphase chill{n} is cool\n  stew{n} in fridge\n  \
                 until core 5 °C, takes 20 h to 40 h\nserve stew{n}\n  at 19:00\n"
            )
        })
        .collect();
    let text =
        format!("cook \"Stews\"\n  serves 6\n  rules us-food-code\nkit from \"kitchen.dwell\"\n{stews}");
    let files = Counting(Cell::new(0));
    let options = Options { cures: true, outline: true, ..Options::default() };
    let compiled = compile(&files, "cook.dwell".into(), text.into(), &options);
    let slow = compiled.findings.iter().filter(|one| one.code.name() == "cool-too-slow").count();
    // The text as it is, and forty more.
    assert!(slow >= 9 && (20..=41).contains(&files.0.get()), "{slow} faults, {} texts", files.0.get());
}

/// What the plan says would do for the clock is tried by the rules too, and is then a change that can be made.
#[test]
fn another_length_that_puts_the_plan_right_is_offered_as_a_change() {
    let bad = Code::NeverOnTime.explained().bad;
    let found = check("the bad example of never-on-time", bad[0].text);
    assert!(found.contains(&("never-on-time".to_owned(), true)), "{found:?}");
}
