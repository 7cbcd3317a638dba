//! What `dwell curve` shows of hand-made curves, in each of its forms.

use dwell::cook::{ItemId, PhaseId};
use dwell::heat::{Curves, FoodCurve, Heeded, PhaseTimes, Sample, Unpredicted};
use dwell::output::curve::{self, Shown, Start};
use dwell::quantity::Scale;
use dwell::safety::{FoodMicrobes, Line, Microbe};
use dwell::tables::RuleSets;
use dwell::tables::microbes::Microbes;
use dwell::timing::{Clock, OnTime, Timeline, Window, Windows};

const HOUR: f64 = 3600.0;

/// A phase with as much doubt about its end, in hours either way.
fn phase(n: u32, name: &str, hours: (f64, f64), doubt: f64) -> PhaseTimes {
    PhaseTimes {
        phase: PhaseId(n),
        name: name.into(),
        start_s: hours.0 * HOUR,
        end_s: hours.1 * HOUR,
        end_earliest_s: (hours.1 - doubt) * HOUR,
        end_latest_s: (hours.1 + doubt) * HOUR,
        least_s: (hours.1 - hours.0 - doubt) * HOUR,
        most_s: (hours.1 - hours.0 + doubt) * HOUR,
        end_predicted: doubt > 0.0,
    }
}

/// Steady air around food that follows it at a rate of so much each hour, from a core temperature.
fn stretch(phase: &PhaseTimes, medium_c: f64, from_c: f64, rate: f64, doubt_k: f64) -> Vec<Sample> {
    let steps = 12;
    (0..=steps)
        .map(|step| {
            let t_s = phase.start_s + (phase.end_s - phase.start_s) * f64::from(step) / f64::from(steps);
            let left = (-rate * (t_s - phase.start_s) / HOUR).exp();
            let core_c = medium_c + (from_c - medium_c) * left;
            Sample {
                t_s,
                phase: phase.phase,
                medium_c,
                surface_c: medium_c + (from_c - medium_c) * left * 0.4,
                core_c,
                core_low_c: core_c - doubt_k,
                core_high_c: core_c + doubt_k,
            }
        })
        .collect()
}

fn food(name: &str, samples: Vec<Sample>) -> FoodCurve {
    FoodCurve {
        item: ItemId(0),
        name: name.into(),
        samples,
        exits: Vec::new(),
        stays: Vec::new(),
        assumed: Vec::new(),
        readings: Vec::new(),
        heeded: Heeded::default(),
    }
}

/// A shoulder through a night: a cook of 6 h, a hotter one, a short wrapping, a long hold.
fn shoulder() -> Curves {
    let phases = vec![
        phase(0, "smoke", (0.0, 6.0), 0.0),
        phase(1, "set-crust", (6.0, 9.0), 1.0),
        phase(2, "wrap", (9.0, 9.2), 1.0),
        phase(3, "wait", (9.2, 17.0), 1.0),
    ];
    let mut samples = stretch(&phases[0], 110.0, 4.0, 0.12, 1.5);
    let core = |samples: &[Sample]| samples.last().unwrap().core_c;
    samples.extend(stretch(&phases[1], 135.0, core(&samples), 0.16, 4.0));
    samples.extend(stretch(&phases[2], 22.0, core(&samples), 0.05, 4.0));
    samples.extend(stretch(&phases[3], 70.0, core(&samples), 0.3, 2.0));
    let mut shoulder = food("shoulder", samples);
    shoulder.assumed =
        vec!["thickness 12 cm, from its weight and shape".into(), "air moves as in a still oven".into()];
    Curves {
        phases,
        foods: vec![shoulder],
        unpredicted: vec![Unpredicted {
            item: ItemId(1),
            name: "beans".into(),
            phase: PhaseId(3),
            because: "it boils dry or not as the cook stirs; measure it.".into(),
        }],
    }
}

fn limits() -> Vec<(String, f64)> {
    curve::limits(&[RuleSets::built_in().assumed()])
}

/// The evening before a Saturday.
fn evening() -> Option<Start> {
    Start::of(&Timeline {
        title: "Overnight shoulder".into(),
        clock: Clock::undated(Some(chrono::Weekday::Sat)),
        start: Some(Window { earliest: -390, latest: -360 }),
        on_time: OnTime::Always,
        windows: Windows::Exact,
        order_open: false,
        hands_judged: true,
        servings: Vec::new(),
        phases: Vec::new(),
        jobs: Vec::new(),
        now: None,
        branches: Vec::new(),
        overruns: Vec::new(),
        too_many: None,
        asleep: Vec::new(),
    })
}

