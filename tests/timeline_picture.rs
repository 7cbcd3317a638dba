//! The plan as a picture: what it shows is the plan, nothing leaves its frame, and whatever stands in the file is text.

mod common;

use common::sheets::example;
use dwell::compile::{Compiled, Options, compile};
use dwell::output::timelines;
use dwell::timing::Timeline;
use unicode_width::UnicodeWidthStr;

fn plan(file: &Compiled) -> &Timeline {
    file.meal().or_else(|| file.cooks().first().and_then(|worked| worked.timeline)).expect("a plan")
}

/// Names, attributes and text of all marks, but for what stands inside `style`.
fn marks(svg: &str) -> Vec<(&str, &str, &str)> {
    let mut marks = Vec::new();
    let mut rest = svg;
    while let Some((_, after)) = rest.split_once('<') {
        let (inside, after) = after.split_once('>').expect("a mark ends");
        let (name, attributes) = inside.split_once(' ').unwrap_or((inside, ""));
        let text = after.split('<').next().unwrap_or("");
        marks.push((name, attributes.trim_end_matches('/'), text));
        rest = if name == "style" { after.split_once("</style>").expect("its end").1 } else { after };
    }
    marks
}

fn figure(attributes: &str, name: &str) -> f64 {
    let value = attributes.split(&format!("{name}=\"")).nth(1).and_then(|rest| rest.split('"').next());
    value.unwrap_or_else(|| panic!("{name} in {attributes}")).parse().expect("a figure")
}

/// Everything is in the frame; letters are taken to be 6.8 wide, which is more than the usual sans serif needs.
fn assert_sound(svg: &str) {
    let known = ["svg", "title", "desc", "style", "rect", "text", "line", "polygon"];
    let (mut width, mut height) = (0.0, 0.0);
    for (name, attributes, text) in marks(svg) {
        let name = name.trim_start_matches('/');
        assert!(known.contains(&name), "{name}");
        match name {
            "svg" if attributes.contains("viewBox") => {
                (width, height) = (figure(attributes, "width"), figure(attributes, "height"));
            }
            "text" if !attributes.is_empty() => {
                let bold = ["title", "dish", "caution"].iter().any(|class| attributes.contains(class));
                let room = text.width() as f64 * if bold { 7.6 } else { 6.6 };
                let x = figure(attributes, "x");
                let (left, right) = match attributes {
                    a if a.contains("\"end\"") => (x - room, x),
                    a if a.contains("\"middle\"") => (x - room / 2.0, x + room / 2.0),
                    _ => (x, x + room),
                };
                assert!(left >= 0.0 && right <= width + 1.0, "{text}: {left} to {right}");
                assert!(figure(attributes, "y") <= height, "{text}");
            }
            "rect" if !attributes.contains("paper") => {
                let (x, y) = (figure(attributes, "x"), figure(attributes, "y"));
                let right = x + figure(attributes, "width");
                assert!(x >= 15.9 && right <= width - 15.9, "{attributes}");
                assert!(y >= 0.0 && y <= height, "{attributes}");
            }
            _ => {}
        }
    }
    assert!(!svg.chars().any(|c| c != '\n' && dwell::output::clean::acts(c)));
}

#[test]
fn every_phase_of_every_example_is_there_with_its_times() {
    for (name, _) in common::examples() {
        let file = example(&name);
        if !file.understood() || file.cooks().is_empty() {
            continue;
        }
        let svg = timelines::svg(&file, &[]);
        assert_sound(&svg);
        let plan = plan(&file);
        let labels: Vec<&str> =
            marks(&svg).into_iter().filter(|(mark, ..)| *mark == "text").map(|(_, _, text)| text).collect();
        for phase in &plan.phases {
            let (Some(start), Some(end)) = (phase.start, phase.end) else {
                assert!(svg.contains("Not timed"), "{name}: {}", phase.name);
                continue;
            };
            let first = plan.clock.time_of_day(start.earliest);
            let last = plan.clock.time_of_day(end.latest.max(start.latest));
            let found = labels.iter().any(|label| {
                label.starts_with(phase.name.as_str()) && label.contains(&first) && label.ends_with(&last)
            });
            assert!(found, "{name}: {}: {labels:?}", phase.name);
        }
        let whole = plan.phases.iter().filter(|phase| {
            matches!((phase.start, phase.end), (Some(start), Some(end)) if start.latest < end.earliest)
        });
        // One in the key.
        assert_eq!(svg.matches("<rect class=\"sure\"").count(), whole.count() + 1, "{name}");
        assert_eq!(svg, timelines::svg(&file, &[]));
    }
}

