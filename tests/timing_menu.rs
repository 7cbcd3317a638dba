//! Menus on the clock: several dishes in one kitchen.

mod common;

use common::{Memory, regatta};
use dwell::compile::{Compiled, Options, compile};
use dwell::findings::{Code, Finding};
use dwell::output::timelines;
use dwell::timing::OnTime;

fn compiled(files: &[(String, String)]) -> Compiled {
    let named: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    compile(&Memory(&named), named[0].0.into(), named[0].1.into(), &Options::default())
}

/// What the clock has to say.
fn timing(compiled: &Compiled) -> Vec<&Finding> {
    let codes = [Code::NeverOnTime, Code::OnTimeIfLucky, Code::TimingNotProved, Code::OrderCircular];
    compiled.findings.iter().filter(|finding| codes.contains(&finding.code)).collect()
}

fn words(compiled: &Compiled, finding: &Finding) -> (String, String) {
    (finding.message.render(compiled.scale), finding.remedy.render(compiled.scale))
}

fn on_time(compiled: &Compiled) -> OnTime {
    let said: Vec<_> = compiled.findings.iter().map(|finding| words(compiled, finding)).collect();
    compiled.meal().unwrap_or_else(|| panic!("not understood: {said:#?}")).on_time
}

#[test]
fn the_club_supper_is_one_plan_and_always_on_time() {
    let mut files = common::examples();
    files.sort_by_key(|(name, _)| name != "club-supper.dwell");
    let supper = compiled(&files);
    assert_eq!(on_time(&supper), OnTime::Always);
    assert!(timing(&supper).is_empty());
    let plan = supper.meal().expect("a plan");
    assert!(plan.servings.iter().all(|serving| serving.on_time == OnTime::Always));
    assert_eq!(plan.servings.len(), 3);
    assert!(plan.jobs.windows(2).all(|pair| pair[0].at.earliest <= pair[1].at.earliest), "by the clock");
    assert!(plan.jobs.iter().all(|job| !job.breaks_sleep));
    // The oven is switched on once, for the dish that has it first.
    let lit = plan.jobs.iter().filter(|job| job.text.render(supper.scale).starts_with("Switch on oven"));
    assert_eq!(lit.map(|job| job.cook.as_str()).collect::<Vec<_>>(), ["Baked beans"]);
    let page = timelines::text(&supper);
    let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        flat.contains("Roast") || flat.contains("Celeriac, roasted whole, roast: Celeriac to oven"),
        "{page}"
    );
    let json: serde_json::Value = serde_json::from_str(&timelines::json(&supper)).expect("JSON");
    assert_eq!(json["format"], "dwell.timeline/1");
    assert_eq!(json["on_time"], "always");
    for part in ["phases", "jobs", "servings"] {
        let all = json[part].as_array().expect("a list");
        let cooks: std::collections::BTreeSet<&str> =
            all.iter().filter_map(|one| one["cook"].as_str()).collect();
        assert_eq!(cooks.len(), 3, "{part}");
    }
}

/// Forty people's beans and celeriac fill three shelves each, and want the oven at 150 and at 180 °C.
#[test]
fn beans_that_stay_in_the_oven_clash_with_the_celeriac() {
    let mut files = common::examples();
    files.sort_by_key(|(name, _)| name != "club-supper.dwell");
    for (_, text) in files.iter_mut().filter(|(name, _)| name == "baked-beans.dwell") {
        *text = text.replace(
            "pot on hob\n  liquid 85 °C\n  for up to 6 h",
            "pot in oven\n  air 85 °C\n  for up to 2 h",
        );
    }
    let supper = compiled(&files);
    assert_eq!(on_time(&supper), OnTime::Never);
    let found = timing(&supper);
    let [finding] = found.as_slice() else { panic!("{found:#?}") };
    let (said, _) = words(&supper, finding);
    for part in ["`Baked beans`", "`Celeriac, roasted whole`", "`oven`", "150 °C", "180 °C", "between"] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert!(!said.contains("shoulder"), "it has no part in it: {said}");
    let plan = supper.meal().expect("a plan");
    let verdicts: Vec<OnTime> = plan.servings.iter().map(|serving| serving.on_time).collect();
    assert_eq!(
        verdicts,
        [OnTime::Always, OnTime::Never, OnTime::Never],
        "the shoulder can be served all the same"
    );
}

#[test]
fn twelve_dishes_and_three_people() {
    let supper = compiled(&regatta::files(12));
    let found: Vec<_> = timing(&supper).into_iter().map(|finding| words(&supper, finding)).collect();
    assert_eq!(on_time(&supper), OnTime::Always, "{found:#?}");
    let plan = supper.meal().expect("a plan");
    assert_eq!(plan.servings.len(), 12);
    assert!(plan.jobs.iter().all(|job| !job.breaks_sleep));
    println!("{}", timelines::text(&supper));
}