const CELSIUS: Scale = Scale::Celsius;

/// Made-up figures for two organisms of the shoulder.
fn microbes() -> Vec<FoodMicrobes> {
    let named =
        |name: &str| Microbes::built_in().organisms.iter().find(|one| one.name == name).expect("a row");
    let salmonella = Microbe {
        organism: named("Salmonella"),
        reduction_log10: Some(8.2),
        growth_log10: Some(0.04),
        grows: Line::LowestCore,
    };
    let aureus = Microbe {
        organism: named("Staphylococcus aureus"),
        reduction_log10: None,
        growth_log10: Some(1.23),
        grows: Line::Surface,
    };
    vec![FoodMicrobes { item: ItemId(0), microbes: vec![salmonella, aureus] }]
}

fn as_text(
    title: &str,
    curves: &Curves,
    limits: &[(String, f64)],
    start: Option<Start>,
    scale: Scale,
) -> String {
    curve::text(&Shown { title, curves, microbes: &microbes(), limits, start }, scale)
}

fn as_svg(
    title: &str,
    curves: &Curves,
    limits: &[(String, f64)],
    start: Option<Start>,
    scale: Scale,
) -> String {
    curve::svg(title, &[Shown { title, curves, microbes: &[], limits, start }], &[], scale)
}

fn text(curves: &Curves) -> String {
    as_text("Overnight shoulder", curves, &limits(), evening(), CELSIUS)
}

fn svg(curves: &Curves) -> String {
    as_svg("Overnight shoulder", curves, &limits(), evening(), CELSIUS)
}

#[test]
fn a_night_as_text_and_as_a_picture() {
    insta::assert_snapshot!("a_night_as_text", text(&shoulder()));
    insta::assert_snapshot!("a_night_as_a_picture", svg(&shoulder()));
}

