//! Running late: the plan from now on, given what has happened.

mod common;

use common::dice::Dice;
use dwell::compile::{Compiled, compile};
use dwell::cook::{Cook, Document, Happened, Lasts, When};
use dwell::findings::{Code, Finding, Severity};
use dwell::output::timeline::json;
use dwell::quantity::{ClockTime, Duration, Scale};
use dwell::timing::{DecidedBy, OnTime, Options, Progress, State, Timeline, Window, plan};

fn example(name: &str) -> Cook {
    let all = common::examples();
    let text = |wanted: &str| &all.iter().find(|(name, _)| name == wanted).expect("an example").1;
    let files = [("test.dwell", text(name).as_str()), ("clubhouse.dwell", text("clubhouse.dwell").as_str())];
    match common::resolve_files(&files) {
        (_, Some(Document::Cook(cook)), _) => *cook,
        _ => panic!("{name} is a cook"),
    }
}

fn at(time: &str) -> Happened {
    let (hour, minute) = time.split_once(':').expect("a time");
    let time = ClockTime::new(hour.parse().unwrap(), minute.parse().unwrap()).expect("a time of day");
    Happened::At(When { day: None, time, zone: None })
}

fn from_here(cook: &Cook, now: &str, done: &[(&str, &str)]) -> (Timeline, Vec<Finding>) {
    let done = done.iter().map(|(name, time)| ((*name).to_owned(), at(time))).collect();
    let progress = Progress { now: Some(at(now)), done, ..Progress::default() };
    plan(cook, &Options { progress, ..Options::default() })
}

fn phase<'t>(timeline: &'t Timeline, name: &str) -> &'t dwell::timing::PhaseLine {
    timeline.phases.iter().find(|phase| phase.name == name).expect("the phase")
}

fn clock(timeline: &Timeline, window: Option<Window>) -> (String, String) {
    let window = window.expect("a window");
    (timeline.clock.time_of_day(window.earliest), timeline.clock.time_of_day(window.latest))
}

#[test]
fn what_is_over_is_shown_as_it_was_and_the_rest_moves() {
    let cook = example("overnight-shoulder.dwell");
    let (timeline, findings) = from_here(&cook, "06:40", &[("smoke", "05:30")]);
    assert_eq!(timeline.on_time, OnTime::Always, "{findings:#?}");
    let states: Vec<State> = timeline.phases.iter().map(|phase| phase.state).collect();
    use State::{Done, Going, ToCome};
    assert_eq!(states, [Done, Done, Done, Going, ToCome, ToCome, ToCome, ToCome, ToCome]);
    assert_eq!(clock(&timeline, phase(&timeline, "smoke").end), ("05:30".into(), "05:30".into()));
    // `until core 84 °C, takes 2 h to 4 h`, from 05:30 on.
    assert_eq!(clock(&timeline, phase(&timeline, "set-crust").start), ("05:30".into(), "05:30".into()));
    assert_eq!(clock(&timeline, phase(&timeline, "set-crust").end), ("07:30".into(), "09:30".into()));
    // Nothing that is over is to be done.
    assert!(timeline.jobs.iter().all(|job| !["trim", "season", "smoke"].contains(&job.phase.as_str())));
    let now = timeline.now.expect("a now");
    assert!(timeline.jobs.iter().all(|job| job.at.latest >= now));
    let shown = json(&timeline, Scale::Celsius);
    assert!(shown.now.is_some() && shown.phases[0].state == Done);
}

#[test]
fn too_late_for_the_hold_is_said_with_a_cure_that_works() {
    let cook = example("overnight-shoulder.dwell");
    let (timeline, findings) = from_here(&cook, "12:00", &[("set-crust", "11:50")]);
    assert_eq!(timeline.on_time, OnTime::Never);
    let finding = findings.iter().find(|finding| finding.code == Code::NeverOnTime).expect("said");
    let remedy = finding.remedy.render(Scale::Celsius);
    assert!(remedy.contains("`for 5 h 30 min to 14 h` in `wait`"), "{remedy}");
    assert!(remedy.contains("serve at 21:00"), "{remedy}");
    // Each of the two, typed in.
    let later = Some(When { day: None, time: ClockTime::new(21, 0).unwrap(), zone: None });
    let done = vec![("set-crust".to_owned(), at("11:50"))];
    let progress = Progress { now: Some(at("12:00")), done, ..Progress::default() };
    let served = plan(&cook, &Options { serve: later, progress: progress.clone(), ..Options::default() }).0;
    assert_eq!(served.on_time, OnTime::Always);
    let mut shorter = cook;
    let wait = shorter.phases.iter_mut().find(|phase| phase.name == "wait").unwrap();
    let (low, high) = (Duration::from_minutes(330.0), Some(Duration::from_hours(14.0)));
    wait.lasts = Lasts::Chosen { low, high };
    assert_eq!(plan(&shorter, &Options { progress, ..Options::default() }).0.on_time, OnTime::Always);
}

