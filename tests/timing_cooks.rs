//! What the clauses of a phase mean for time: hands, sleep, looks, guests, order.

mod common;

use dwell::findings::{Code, Finding};
use dwell::quantity::Scale;
use dwell::timing::{OnTime, Options, Timeline, Windows, plan};

const KIT: &str = "kit oven is oven\nkit hob is hob\nkit bench is bench\nkit probe is probe thermometer\n";
const NIGHT: &str = "crew\n  1 person\n  asleep 23:00 to 06:30\n";

/// One piece of lamb, the phases given, and dinner.
fn lamb(crew: &str, phases: &str, serve: &str) -> (Timeline, Vec<Finding>) {
    let text = format!(
        "cook \"Lamb\"\n  rules us-food-code\n{crew}{KIT}food lamb is lamb leg\n  2 kg\n{phases}serve lamb\n  {serve}\n"
    );
    let (_, cook, findings) = common::cook(&text);
    assert!(findings.is_empty(), "{findings:#?}");
    plan(&cook.expect("a cook"), &Options::default())
}

fn codes(findings: &[Finding]) -> Vec<Code> {
    findings.iter().map(|finding| finding.code).collect()
}

fn start(timeline: &Timeline) -> (i64, i64) {
    timeline.start.map(|start| (start.earliest, start.latest)).expect("a start")
}

const fn at(hours: i64, minutes: i64) -> i64 {
    hours * 60 + minutes
}

#[test]
fn the_time_between_is_slack_and_slack_is_a_window() {
    let phases = "phase roast is cook\n  lamb in oven\n  air 150 °C\n  until core 70 °C, takes 2 h to 3 h\n\
                  phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  for 30 min to 2 h\n";
    let (timeline, findings) = lamb("", phases, "at 19:00");
    assert_eq!((timeline.on_time, codes(&findings)), (OnTime::Always, vec![]));
    assert!(!timeline.hands_judged);
    // Ready 30 min before 19:00 at the latest, and no sooner than 2 h before.
    assert_eq!(start(&timeline), (at(15, 0), at(15, 30)));
}

#[test]
fn what_varies_more_than_the_rest_can_take_up_needs_luck() {
    let phases = "phase roast is cook\n  lamb in oven\n  air 150 °C\n  until core 70 °C, takes 2 h to 3 h\n\
                  phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  for 30 min to 1 h\n";
    let (timeline, findings) = lamb("", phases, "at 19:00");
    assert_eq!((timeline.on_time, codes(&findings)), (OnTime::IfLucky, vec![Code::OnTimeIfLucky]));
    let said = findings[0].message.render(Scale::Celsius);
    assert!(said.contains("`roast` may take 1 h longer or shorter"), "{said}");
    assert!(said.contains("only 30 min of that"), "{said}");
    let cure = findings[0].remedy.render(Scale::Celsius);
    assert!(
        cure.contains("`for 30 min to 1 h 30 min` in `wait`") || cure.contains("`for up to 1 h` in `wait`"),
        "{cure}"
    );
}

#[test]
fn a_spoken_test_needs_somebody_awake_through_its_range() {
    let cook = |test: &str| {
        format!(
            "phase braise is cook\n  lamb in oven\n  air 120 °C\n  {test}, takes 6 h to 9 h\n\
             phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  for 3 h to 12 h\n"
        )
    };
    // In at bedtime and done between 05:00 and 08:00, or all in the morning before 19:00.
    let (deaf, _) = lamb(NIGHT, &cook("until core 90 °C"), "at 19:00");
    assert_eq!(deaf.on_time, OnTime::Always);
    assert_eq!(start(&deaf).1, at(7, 0), "9 h and 3 h before 19:00");
    let (spoken, _) = lamb(NIGHT, &cook("until core 90 °C and \"tender\""), "at 14:00");
    // 9 h and 3 h before 14:00 is 02:00; the evening before, the range would end in the night.
    assert_eq!(spoken.on_time, OnTime::Never);
}

#[test]
fn a_spoken_test_beside_looks_ends_at_a_look() {
    let phases = "phase braise is cook\n  lamb in oven\n  air 120 °C\n  until \"tender\", takes 50 min to 2 h\n  every 40 min do \"Turn.\"\n\
                  phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  for up to 40 min\n";
    // It ends at 80 or 120 min, so 40 min of waiting take up what 70 min would have to otherwise.
    let (timeline, findings) = lamb("", phases, "at 19:00");
    assert_eq!((timeline.on_time, codes(&findings)), (OnTime::Always, vec![]));
    assert_eq!(start(&timeline), (at(17, 0), at(17, 0)));
}

