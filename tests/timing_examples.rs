//! The example cooks on the clock.

mod common;

use dwell::cook::{Cook, Document};
use dwell::findings::Code;
use dwell::output::timeline::text;
use dwell::quantity::Scale;
use dwell::timing::{OnTime, Options, plan};

fn example(name: &str, edit: impl Fn(&str) -> String) -> Cook {
    let all = common::examples();
    let text = |wanted: &str| all.iter().find(|(name, _)| name == wanted).expect("an example").1.clone();
    let edited = edit(&text(name));
    let kitchen = text("clubhouse.dwell");
    let files = [(name, edited.as_str()), ("clubhouse.dwell", kitchen.as_str())];
    match common::resolve_files(&files) {
        (_, Some(Document::Cook(cook)), _) => *cook,
        _ => panic!("{name} is a cook"),
    }
}

#[test]
fn every_example_is_always_on_time() {
    for name in [
        "overnight-shoulder",
        "chilli",
        "short-rib",
        "turkey-crown",
        "baked-beans",
        "roast-celeriac",
        "too-cool",
    ] {
        let (timeline, findings) =
            plan(&example(&format!("{name}.dwell"), str::to_string), &Options::default());
        assert_eq!(timeline.on_time, OnTime::Always, "{name}: {findings:#?}");
        assert!(findings.is_empty(), "{name}: {findings:#?}");
        println!("{}", text(&timeline, Scale::Celsius));
    }
}

/// Worked out by hand, back from 18:30 with 15 minutes' grace.
#[test]
fn the_windows_of_the_overnight_shoulder() {
    let (timeline, _) = plan(&example("overnight-shoulder.dwell", str::to_string), &Options::default());
    let at = |hours: i64, minutes: i64| hours * 60 + minutes;
    let expected = [
        ("trim", at(-2, 0), at(-2, 5)),
        ("season", at(-2, 20), at(-2, 35)),
        ("smoke", at(-2, 30), at(-2, 55)),
        ("set-crust", at(4, 30), at(4, 55)),
        ("wrap", at(6, 30), at(8, 55)),
        ("wait", at(6, 40), at(9, 15)),
        ("pull", at(16, 45), at(17, 50)),
        ("keep", at(17, 0), at(18, 15)),
        ("serve pulled", at(18, 30), at(18, 45)),
    ];
    let found: Vec<_> = timeline
        .phases
        .iter()
        .map(|phase| phase.start.map(|start| (phase.name.as_str(), start.earliest, start.latest)))
        .collect();
    assert_eq!(found, expected.map(Some));
    let light = timeline.jobs.iter().find(|job| job.text.render(Scale::Celsius).starts_with("Light cabinet"));
    let light = light.expect("the cabinet is lit").at;
    assert_eq!((light.earliest, light.latest), (at(-2, 0), at(-2, 5)), "30 min before the shoulder goes in");
    let dropped = timeline.jobs.iter().filter(|job| job.dropped).count();
    assert_eq!(dropped, 3, "of every 90 min in 6 h, all fall in sleep");
}

#[test]
fn no_line_is_wider_than_a_page() {
    use unicode_width::UnicodeWidthStr;
    for (name, _) in common::examples() {
        if ["clubhouse.dwell", "club-supper.dwell"].contains(&name.as_str()) {
            continue;
        }
        let (timeline, _) = plan(&example(&name, str::to_string), &Options::default());
        for line in text(&timeline, Scale::Celsius).lines() {
            assert!(line.width() <= 80, "{name}: {line}");
            assert_eq!(line, line.trim_end(), "{name}");
        }
    }
}

#[test]
fn five_hours_of_smoke_are_too_short_and_six_cure_it() {
    let cook = example("overnight-shoulder.dwell", |text| text.replace("for 6 h", "for 5 h"));
    let (timeline, findings) = plan(&cook, &Options::default());
    assert_eq!(timeline.on_time, OnTime::Never);
    let [finding] = findings.as_slice() else { panic!("{findings:#?}") };
    println!("{}\n{}", finding.message.render(Scale::Celsius), finding.remedy.render(Scale::Celsius));
    println!("{}", text(&timeline, Scale::Celsius));
    assert_eq!(finding.code, Code::NeverOnTime);
    assert!(finding.remedy.render(Scale::Celsius).contains("`for 6 h` in `smoke`"));
}