#[test]
fn the_cure_of_what_is_going_on_is_told_in_whole_lengths() {
    let cook = example("overnight-shoulder.dwell");
    // Wrapped late: of the hold two hours are behind, and its eight are two too many.
    let (timeline, findings) = from_here(&cook, "14:00", &[("wrap", "12:00")]);
    assert_eq!(timeline.on_time, OnTime::Never);
    let finding = findings.iter().find(|finding| finding.code == Code::NeverOnTime).expect("said");
    let remedy = finding.remedy.render(Scale::Celsius);
    assert!(remedy.contains("`for 5 h 30 min to 14 h` in `wait`"), "{remedy}");
}

#[test]
fn what_goes_on_too_long_is_said_and_taken_to_end_now() {
    let cook = example("overnight-shoulder.dwell");
    let (timeline, findings) = from_here(&cook, "09:00", &[("smoke", "04:30")]);
    let finding = findings.iter().find(|finding| finding.code == Code::PhaseOverdue).expect("said");
    assert_eq!(finding.phase.as_deref(), Some("set-crust"));
    let message = finding.message.render(Scale::Celsius);
    assert!(message.contains("4 h 30 min") && message.contains("at most 4 h, until 08:30"), "{message}");
    assert_eq!(clock(&timeline, phase(&timeline, "set-crust").end), ("09:00".into(), "09:00".into()));
}

#[test]
fn what_cannot_be_is_refused() {
    let cook = example("overnight-shoulder.dwell");
    for (now, done) in [
        ("10:00", &[("smoek", "04:30")][..]),
        ("10:00", &[("wrap", "09:10"), ("smoke", "09:30")][..]),
        ("10:00", &[("smoke", "05:30"), ("smoke", "05:40")][..]),
        ("03:00", &[("smoke", "03:30")][..]),
    ] {
        let (timeline, findings) = from_here(&cook, now, done);
        let unclear: Vec<_> =
            findings.iter().filter(|finding| finding.code == Code::ProgressUnclear).collect();
        // A time before the last one is the one of the day after, and far too late.
        if done == [("smoke", "03:30")] {
            assert_eq!(timeline.on_time, OnTime::Never, "{findings:#?}");
            continue;
        }
        assert_eq!(unclear.len(), 1, "{done:?}: {findings:#?}");
        assert_eq!(unclear[0].severity, Severity::Error);
        assert!(timeline.now.is_none() && timeline.on_time == OnTime::NotProved);
    }
}

/// A player who asks again after every phase, and whom nature serves anything inside its ranges: as long as they keep to the
/// windows that they are told, the promise is never taken back.
#[test]
fn whoever_keeps_to_the_plan_stays_on_time() {
    let mut dice = Dice(20_261_130);
    for name in ["overnight-shoulder.dwell"] {
        let cook = example(name);
        let (first, _) = plan(&cook, &Options::default());
        assert_eq!(first.on_time, OnTime::Always, "{name}");
        let clock = first.clock;
        let instant = |minute: i64| at(&clock.time_of_day(minute));
        for _ in 0..150 {
            let mut done: Vec<(String, Happened)> = Vec::new();
            let mut started = Vec::new();
            let mut timeline = first.clone();
            for n in 0..cook.phases.len() {
                let line = &timeline.phases[n];
                let start = line.start.expect("a start");
                if n == 0 {
                    let now = if dice.one_in(2) { start.earliest } else { start.latest };
                    started = vec![(None, instant(now))];
                    timeline = ask(&cook, now, &started, &done, &clock);
                }
                assert_eq!(timeline.on_time, OnTime::Always, "{name}: {:?}", timeline.phases[n].name);
                if cook.phases[n].service.is_some() {
                    break;
                }
                let end = timeline.phases[n].end.expect("an end");
                let end = match timeline.phases[n].decided_by {
                    DecidedBy::Nature => end.earliest + dice.roll(0, end.latest - end.earliest),
                    _ if dice.one_in(2) => end.earliest,
                    _ => end.latest,
                };
                done.push((cook.phases[n].name.clone(), instant(end)));
                timeline = ask(&cook, end, &started, &done, &clock);
            }
        }
    }
}