/// One person cannot carry twelve dishes to the table in time, and one more can.
#[test]
fn twelve_dishes_that_cannot_be_and_the_cure() {
    let alone = compiled(&regatta::IMPOSSIBLE[0].files());
    assert_eq!(on_time(&alone), OnTime::Never);
    let found = timing(&alone);
    let [finding] = found.as_slice() else { panic!("{found:#?}") };
    let (said, cure) = words(&alone, finding);
    assert!(said.contains("more hands at once than 1 person has"), "{said}");
    assert!(cure.contains("one person more in the `crew`"), "{cure}");
    let mut files = regatta::IMPOSSIBLE[0].files();
    files[0].1 = files[0].1.replace("1 person", "2 people");
    assert_eq!(on_time(&compiled(&files)), OnTime::Always);
}

/// However little fits, something is said, and every dish has its plan.
#[test]
fn menus_that_cannot_be_are_answered() {
    for menu in &regatta::IMPOSSIBLE[1..3] {
        let planned = compiled(&menu.files());
        assert_eq!(on_time(&planned), OnTime::Never, "{menu}");
        assert!(!timing(&planned).is_empty(), "{menu}");
        assert_eq!(planned.meal().expect("a plan").servings.len(), menu.dishes);
    }
}

/// Two dishes in one oven; `crisp` is the second one's time in it.
fn two(oven: &str, roast: &str, crisp: &str, serve: [&str; 2]) -> Vec<(String, String)> {
    let dish = |title: &str, food: &str, phases: &str, serve: &str| {
        format!(
            "cook \"{title}\"\n  rules us-food-code\nkit bench is bench\nkit chest is insulated box\nkit oven is oven\n{oven}\
             food piece is {food}\n  2 kg\n  thickness 5 cm\n{phases}serve piece\n  {serve}\n"
        )
    };
    let menu = "menu \"Sunday\"\n  rules us-food-code\ncrew\n  2 people\n  asleep 23:00 to 06:30\n\
                dish \"lamb.dwell\"\ndish \"roots.dwell\"\n";
    vec![
        ("menu.dwell".into(), menu.into()),
        ("lamb.dwell".into(), dish("Lamb", "lamb leg", roast, serve[0])),
        ("roots.dwell".into(), dish("Roots", "potato", crisp, serve[1])),
    ]
}

const OVEN: &str = "  preheat 15 min\n  cools down 20 min\n  shelves 2\n  programmable\n";

#[test]
fn the_cure_that_is_offered_for_a_clash_works() {
    let roast = "phase roast is cook\n  piece in oven\n  air 160 °C\n  takes 2 h to 2 h 30 min\n\
                 phase stand is rest\n  piece in chest\n  for 10 min to 50 min\n";
    let crisp = "phase crisp is cook\n  piece in oven\n  air 220 °C\n  takes 40 min to 50 min\n\
                 phase wait is rest\n  piece in chest\n  for up to 30 min\n";
    let serve = ["at 2026-12-13 13:00 in UTC, up to 15 min late"; 2];
    let clash = compiled(&two(OVEN, roast, crisp, serve));
    assert_ne!(on_time(&clash), OnTime::Always);
    let found = timing(&clash);
    let [finding] = found.as_slice() else { panic!("{found:#?}") };
    let (said, cure) = words(&clash, finding);
    println!("{said}\n{cure}");
    for part in ["`Lamb`", "`Roots`", "`roast`", "`crisp`", "`oven`", "160 °C", "220 °C"] {
        assert!(said.contains(part), "{part}: {said}");
    }
    // "`for 10 min to 1 h 50 min` in `stand` of `Lamb`"
    let offers: Vec<&str> =
        cure.trim_end_matches('.').split(": ").nth(1).expect("a cure").split("; or ").collect();
    let mut applied = 0;
    for offer in offers {
        let quoted: Vec<&str> = offer.split('`').collect();
        let [_, typed, _, phase, _, dish, _] = quoted.as_slice() else { continue };
        let old = match *phase {
            "stand" => "for 10 min to 50 min",
            "wait" => "for up to 30 min",
            _ => "up to 15 min late",
        };
        let swap = |text: &str| text.replace(old, typed);
        let (roast, crisp, serve) = match *dish {
            "Lamb" => (swap(roast), crisp.to_owned(), [swap(serve[0]), serve[1].into()]),
            _ => (roast.to_owned(), swap(crisp), [serve[0].into(), swap(serve[1])]),
        };
        let cured = compiled(&two(OVEN, &roast, &crisp, [&serve[0], &serve[1]]));
        assert_eq!(on_time(&cured), OnTime::Always, "{offer}");
        applied += 1;
    }
    assert!(applied > 0, "{cure}");
}