#[test]
fn calls_sleep_and_a_look_in_does_not() {
    let phases = |clause: &str| {
        format!("phase keep is hot hold\n  lamb in oven\n  air 80 °C\n  for 12 h\n  {clause}\n")
    };
    let (calls, _) = lamb(NIGHT, &phases("every 4 h do \"Turn.\""), "at 08:00");
    assert_eq!(calls.on_time, OnTime::Always);
    let turns: Vec<(i64, bool)> = calls
        .jobs
        .iter()
        .filter(|job| job.text.render(Scale::Celsius) == "Turn.")
        .map(|job| (job.at.earliest, job.dropped))
        .collect();
    assert_eq!(turns, [(at(0, 0), true), (at(4, 0), true)], "none at the end");
    let (look, findings) = lamb(NIGHT, &phases("look in every 4 h"), "at 08:00");
    assert_eq!((look.on_time, codes(&findings)), (OnTime::Never, vec![Code::NeverOnTime]));
}

#[test]
fn a_setting_is_changed_by_hand_unless_the_kit_is_programmable() {
    let cook = |kit: &str| {
        let text = format!(
            "cook \"Lamb\"\n  rules us-food-code\n{NIGHT}kit oven is oven\n{kit}kit bench is bench\nfood lamb is lamb leg\n  2 kg\n\
             phase roast is cook\n  lamb in oven\n  air 90 °C\n  for 6 h\n\
             phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  for 6 h\nserve lamb\n  at 10:00\n"
        );
        let (_, cook, _) = common::cook(&text);
        plan(&cook.expect("a cook"), &Options::default()).0.on_time
    };
    assert_eq!(cook(""), OnTime::Never, "somebody would have to change it at 04:00");
    assert_eq!(cook("  programmable\n"), OnTime::Always);
}

#[test]
fn guests_are_seen_as_they_come() {
    let wait = |room: &str| {
        format!(
            "phase roast is cook\n  lamb in oven\n  air 150 °C\n  for 2 h\n\
             phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  for {room}\n"
        )
    };
    let (ample, _) = lamb("", &wait("up to 90 min"), "guests between 12:30 and 14:00");
    assert_eq!(ample.on_time, OnTime::Always);
    assert_eq!(start(&ample), (at(10, 30), at(10, 30)), "hot when the first may come, and till the last");
    let meal = ample.phases[2].start.expect("a start");
    assert_eq!((meal.earliest, meal.latest), (at(12, 30), at(14, 0)), "whenever they come");
    assert_eq!(ample.windows, Windows::Bounds);
    let (short, _) = lamb("", &wait("up to 60 min"), "guests between 12:30 and 14:00");
    assert_eq!(short.on_time, OnTime::IfLucky);
    let (patient, _) = lamb("", &wait("up to 60 min"), "guests between 12:30 and 14:00, up to 30 min late");
    assert_eq!(patient.on_time, OnTime::Always);
    assert_eq!(start(&patient), (at(11, 0), at(11, 0)));
}

#[test]
fn what_cannot_be_timed_is_said_and_the_rest_is_timed() {
    let phases = "phase roast is cook\n  lamb in oven\n  air 150 °C\n  until core 70 °C\n\
                  phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  for 30 min to 1 h\n";
    let (timeline, findings) = lamb("", phases, "at 19:00");
    assert_eq!((timeline.on_time, codes(&findings)), (OnTime::NotProved, vec![Code::TimingNotProved]));
    assert_eq!(timeline.phases[0].start, None);
    let wait = timeline.phases[1].start.expect("timed back from dinner");
    assert_eq!((wait.earliest, wait.latest), (at(18, 0), at(18, 30)));
}

#[test]
fn one_person_cannot_do_two_things_at_once() {
    let cook = |people: &str, room: &str| {
        let text = format!(
            "cook \"Two\"\n  rules us-food-code\ncrew\n  {people}\n{KIT}food lamb is lamb leg\n  2 kg\nfood apples is apple\n  1 kg\n\
             phase carve is prep\n  lamb on bench\n  for 30 min\n\
             phase stand is rest\n  lamb on bench\n  for {room}\n\
             phase slice is prep\n  apples on bench\n  for 30 min\n\
             phase lie is rest\n  apples on bench\n  for {room}\n\
             serve lamb and apples\n  at 19:00\n"
        );
        let (_, cook, findings) = common::cook(&text);
        assert!(findings.is_empty(), "{findings:#?}");
        plan(&cook.expect("a cook"), &Options::default()).0.on_time
    };
    assert_eq!(cook("1 person", "up to 30 min"), OnTime::Always, "one after the other");
    assert_eq!(cook("2 people", "up to 10 min"), OnTime::Always, "side by side");
    assert_ne!(cook("1 person", "up to 10 min"), OnTime::Always);
}