fn ask(
    cook: &Cook,
    now: i64,
    started: &[(Option<String>, Happened)],
    done: &[(String, Happened)],
    clock: &dwell::timing::Clock,
) -> Timeline {
    let now = at(&clock.time_of_day(now));
    let progress =
        Progress { now: Some(now), started: started.to_vec(), done: done.to_vec(), ..Progress::default() };
    let (timeline, findings) = plan(cook, &Options { progress, ..Options::default() });
    assert!(!findings.iter().any(|finding| finding.code == Code::ProgressUnclear), "{findings:#?}");
    timeline
}

/// Several food lines on one oven, at a few moments inside the windows of the plan, and outside them.
#[test]
fn several_lines_go_on_from_where_they_are() {
    let cook = example("turkey-crown.dwell");
    for (now, done) in [
        ("12:20", &[("dress", "11:25")][..]),
        ("13:00", &[("dress", "11:25"), ("peel", "12:50")]),
        ("13:40", &[("roast", "13:30"), ("parboil", "13:10")]),
        ("14:30", &[("roast", "13:30"), ("dry", "13:58"), ("gravy", "14:25")]),
    ] {
        let (timeline, findings) = from_here(&cook, now, done);
        assert_eq!(timeline.on_time, OnTime::Always, "{now}: {findings:#?}");
    }
    // Crisp by 14:35, and kept so for no more than 20 min: it is over before people sit down at 15:00.
    let (timeline, _) = from_here(&cook, "13:40", &[("roast", "13:30"), ("dry", "13:35")]);
    assert_eq!(timeline.on_time, OnTime::Never);
    // The oven has to get from 170 °C to 210 °C: what is not in by now is not in at once.
    let (timeline, _) = from_here(&cook, "14:12", &[("roast", "14:11"), ("parboil", "13:10")]);
    assert_eq!(timeline.on_time, OnTime::Never);
}

fn supper(now: &str, done: &[(&str, &str)]) -> Compiled {
    supper_started(now, done, &[])
}

fn supper_started(now: &str, done: &[(&str, &str)], started: &[(&str, &str)]) -> Compiled {
    let mut files = common::examples();
    files.sort_by_key(|(name, _)| name != "club-supper.dwell");
    let named: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let done = done.iter().map(|(name, time)| ((*name).to_owned(), at(time))).collect();
    let started = started.iter().map(|(name, time)| (Some((*name).to_owned()), at(time))).collect();
    let progress = Progress { now: Some(at(now)), done, started, ..Progress::default() };
    let timing = Options { progress, ..Options::default() };
    let options = dwell::compile::Options { timing, outline: true, ..Default::default() };
    compile(&common::Memory(&named), named[0].0.into(), named[0].1.into(), &options)
}

#[test]
fn a_menu_goes_on_from_here_with_all_its_dishes() {
    let done = [("bake", "13:50"), ("wrap", "08:30"), ("scrub", "15:00")];
    let compiled = supper("16:40", &done);
    let meal = compiled.meal().expect("a plan");
    assert_eq!(meal.on_time, OnTime::Always, "{:#?}", compiled.findings);
    let of = |name: &str| -> Vec<State> {
        meal.phases.iter().filter(|phase| phase.name == name).map(|phase| phase.state).collect()
    };
    assert_eq!(of("roast"), [State::Going]);
    assert_eq!(of("wait"), [State::Going]);
    assert_eq!(of("mix"), [State::Done]);
    // The beans are on the hob since they are out of the oven; the shoulder is not yet pulled.
    assert_eq!(of("keep"), [State::ToCome, State::Going]);
    let now = meal.now.expect("a now");
    assert!(meal.jobs.iter().all(|job| job.at.latest >= now && job.phase != "scrub"));
    // The celeriac scrubbed an hour and a half late: it is that dish that is late, and no other.
    let compiled = supper("17:20", &[("bake", "13:50"), ("pull", "17:05"), ("scrub", "16:30")]);
    let meal = compiled.meal().expect("a plan");
    assert_eq!(meal.on_time, OnTime::Never);
    let late: Vec<&str> = meal
        .servings
        .iter()
        .filter(|serving| serving.on_time != OnTime::Always)
        .map(|serving| serving.cook.as_str())
        .collect();
    assert_eq!(late, ["Celeriac, roasted whole"]);
}