/// A page without its line breaks.
fn words(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Steady everything, over so many seconds, in steps of a tenth of them.
fn steady(length_s: f64, medium_c: f64, core_c: f64) -> Curves {
    let phases = vec![phase(0, "wait", (0.0, length_s / HOUR), 0.0)];
    let mut samples = stretch(&phases[0], medium_c, core_c, 0.0, 0.0);
    samples.iter_mut().for_each(|sample| sample.core_c = core_c);
    Curves { phases, foods: vec![food("lamb", samples)], unpredicted: Vec::new() }
}

/// The marks of an SVG's tags in order, after checking that it is well-formed as far as ours go.
fn tags(svg: &str) -> Vec<String> {
    let (mut tags, mut open) = (Vec::new(), Vec::new());
    let mut rest = svg;
    while let Some((text, after)) = rest.split_once('<') {
        assert!(!text.contains('>') || open.last() == Some(&"style"), "a loose mark in {text:?}");
        for (at, _) in text.match_indices('&') {
            let known = ["&amp;", "&lt;", "&gt;", "&quot;", "&#39;"];
            assert!(known.iter().any(|entity| text[at..].starts_with(entity)), "{text:?}");
        }
        let (tag, after) = after.split_once('>').expect("a tag ends");
        assert!(!tag.contains('<'), "{tag}");
        rest = after;
        match tag.strip_prefix('/') {
            Some(name) => assert_eq!(open.pop(), Some(name)),
            None if tag.ends_with('/') => {}
            None => open.push(tag.split(' ').next().expect("a name")),
        }
        tags.push(tag.to_owned());
    }
    assert!(open.is_empty() && rest.trim().is_empty(), "{open:?} is never closed");
    tags
}

/// RFC 4180 read back.
fn rows(csv: &str) -> Vec<Vec<String>> {
    let mut rows = vec![vec![String::new()]];
    let mut quoted = false;
    let mut letters = csv.chars().peekable();
    while let Some(c) = letters.next() {
        let row = rows.last_mut().expect("a row");
        match c {
            '"' if quoted && letters.peek() == Some(&'"') => {
                row.last_mut().expect("a cell").push(letters.next().expect("seen"));
            }
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(String::new()),
            '\n' if !quoted => rows.push(vec![String::new()]),
            c => row.last_mut().expect("a cell").push(c),
        }
    }
    assert!(!quoted);
    assert_eq!(rows.pop(), Some(vec![String::new()]), "the last line ends");
    rows
}

#[test]
fn a_table_comes_back_as_it_was() {
    let curves = shoulder();
    let rows = rows(&curve::csv(&curves));
    assert_eq!(rows[0].join(" "), "food phase t_s medium_c surface_c core_c core_low_c core_high_c");
    assert_eq!(rows.len() - 1, curves.foods[0].samples.len());
    for (row, sample) in rows[1..].iter().zip(&curves.foods[0].samples) {
        assert_eq!(row[0], "shoulder");
        assert_eq!(row[1], curves.phases[sample.phase.0 as usize].name);
        let Sample { t_s, medium_c, surface_c, core_c, core_low_c, core_high_c, .. } = *sample;
        for (cell, figure) in row[2..].iter().zip([t_s, medium_c, surface_c, core_c, core_low_c, core_high_c])
        {
            let read: f64 = cell.parse().expect("a number");
            assert!((read - figure).abs() <= 0.000_5, "{cell} is not {figure}");
        }
    }
}

#[test]
fn the_document_is_as_promised_and_valid_against_its_schema() {
    let document: serde_json::Value = serde_json::from_str(&curve::json(&shoulder(), &[])).expect("JSON");
    let schema = serde_json::to_value(schemars::schema_for!(curve::CurveJson)).expect("a schema");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    let faults: Vec<String> = validator.iter_errors(&document).map(|fault| fault.to_string()).collect();
    assert!(faults.is_empty(), "{faults:#?}");
    // An object has no order; whether this one keeps that of the text hangs on what else is built.
    let keys = |value: &serde_json::Value| {
        let mut keys: Vec<String> = value.as_object().unwrap().keys().cloned().collect();
        keys.sort_unstable();
        keys
    };
    assert_eq!(document["format"], "dwell.curve/1");
    assert_eq!(keys(&document["phases"][1]), ["end_earliest_s", "end_latest_s", "end_s", "name", "start_s"]);
    assert_eq!(
        keys(&document["foods"][0]["samples"][0]),
        ["core_c", "core_high_c", "core_low_c", "medium_c", "surface_c", "t_s"]
    );
    assert_eq!(document["phases"][1]["end_latest_s"], 36_000.0);
    assert_eq!(document["foods"][0]["samples"][0]["core_low_c"], 2.5);
    assert_eq!(document["foods"][0]["assumed"].as_array().unwrap().len(), 2);
    assert_eq!(document["unpredicted"][0]["name"], "beans");
    assert_eq!(document["unpredicted"][0]["phase"], "wait");
}

#[test]
fn hostile_names_stay_text() {
    let hostile = "=x\"<b>&'</text>\n\r\u{202e}\u{1b}[31m\u{ffff}, y";
    let mut curves = shoulder();
    curves.phases.iter_mut().for_each(|phase| phase.name = hostile.into());
    curves.foods[0].name = hostile.into();
    curves.foods[0].assumed = vec![hostile.into()];
    curves.unpredicted[0].name = hostile.into();
    curves.unpredicted[0].because = hostile.into();
    let limits = [(hostile.to_owned(), 57.0), (hostile.to_owned(), 900.0)];
    let text = as_text(hostile, &curves, &limits, evening(), CELSIUS);
    let svg = as_svg(hostile, &curves, &limits, evening(), CELSIUS);
    let (csv, json) = (curve::csv(&curves), curve::json(&curves, &[]));
    for page in [&text, &svg, &csv, &json] {
        assert!(!page.chars().any(|c| c != '\n' && dwell::output::clean::acts(c)), "{page:?}");
    }
    let marks = ["svg", "title", "desc", "style", "rect", "text", "line", "polyline", "polygon"];
    for tag in tags(&svg) {
        let name = tag.trim_start_matches('/').split(' ').next().unwrap().to_owned();
        assert!(marks.contains(&name.as_str()), "{tag}");
    }
    assert!(!svg.contains('\u{ffff}'));
    let rows = rows(&csv);
    assert!(rows.iter().all(|row| row.len() == 8));
    assert!(rows[1][0].starts_with("'=x\"<b>&'</text>"), "{:?}", rows[1][0]);
    let document: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(document["foods"][0]["name"], hostile);
}

/// Curves with something odd about each.
fn odd() -> Vec<(&'static str, Curves)> {
    let with =
        |samples: Vec<Sample>| Curves { foods: vec![food("lamb", samples)], ..steady(600.0, 100.0, 20.0) };
    let one = steady(600.0, 100.0, 20.0).foods[0].samples[3];
    let mut mixed = shoulder();
    mixed.foods[0].samples.reverse();
    let mut endless = shoulder();
    endless.phases[2].end_latest_s = f64::INFINITY;
    endless.phases[1].start_s = f64::NAN;
    vec![
        ("nothing", Curves::default()),
        ("no sample", with(Vec::new())),
        ("one sample", with(vec![one])),
        ("equal temperatures", steady(HOUR, 60.0, 60.0)),
        ("below freezing", steady(HOUR, -24.0, -3.0)),
        ("36 h", steady(36.0 * HOUR, 75.0, 70.0)),
        ("3 minutes", steady(180.0, 180.0, 20.0)),
        ("no length", steady(0.0, 180.0, 20.0)),
        (
            "not a number",
            with(vec![one, Sample { core_c: f64::NAN, ..one }, Sample { t_s: f64::NAN, ..one }]),
        ),
        ("too hot", with(vec![one, Sample { medium_c: f64::INFINITY, ..one }])),
        ("too late", with(vec![one, Sample { t_s: 1e300, ..one }])),
        ("a phase that nobody knows", with(vec![Sample { phase: PhaseId(77), ..one }])),
        ("time runs back", mixed),
        ("no end", endless),
    ]
}

#[test]
fn odd_curves_are_drawn_calmly() {
    for (what, curves) in odd() {
        for (scale, start) in [(CELSIUS, None), (Scale::Fahrenheit, evening())] {
            let text = as_text("Odd", &curves, &limits(), start, scale);
            for line in text.lines() {
                assert!(unicode_width::UnicodeWidthStr::width(line) <= 80, "{what}: {line}");
            }
            assert!(words(&text).contains("A probe decides"), "{what}: {text}");
            let svg = as_svg("Odd", &curves, &limits(), start, scale);
            let tags = tags(&svg);
            assert!(!tags.iter().any(|tag| tag.contains("NaN") || tag.contains("inf")), "{what}: {tags:#?}");
            let csv = curve::csv(&curves);
            assert!(!csv.contains("NaN") && !csv.contains("inf"), "{what}: {csv}");
            let json = curve::json(&curves, &[]);
            serde_json::from_str::<serde_json::Value>(&json).expect("JSON");
        }
    }
}

#[test]
fn axes_fit_what_they_show() {
    let marks = |what: &str| {
        let (_, curves) = odd().into_iter().find(|(name, _)| *name == what).expect("such a curve");
        let text = as_text("Odd", &curves, &[], None, CELSIUS);
        let ticks =
            text.lines().filter_map(|line| line.split_once(" ┤")).map(|(tick, _)| tick.trim().to_owned());
        let hours =
            text.lines().skip_while(|line| !line.contains('└')).nth(1).expect("hours").trim().to_owned();
        (ticks.collect::<Vec<_>>(), hours.split_whitespace().collect::<Vec<_>>().join(" "))
    };
    assert_eq!(marks("below freezing").0, ["0", "-5", "-10", "-15", "-20", "-25"]);
    assert_eq!(marks("equal temperatures").0, ["62", "61", "60", "59", "58"]);
    assert_eq!(marks("36 h").1, "0 h 6 h 12 h 18 h 24 h 30 h 36 h");
    assert_eq!(marks("3 minutes").1, "0 min 1 min 2 min 3 min");
}

#[test]
fn a_temperature_stands_at_its_mark() {
    let curves = steady(HOUR, 100.0, 60.0);
    let text = as_text("Marks", &curves, &[], None, CELSIUS);
    let row =
        |tick: &str| text.lines().find_map(|line| line.trim().strip_prefix(tick)).expect("a row").to_owned();
    assert!(row("100 ┤").starts_with("-----"), "{text}");
    assert!(row("60 ┤").starts_with("*****"), "{text}");
    let svg = as_svg("Marks", &curves, &[("a limit".into(), 60.0)], None, CELSIUS);
    let tags = tags(&svg);
    let tag = |start: &str| tags.iter().find(|tag| tag.starts_with(start)).expect("a tag").clone();
    let limit = tag("line class=\"limit\"");
    let (_, y) = limit.split_once("y1=\"").expect("a place");
    let (y, _) = y.split_once('"').expect("a place");
    let core = tag("polyline class=\"line core\"");
    let (_, points) = core.split_once("points=\"").expect("points");
    assert!(
        points.trim_end_matches("\"/").split(' ').all(|point| point.ends_with(&format!(",{y}"))),
        "{core}, {y}"
    );
}

#[test]
fn a_wide_band_is_a_range_with_its_reason_and_a_narrow_one_a_figure() {
    let said = words(&text(&shoulder()));
    for sentence in [
        "1 smoke, from 0 min (17:30) to 6 h (23:30). Core at its end: predicted 58 °C (56 to 60 °C).",
        "predicted to end between 8 h (01:30) and 10 h (03:30).",
        "Core after 9 h: predicted between 83 and 92 °C.",
        "predicted to end at 17 h (10:30), between 16 h (09:30) and 18 h (11:30).",
        "one figure would promise too much",
    ] {
        assert!(said.contains(sentence), "{said}");
    }
    let said = words(&text(&steady(HOUR, 100.0, 60.0)));
    assert!(!said.contains("one figure would promise too much"), "{said}");
}

#[test]
fn fahrenheit_is_shown_throughout() {
    let text = as_text("Scale", &shoulder(), &limits(), None, Scale::Fahrenheit);
    assert!(text.contains("lowest hot hold, FDA Food Code: 135 °F") && !text.contains("°C"), "{text}");
    let svg = as_svg("Scale", &shoulder(), &limits(), None, Scale::Fahrenheit);
    assert!(svg.contains("warmest cold hold, FDA Food Code: 41 °F") && !svg.contains("°C"), "{svg}");
}

/// FDA Food Code 2022, 3-501.16; Food Safety and Hygiene (England) Regulations 2013, schedule 4.
#[test]
fn limits_are_those_for_food_in_general() {
    let of = |id: &str| {
        let limits = curve::limits(&[RuleSets::built_in().find(id).expect("a set")]);
        limits.into_iter().map(|(_, celsius)| (celsius * 10.0).round() / 10.0).collect::<Vec<_>>()
    };
    assert_eq!(of("us-food-code"), [57.0, 5.0]);
    assert_eq!(of("uk"), [63.0, 8.0]);
}

#[test]
fn a_limit_far_from_the_curve_is_named_and_not_drawn() {
    let curves = steady(HOUR, -20.0, -18.0);
    let text = as_text("Frozen", &curves, &limits(), None, CELSIUS);
    assert!(text.contains("lowest hot hold, FDA Food Code: 57 °C (above this plot)"), "{text}");
    let svg = as_svg("Frozen", &curves, &limits(), None, CELSIUS);
    assert!(svg.contains("57 °C (above this plot)") && !svg.contains(">A 57 °C<"), "{svg}");
}

#[test]
fn one_food_brings_its_own_phases() {
    let mut curves = shoulder();
    let soup = phase(4, "simmer", (2.0, 4.0), 0.0);
    curves.foods.push(food("soup", stretch(&soup, 98.0, 20.0, 2.0, 1.0)));
    curves.phases.push(soup);
    let one = curve::of_food(&curves, "Soup").expect("a food");
    let names = |curves: &Curves| curves.phases.iter().map(|phase| phase.name.clone()).collect::<Vec<_>>();
    assert_eq!((names(&one), one.foods.len()), (vec!["simmer".to_owned()], 1));
    assert_eq!(curve::of_food(&curves, "beans").expect("a food without a curve").unpredicted.len(), 1);
    assert_eq!(curve::of_food(&curves, "stew"), None);
}

#[test]
fn figures_of_limits_do_not_run_into_each_other() {
    let curves = steady(HOUR, 250.0, 60.0);
    let limits = [63.0, 57.0, 60.0].map(|celsius| (format!("limit {celsius}"), celsius));
    let svg = as_svg("Close", &curves, &limits, None, CELSIUS);
    let places: Vec<f64> = ["A 63 °C", "C 60 °C", "B 57 °C"]
        .iter()
        .map(|mark| {
            let (before, _) = svg.split_once(&format!(">{mark}</text>")).expect("a mark");
            let (_, y) = before.rsplit_once("y=\"").expect("its place");
            y.trim_end_matches('"').parse().expect("a figure")
        })
        .collect();
    assert!(places.windows(2).all(|pair| pair[1] - pair[0] >= 12.0), "{places:?}");
}
