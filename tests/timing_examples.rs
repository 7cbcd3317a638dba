//! The example cooks on the clock.

mod common;

use dwell::cook::{Cook, Document};
use dwell::quantity::Scale;
use dwell::timing::{OnTime, Options, Timeline, plan};

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

fn planned(name: &str) -> Timeline {
    plan(&example(name, str::to_string), &Options::default()).0
}

#[test]
fn show() {
    for name in [
        "overnight-shoulder",
        "chilli",
        "short-rib",
        "turkey-crown",
        "baked-beans",
        "roast-celeriac",
        "too-cool",
    ] {
        let timeline = planned(&format!("{name}.dwell"));
        println!("{}", dwell::output::timeline::text(&timeline, Scale::Celsius));
    }
    assert_eq!(planned("overnight-shoulder.dwell").on_time, OnTime::Always);
}