#[test]
fn a_phase_that_two_dishes_have_is_named_with_its_dish() {
    let unclear = |compiled: &Compiled| -> Vec<String> {
        let found = compiled.findings.iter().filter(|finding| finding.code == Code::ProgressUnclear);
        found.map(|finding| finding.message.render(Scale::Celsius)).collect()
    };
    let two = supper("17:20", &[("bake", "13:50"), ("keep", "17:00"), ("scrub", "15:00")]);
    assert_eq!(unclear(&two).len(), 1);
    assert_eq!(two.meal().expect("a plan").on_time, OnTime::NotProved);
    assert_eq!(unclear(&supper("17:20", &[("fry", "13:50")])).len(), 1);
    let one =
        supper("18:20", &[("baked beans: keep", "18:15"), ("pull", "17:05"), ("celeriac: rest", "18:15")]);
    assert_eq!(unclear(&one), Vec::<String>::new());
    let over = one.meal().expect("a plan").phases.iter().filter(|phase| phase.state == State::Done).count();
    // Mixed, baked and kept; trimmed, seasoned, smoked, dried, wrapped, held and pulled; scrubbed, roasted and rested.
    assert_eq!(over, 13);
}

/// The phase of the dish whose title begins so.
fn of_dish<'t>(meal: &'t Timeline, dish: &str, name: &str) -> &'t dwell::timing::PhaseLine {
    let is_meant = |phase: &&dwell::timing::PhaseLine| phase.cook.starts_with(dish) && phase.name == name;
    meal.phases.iter().find(is_meant).expect("the phase")
}

#[test]
fn a_phase_of_a_menu_is_said_to_have_started() {
    let done = [("wrap", "08:30"), ("bake", "13:50")];
    let compiled = supper_started("15:05", &done, &[("scrub", "14:50")]);
    let meal = compiled.meal().expect("a plan");
    // The oven was switched on while the celeriac was scrubbed.
    assert_eq!(meal.on_time, OnTime::Always, "{:#?}", compiled.findings);
    let scrub = of_dish(meal, "Celeriac", "scrub");
    assert_eq!(scrub.state, State::Going);
    assert_eq!(clock(meal, scrub.start), ("14:50".into(), "14:50".into()));
    // It takes 20 to 30 min.
    assert_eq!(clock(meal, scrub.end), ("15:10".into(), "15:20".into()));
    // What started is no longer to come, and what came before it is over.
    let kept = supper_started("16:40", &[("wrap", "08:30"), ("scrub", "15:00")], &[("baked: keep", "13:50")]);
    let meal = kept.meal().expect("a plan");
    assert_eq!(of_dish(meal, "Baked", "keep").state, State::Going);
    assert_eq!(clock(meal, of_dish(meal, "Baked", "bake").end), ("13:50".into(), "13:50".into()));
    assert_eq!(of_dish(meal, "Overnight", "keep").state, State::ToCome);
}

#[test]
fn what_started_is_named_like_what_is_over() {
    let unclear = |started: &[(&str, &str)]| -> Vec<String> {
        let compiled = supper_started("16:40", &[], started);
        let found = compiled.findings.iter().filter(|finding| finding.code == Code::ProgressUnclear);
        found.map(|finding| finding.message.render(Scale::Celsius)).collect()
    };
    assert!(unclear(&[("keep", "16:35")])[0].starts_with("`--started` names `keep`, which"));
    assert!(unclear(&[("fry", "16:35")])[0].contains("no phase of any dish"));
    // Before what comes before it was over.
    let early = supper_started("16:40", &[("scrub", "15:00")], &[("roast", "14:55")]);
    assert!(early.findings.iter().any(|finding| finding.code == Code::ProgressUnclear));
}