#[test]
fn the_night_is_shaded_and_named() {
    let file = example("overnight-shoulder.dwell");
    let svg = timelines::svg(&file, &[]);
    assert!(svg.matches("<rect class=\"night\"").count() >= 2, "the night, and the key");
    assert!(svg.contains(">nobody is awake<"));
}

/// Dishes with long names in several scripts, in one menu.
fn crowd(dishes: usize, phases: usize) -> Compiled {
    let long =
        "Donauschifffahrtsgesellschaftsbetriebsküchenmeister".repeat(3).chars().take(120).collect::<String>();
    let dish = |n: usize| {
        let title = [long.as_str(), "كتف مدخن طوال الليل", "½ Süßkartoffel & <b>⅔</b>"][n % 3];
        let mut text = format!(
            "cook \"{title} {n}\"\n  serves 1\n  rules us-food-code\nkit bench{n} is bench\nfood pear is apple\n  100 g\n"
        );
        for phase in 0..phases {
            text += &format!(
                "phase {}{phase} is prep\n  pear on bench{n}\n  takes 5 min to 10 min\n",
                "ausgesprochen-lange-".repeat(4)
            );
        }
        text + "serve pear\n  at 13:00, up to 30 min late\n"
    };
    let texts: Vec<(String, String)> = (0..dishes).map(|n| (format!("dish{n}.dwell"), dish(n))).collect();
    let files: Vec<(&str, &str)> = texts.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let menu = (0..dishes).map(|n| format!("dish \"dish{n}.dwell\"\n")).collect::<String>();
    let menu = format!("menu \"{long}\"\n  serve at 13:00\ncrew\n  30 people\n{menu}");
    compile(&common::Memory(&files), "menu.dwell".into(), menu.into(), &Options::default())
}

#[test]
fn twelve_dishes_and_thirty_rows_stay_in_the_frame() {
    for (dishes, phases) in [(1, 30), (12, 2)] {
        let file = crowd(dishes, phases);
        assert!(file.understood(), "{:#?}", file.findings);
        let svg = timelines::svg(&file, &["CAUTION: a long word of it ".repeat(12)]);
        assert_sound(&svg);
        let rows = svg.matches("<rect class=\"frame\"").count();
        let timed =
            plan(&file).phases.iter().filter(|phase| phase.start.is_some() && phase.end.is_some()).count();
        assert_eq!(rows, timed + 1, "the key has one");
        assert!(timed >= dishes * phases);
    }
}

/// WCAG 2.2, 1.4.11: 3 to 1 for what a picture is understood by; 1.4.3: 4.5 to 1 for its text.
#[test]
fn marks_stand_out_from_paper_and_night_in_grey_as_well() {
    let svg = timelines::svg(&example("overnight-shoulder.dwell"), &[]);
    let style = svg.split_once("<style>").unwrap().1.split_once("</style>").unwrap().0;
    let (light, dark) = style.split_once("@media").expect("a dark one");
    for (n, part) in [light, dark].into_iter().enumerate() {
        let colour = |class: &str| {
            let rule =
                part.split(&format!(".dwell-plan {class}{{")).nth(1).unwrap_or_else(|| panic!("{class}"));
            let rule = rule.split('}').next().unwrap();
            rule.split('#').nth(1).expect("a colour").split([';', '}']).next().unwrap().to_owned()
        };
        for paper in [".paper", ".night"] {
            let paper = common::luminance(&colour(paper));
            for (mark, least) in
                [("text", 4.5), (".sure", 3.0), (".perhaps", 3.0), (".frame", 3.0), (".hands", 3.0)]
            {
                let (a, b) = (common::luminance(&colour(mark)), paper);
                let contrast = (a.max(b) + 0.05) / (a.min(b) + 0.05);
                assert!(contrast >= least, "{mark}, {n}: {contrast:.2}");
            }
        }
        // The night is not told by its shade alone, but it can be seen.
        let (a, b) = (common::luminance(&colour(".paper")), common::luminance(&colour(".night")));
        assert!((a.max(b) + 0.05) / (a.min(b) + 0.05) > 1.15, "{n}");
    }
}
