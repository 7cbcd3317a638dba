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