/// In the night the dish that is begun knows which day it is, and the others follow it.
#[test]
fn all_dishes_have_one_now() {
    let compiled = supper_started("02:00", &[], &[("smoke", "22:40")]);
    let meal = compiled.meal().expect("a plan");
    assert_eq!(meal.on_time, OnTime::Always, "{:#?}", compiled.findings);
    assert_eq!(of_dish(meal, "Overnight", "smoke").state, State::Going);
    assert_eq!(of_dish(meal, "Celeriac", "scrub").state, State::ToCome);
}

/// Of several lines each is said to have started, where nothing before it says when.
#[test]
fn a_line_of_a_cook_is_said_to_have_started() {
    let cook = example("turkey-crown.dwell");
    let progress = Progress {
        now: Some(at("13:00")),
        started: vec![(Some("peel".into()), at("12:50"))],
        done: vec![("dress".into(), at("11:25"))],
        ..Progress::default()
    };
    let (timeline, findings) = plan(&cook, &Options { progress, ..Options::default() });
    assert_eq!(timeline.on_time, OnTime::Always, "{findings:#?}");
    assert_eq!(phase(&timeline, "peel").state, State::Going);
    // It takes 20 to 30 min.
    assert_eq!(clock(&timeline, phase(&timeline, "peel").end), ("13:10".into(), "13:20".into()));
}

/// A roast chicken on the bench, by the clock.
fn left_on_the_bench(done: &str, now: &str) -> Vec<Finding> {
    let text = "cook \"Chicken\"\n  rules us-food-code\nkit oven is oven\nkit bench is bench\n\
        kit probe is probe thermometer\nfood chicken is whole chicken\n  1 piece of 1.8 kg\n  thickness 9 cm\n  \
        starts at 4 °C\nphase roast is cook\n  chicken in oven\n  air 180 °C\n  \
        until core 80 °C, takes 1 h to 2 h\nphase rest\n  chicken on bench\n  for 15 min to 60 min\n\
        serve chicken\n  at 19:00, up to 2 h late\n";
    let progress =
        Progress { now: Some(at(now)), done: vec![("roast".into(), at(done))], ..Progress::default() };
    let timing = Options { progress, ..Options::default() };
    let options = dwell::compile::Options { timing, ..Default::default() };
    compile(&common::Memory(&[]), "test.dwell".into(), text.into(), &options).findings
}

#[test]
fn what_has_stood_out_by_the_clock_is_judged_and_not_what_was_written() {
    let of = |findings: &[Finding], code: Code| {
        findings.iter().find(|finding| finding.code == code).map(|finding| finding.severity)
    };
    // FDA Food Code 2022, 3-501.19: 4 h.
    let all_day = left_on_the_bench("08:00", "18:55");
    assert_eq!(of(&all_day, Code::TimeWithoutControl), Some(Severity::Error), "{all_day:#?}");
    let an_hour = left_on_the_bench("17:30", "18:30");
    assert_eq!(of(&an_hour, Code::TimeWithoutControl), None, "{an_hour:#?}");
    // Nobody is offered to leave it there for longer still.
    let offers: Vec<String> = all_day.iter().map(|finding| finding.remedy.render(Scale::Celsius)).collect();
    assert!(!offers.iter().any(|offer| offer.contains("11 h")), "{offers:#?}");
}

#[test]
fn what_a_dish_has_been_through_is_judged_too() {
    // The shoulder was pulled at three in the morning, and is not hot since.
    let of = |pulled: &str| {
        let done = [("bake", "13:50"), ("wait", "10:00"), ("pull", pulled), ("scrub", "15:00")];
        let compiled = supper("16:40", &done);
        compiled.findings.iter().any(|finding| {
            finding.severity == Severity::Error
                && finding.message.render(Scale::Celsius).starts_with("As it has gone so far")
        })
    };
    // `pull` on the bench from 10:00 on: FDA Food Code 2022, 3-501.19, 4 h.
    assert!(!of("10:25"));
    assert!(of("16:30"));
}