#[test]
fn the_same_time_of_day_sooner_and_later_is_told_apart() {
    let phases = "phase roast is cook\n  lamb in oven\n  air 150 °C\n  until \"soft\", takes 2 h to 3 h\n\
                  phase wait is hot hold\n  lamb in oven\n  air 70 °C\n  for 4 h to 6 h\n";
    let (_, findings) = lamb(NIGHT, phases, "at 09:00, up to 15 min late");
    let [finding] = findings.as_slice() else { panic!("{findings:#?}") };
    assert_eq!(finding.code, Code::NeverOnTime);
    let remedy = finding.remedy.render(Scale::Celsius);
    let moves = remedy.split("; or ").filter(|cure| cure.contains("serve at"));
    for cure in moves.clone() {
        assert!(cure.contains(" sooner") || cure.contains(" later"), "{remedy}");
    }
    assert!(moves.count() > 0, "{remedy}");
}

/// Lamb and apples in one oven, the lamb first or second, each with its own setting.
fn one_oven(kit: &str, lamb: &str, apples: &str, crew: &str) -> (Timeline, Vec<Finding>) {
    let text = format!(
        "cook \"Two\"\n  rules us-food-code\n{crew}kit oven is oven\n{kit}kit bench is bench\n\
         food lamb is lamb leg\n  2 kg\nfood apples is apple\n  1 kg\n\
         phase roast is cook\n  lamb in oven\n  air 180 °C\n  for 1 h\n\
         phase stand is rest\n  lamb on bench\n  {lamb}\n\
         phase dry is cook\n  apples in oven\n  {apples}\n  for 1 h\n\
         phase lie is rest\n  apples on bench\n  for up to 10 min\n\
         serve lamb and apples\n  at 19:00\n"
    );
    let (_, cook, findings) = common::cook(&text);
    assert!(findings.is_empty(), "{findings:#?}");
    plan(&cook.expect("a cook"), &Options::default())
}

#[test]
fn the_second_setting_waits_until_the_kit_has_cooled_down() {
    let verdict = |kit: &str, lamb: &str| one_oven(kit, lamb, "air 90 °C", "").0.on_time;
    // The apples go in at 18:00 at the latest, and the lamb is out as long before as the oven cools.
    assert_eq!(verdict("", "for up to 85 min"), OnTime::Never, "the class cools down in 30 min");
    assert_eq!(verdict("", "for up to 90 min"), OnTime::Always);
    assert_eq!(verdict("  cools down 20 min\n", "for up to 80 min"), OnTime::Always);
    assert_eq!(verdict("  cools down 45 min\n", "for up to 100 min"), OnTime::Never);
    let (timeline, _) = one_oven("", "for up to 100 min", "air 90 °C", "");
    let (out, next) = (timeline.phases[0].end.expect("an end"), timeline.phases[2].start.expect("a start"));
    assert_eq!((out.earliest, out.latest), (at(17, 20), at(17, 30)));
    assert_eq!((next.earliest, next.latest), (at(17, 50), at(18, 0)));
}

#[test]
fn the_second_setting_waits_until_the_kit_has_heated() {
    let verdict = |kit: &str, lamb: &str| one_oven(kit, lamb, "air 230 °C", "").0.on_time;
    // As above, with the 15 min that the class takes to heat.
    assert_eq!(verdict("", "for up to 75 min"), OnTime::Always);
    assert_eq!(verdict("", "for up to 80 min"), OnTime::Always);
    assert_eq!(verdict("", "for up to 70 min"), OnTime::Never);
    assert_eq!(verdict("  preheat 40 min\n", "for up to 80 min"), OnTime::Never);
    assert_eq!(verdict("  preheat 40 min\n", "for up to 100 min"), OnTime::Always);
}

#[test]
fn food_at_one_setting_shares_kit_and_needs_no_time_between() {
    let (timeline, findings) = one_oven("  cools down 3 h\n", "for up to 10 min", "air 180 °C", "");
    assert_eq!((timeline.on_time, codes(&findings)), (OnTime::Always, vec![]));
}