#[test]
fn too_little_room_is_a_clash_and_more_room_is_none() {
    let phases = "phase roast is cook\n  piece in oven\n  air 160 °C\n  fills 2 shelves\n  takes 1 h to 2 h\n\
                  phase stand is rest\n  piece in chest\n  for up to 65 min\n";
    let serve = ["at 2026-12-13 13:00 in UTC, up to 15 min late"; 2];
    let full = compiled(&two(OVEN, phases, phases, serve));
    assert_ne!(on_time(&full), OnTime::Always);
    let (said, _) = words(&full, timing(&full)[0]);
    assert!(said.contains("more room in `oven` than it has"), "{said}");
    let roomy = compiled(&two(&OVEN.replace("shelves 2", "shelves 4"), phases, phases, serve));
    assert_eq!(on_time(&roomy), OnTime::Always);
}

#[test]
fn hands_are_counted_over_all_dishes() {
    let phases = "phase chop is prep\n  piece on bench\n  takes 30 min to 40 min\n\
                  phase stand is rest\n  piece on bench\n  for up to 20 min\n";
    let serve = ["at 2026-12-13 13:00 in UTC, up to 5 min late"; 2];
    let mut files = two(OVEN, phases, phases, serve);
    assert_eq!(on_time(&compiled(&files)), OnTime::Always, "one each");
    files[0].1 = files[0].1.replace("2 people", "1 person");
    let short = compiled(&files);
    assert_ne!(on_time(&short), OnTime::Always);
    let (said, cure) = words(&short, timing(&short)[0]);
    assert!(said.contains("more hands at once than 1 person has") && said.contains("`chop`"), "{said}");
    assert!(cure.contains("tried and cures it"), "{cure}");
}

/// The same dishes for guests who come when they like and for a fixed time: what waits can wait for either,
/// and what cannot wait only for the one that is known.
#[test]
fn guests_between_two_times_against_one_time() {
    let waits = |most: &str| {
        format!(
            "phase roast is cook\n  piece in oven\n  air 160 °C\n  for 2 h\nphase stand is rest\n  piece in chest\n  for {most}\n"
        )
    };
    let served = |lamb: &str, serve: &str| {
        let roots = waits("up to 3 h");
        on_time(&compiled(&two(OVEN, &waits(lamb), &roots, [serve, serve])))
    };
    let at = "at 2026-12-13 12:30 in UTC, up to 10 min late";
    let guests = "guests between 2026-12-13 12:30 and 2026-12-13 14:00 in UTC, up to 10 min late";
    assert_eq!(served("up to 30 min", at), OnTime::Always);
    assert_ne!(served("up to 30 min", guests), OnTime::Always, "it stands for 90 min if they come last");
    assert_eq!(served("up to 2 h", guests), OnTime::Always);
}

/// Roots that go in when the lamb comes out have no time for the oven to heat; after it they have.
#[test]
fn after_is_suggested_where_when_cannot_be_kept() {
    let text = |order: &str| {
        format!(
            "cook \"Lamb and roots\"\n  rules us-food-code\ncrew\n  2 people\nkit bench is bench\nkit chest is insulated box\n\
             kit oven is oven\n{OVEN}food lamb is lamb leg\n  2 kg\n  thickness 9 cm\nfood roots is potato\n  2 kg\n  thickness 4 cm\n\
             phase roast is cook\n  lamb in oven\n  air 160 °C\n  takes 2 h to 2 h 30 min\n\
             phase stand is rest\n  lamb in chest\n  for 1 h to 3 h\n\
             phase crisp is cook\n  roots in oven\n  air 220 °C\n  takes 40 min to 50 min\n  starts {order} roast ends\n\
             phase wait is rest\n  roots in chest\n  for up to 3 h\n\
             serve lamb and roots\n  at 2026-12-13 13:00 in UTC, up to 10 min late\n"
        )
    };
    let one = |order: &str| compiled(&[("cook.dwell".into(), text(order))]);
    let when = one("when");
    let found = timing(&when);
    let [finding] = found.as_slice() else { panic!("{found:#?}") };
    let (said, cure) = words(&when, finding);
    assert!(cure.contains("`starts after roast ends` in `crisp`"), "{said} {cure}");
    let after = one("after");
    assert!(timing(&after).is_empty(), "{:#?}", timing(&after));
    assert_eq!(after.cooks()[0].timeline.expect("a plan").on_time, OnTime::Always);
}

#[test]
fn dishes_that_do_not_agree_are_promised_nothing() {
    let phases = "phase stand is rest\n  piece on bench\n  for up to 20 min\n";
    let files = two(OVEN, phases, phases, ["at 2026-12-13 13:00 in UTC", "at 2026-12-13 14:00 in UTC"]);
    let apart = compiled(&files);
    assert!(apart.findings.iter().any(|finding| finding.code == Code::DishesDisagree));
    assert_eq!(on_time(&apart), OnTime::NotProved);
}

#[test]
fn thirty_dishes_and_ten_people() {
    let supper = compiled(&regatta::files(30));
    assert_eq!(on_time(&supper), OnTime::Always, "{:#?}", timing(&supper));
}