#[test]
fn kit_is_switched_on_by_somebody_awake_unless_it_is_programmable() {
    let cook = |kit: &str, serve: &str| {
        let text = format!(
            "cook \"Lamb\"\n  rules us-food-code\n{NIGHT}kit oven is oven\n{kit}kit bench is bench\nfood lamb is lamb leg\n  2 kg\n\
             phase roast is cook\n  lamb in oven\n  air 150 °C\n  for 3 h\nserve lamb\n  at {serve}\n"
        );
        let (_, cook, _) = common::cook(&text);
        let (timeline, _) = plan(&cook.expect("a cook"), &Options::default());
        let light = timeline.jobs.iter().find(|job| job.text.render(Scale::Celsius).contains(" to heat."));
        let light = light.expect("the oven heats");
        (timeline.on_time, light.at.earliest, light.hands)
    };
    // In at 06:40, so on at 06:10, which is before anybody is up; and not the evening before.
    assert_eq!(cook("  preheat 30 min\n", "09:40").0, OnTime::Never);
    assert_eq!(cook("  preheat 10 min\n", "09:40"), (OnTime::Always, at(6, 30), 1));
    assert_eq!(cook("  preheat 30 min\n  programmable\n", "09:40"), (OnTime::Always, at(6, 10), 0));
    assert_eq!(cook("  preheat 30 min\n", "10:00"), (OnTime::Always, at(6, 30), 1));
}

#[test]
fn what_not_proved_means_is_said_in_plain_words() {
    let phases = "phase roast is cook\n  lamb in oven\n  air 150 °C\n  until core 70 °C\n";
    let (timeline, _) = lamb("", phases, "at 19:00");
    let page = dwell::output::timeline::text(&timeline, Scale::Celsius);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in ["On time is not proved. It may be on time or late", "What to do: add `takes`"] {
        assert!(page.contains(words), "{page}");
    }
}

#[test]
fn order_clauses_that_wait_for_each_other_are_named() {
    let cook = |roast: &str, dry: &str| {
        let text = format!(
            "cook \"Two\"\n  rules us-food-code\n{KIT}food lamb is lamb leg\n  2 kg\nfood apples is apple\n  1 kg\n\
             phase roast is cook\n  lamb in oven\n  air 180 °C\n  for 1 h\n{roast}\
             phase stand is rest\n  lamb on bench\n  for up to 3 h\n\
             phase dry is cook\n  apples in oven\n  air 180 °C\n  for 1 h\n{dry}\
             phase lie is rest\n  apples on bench\n  for up to 3 h\n\
             serve lamb and apples\n  at 19:00\n"
        );
        let (_, cook, findings) = common::cook(&text);
        assert!(findings.is_empty(), "{findings:#?}");
        let (timeline, findings) = plan(&cook.expect("a cook"), &Options::default());
        let said: Vec<String> = findings.iter().map(|one| one.message.render(Scale::Celsius)).collect();
        (timeline.on_time, codes(&findings), said.join(" "))
    };
    let (on_time, found, said) = cook("  starts after dry ends\n", "  starts after roast ends\n");
    assert_eq!((on_time, found), (OnTime::Never, vec![Code::OrderCircular]));
    for clause in ["`starts after dry ends` in `roast`", "`starts after roast ends` in `dry`"] {
        assert!(said.contains(clause), "{said}");
    }
    let (on_time, found, said) =
        cook("  starts at least 10 min after dry starts\n", "  starts when roast ends\n");
    assert_eq!((on_time, found), (OnTime::Never, vec![Code::OrderCircular]), "{said}");
    assert!(said.contains("`starts at least 10 min after dry starts` in `roast`"), "{said}");
    let (on_time, found, said) = cook("  ends after stand ends\n  starts after stand starts\n", "");
    assert_eq!((on_time, found), (OnTime::Never, vec![Code::OrderCircular]), "{said}");
    assert!(said.contains("the way the food goes"), "{said}");
    // Neither a circle that takes no time, nor a contradiction with the clock.
    let (on_time, found, _) = cook("  starts when dry starts\n", "  starts when roast starts\n");
    assert_eq!((on_time, found), (OnTime::Always, vec![]));
    let (_, found, _) = cook("  starts after 18:30\n", "");
    assert_eq!(found, [Code::NeverOnTime]);
}

/// Two lines to one supper, of which the last stretch varies by 10 min.
fn dumplings(serve: &str) -> (Timeline, Vec<Finding>) {
    let text = format!(
        "cook \"Dumplings\"\n  rules us-food-code\n{NIGHT}{KIT}kit fridge is fridge\n  air 3 °C\n\
         food lamb is lamb leg\n  2 kg\ningredient flour is 250 g self-raising flour, contains gluten\n\
         phase brown is cook\n  lamb on hob\n  takes 15 min to 20 min, hands-on\n\
         phase braise is cook\n  lamb in oven\n  becomes stew is meat stew, depth 10 cm\n  covered\n  air 150 °C\n  \
         until core 92 °C and \"falls off the bone\", takes 3 h to 4 h\n\
         phase make is prep\n  on bench\n  becomes dough is dough\n  use all flour\n  takes 10 min to 15 min\n\
         phase stand is cold hold\n  dough in fridge\n  for up to 2 h\n\
         phase poach is cook\n  stew and dough in oven\n  becomes supper is meat stew, depth 12 cm\n  air 170 °C\n  \
         until core 90 °C, takes 20 min to 30 min\nserve supper\n  {serve}\n"
    );
    let (_, cook, findings) = common::cook(&text);
    assert!(findings.is_empty(), "{findings:#?}");
    plan(&cook.expect("a cook"), &Options::default())
}

#[test]
fn several_lines_are_offered_the_grace_that_cures_them_and_sleep_is_not_blamed() {
    let (timeline, findings) = dumplings("at 19:00");
    assert_eq!((timeline.on_time, codes(&findings)), (OnTime::NotProved, vec![Code::TimingNotProved]));
    let (said, cure) =
        (findings[0].message.render(Scale::Celsius), findings[0].remedy.render(Scale::Celsius));
    assert!(!said.contains("sleep"), "{said}");
    let offered = cure.split('`').find(|typed| typed.ends_with(" late")).unwrap_or_else(|| panic!("{cure}"));
    let (timeline, findings) = dumplings(&format!("at 19:00, {offered}"));
    assert_eq!((timeline.on_time, codes(&findings)), (OnTime::Always, vec![]), "{offered}");
}

#[test]
fn sleep_is_blamed_where_it_alone_is_in_the_way() {
    let (_, findings) = dumplings("at 09:00, up to 2 h late");
    let said = findings[0].message.render(Scale::Celsius);
    assert!(said.contains("something falls into sleep"), "{said}");
    assert!(!said.contains("hands") && !said.contains("settings"), "{said}");
}

#[test]
fn only_what_is_there_is_blamed() {
    let phases = |food: &str| {
        format!(
            "phase cut-{food} is prep\n  {food} on bench\n  takes 20 min to 40 min, hands-on\n\
             phase lie-{food} is rest\n  {food} on bench\n  for up to 50 min\n"
        )
    };
    let text = format!(
        "cook \"Two\"\n  rules us-food-code\ncrew\n  1 person\n{KIT}food lamb is lamb leg\n  2 kg\nfood apples is apple\n  1 kg\n\
         {}{}serve lamb and apples\n  at 19:00\n",
        phases("lamb"),
        phases("apples")
    );
    let (_, cook, findings) = common::cook(&text);
    assert!(findings.is_empty(), "{findings:#?}");
    let (timeline, findings) = plan(&cook.expect("a cook"), &Options::default());
    assert_ne!(timeline.on_time, OnTime::Always);
    let said = findings[0].message.render(Scale::Celsius);
    assert!(said.contains("two jobs want the same hands at once"), "{said}");
    assert!(!said.contains("sleep") && !said.contains("settings"), "{said}");
}

#[test]
fn a_job_that_would_break_sleep_is_marked() {
    let (timeline, _) = dumplings("at 07:00");
    assert_ne!(timeline.on_time, OnTime::Always);
    let job =
        |phase: &str| timeline.jobs.iter().find(|job| job.phase == phase && job.hands > 0).expect("a job");
    assert!(job("brown").breaks_sleep, "{:?}", job("brown"));
    assert!(!job("serve supper").breaks_sleep, "{:?}", job("serve supper"));
    let page = dwell::output::timeline::text(&timeline, Scale::Celsius);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("somebody would have to be awake"), "{page}");
    let json = dwell::output::timeline::json(&timeline, Scale::Celsius);
    assert!(json.jobs.iter().any(|job| job.breaks_sleep));
    let (proved, _) = dumplings("at 19:00, up to 2 h late");
    assert!(proved.jobs.iter().all(|job| !job.breaks_sleep));
}
