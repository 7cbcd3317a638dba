//! Numbers, units, degrees, ranges, tolerances and durations.

use crate::common::texts::{clean, ingredient, lamb, phase, remedy, roast, said, says};
use dwell::cook::{Amount, Check, Lasts, Origin};

fn lasts(line: &str) -> (f64, Option<f64>) {
    match phase(&format!("  lamb in oven\n  air 140 °C\n  {line}")).lasts {
        Lasts::Fixed(low) => (low.minutes(), None),
        Lasts::Chosen { low, high } => (low.minutes(), high.map(|high| high.minutes())),
        Lasts::Nature { low, high, .. } => (low.minutes(), Some(high.minutes())),
        other => panic!("{line}: {other:?}"),
    }
}

#[test]
fn numbers_may_be_fractions() {
    for (typed, minutes) in [
        ("12 h", 720.0),
        ("1.5 h", 90.0),
        ("1/2 h", 30.0),
        ("1 1/2 h", 90.0),
        ("½ h", 30.0),
        ("1½ h", 90.0),
        ("1 ½ h", 90.0),
        ("¼ h", 15.0),
    ] {
        assert_eq!(lasts(&format!("for {typed}")), (minutes, None), "{typed}");
    }
}

#[test]
fn durations_add_up_and_have_long_words() {
    for (typed, minutes) in [
        ("90 min", 90.0),
        ("1 h 30 min", 90.0),
        ("1 h30min", 90.0),
        ("1h30min", 90.0),
        ("45 s", 0.75),
        ("2 days", 2880.0),
        ("1 day 2 hours 3 minutes", 1563.0),
        ("30 seconds", 0.5),
        ("3 weeks", 30240.0),
        ("90 MIN", 90.0),
    ] {
        assert_eq!(lasts(&format!("for {typed}")), (minutes, None), "{typed}");
    }
}

#[test]
fn a_hyphen_or_dash_between_figures_is_a_range() {
    for typed in
        ["8 h to 14 h", "8 to 14 h", "8–14 h", "8 – 14 h", "8-14 h", "8h-14h", "8 h — 14 h", "8 h TO 14 h"]
    {
        assert_eq!(lasts(&format!("for {typed}")), (480.0, Some(840.0)), "{typed}");
    }
    assert_eq!(lasts("for ½–1½ h"), (30.0, Some(90.0)));
    assert_eq!(lasts("takes 1 h 30 min to 2 h"), (90.0, Some(120.0)));
    assert_eq!(lasts("takes 90 min - 2 h"), (90.0, Some(120.0)));
}

#[test]
fn ranges_run_forwards() {
    says(&roast("  lamb in oven\n  air 140 °C\n  for 14 h to 8 h"), &[("range-backwards", "14 h to 8 h")]);
    says(
        &roast("  lamb in oven\n  air 120 °C to 140 °C\n  for 2 h"),
        &[("range-misplaced", "120 °C to 140 °C")],
    );
}

#[test]
fn digit_comma_digit_is_never_a_number_and_never_a_separator() {
    let text = ingredient("1,200 g coarse salt");
    says(&text, &[("decimal-comma", "1,200")]);
    let offered = remedy(&text);
    assert!(offered.contains("`1200`") && offered.contains("`1.2`"), "{offered}");
    let text = roast("  lamb in oven\n  air 140 °C\n  for 1,5 h");
    says(&text, &[("decimal-comma", "1,5")]);
    assert!(remedy(&text).contains("`1.5`"));
    // In quotes and comments nothing is checked.
    clean(&roast("  lamb in oven\n  air 140 °C // 1,5 bar\n  for 2 h\n  do \"Add 1,5 l.\""));
}

#[test]
fn a_number_has_no_blank_inside() {
    says(&ingredient("1 200 g coarse salt"), &[("number-spaced", "1 200 g")]);
}

#[test]
fn degrees_in_every_spelling() {
    for typed in [
        "140 °C",
        "140°C",
        "140 C",
        "140C",
        "140 ºC",
        "140 ℃",
        "140 degC",
        "140 deg C",
        "140 degrees C",
        "140 ° C",
        "284 °F",
        "284 F",
        "284 deg F",
        "284 ℉",
        "284 degrees Fahrenheit",
    ] {
        let phase = phase(&format!("  lamb in oven\n  air {typed}\n  for 2 h"));
        let set = phase.setting.expect("a setting").temperature.celsius();
        assert!((set - 140.0).abs() < 1e-9, "{typed}: {set}");
    }
    says(&roast("  lamb in oven\n  air 140°\n  for 2 h"), &[("unit-unknown", "140°")]);
    says(&roast("  lamb in oven\n  air 140\n  for 2 h"), &[("unit-missing", "140")]);
}

#[test]
fn a_twin_that_rounds_to_five_is_no_disagreement() {
    for typed in
        ["110 °C (230 °F)", "230 °F (110 °C)", "68 °C (155 °F)", "57 °C (135 °F)", "110 °C (230 °F) ± 5 °C"]
    {
        phase(&format!("  lamb in oven\n  air {typed}\n  for 2 h"));
    }
    let text = roast("  lamb in oven\n  air 110 °C (240 °F)\n  for 2 h");
    says(&text, &[("twin-disagrees", "110 °C (240 °F")]);
    assert!(remedy(&text).contains("230 °F"));
}

#[test]
fn a_range_has_a_twin_for_each_end() {
    let core = |lines: &str| phase(&format!("  lamb in oven\n  air 140 °C\n  for 2 h\n  {lines}")).checks;
    let checks = core("expect core 60 °C to 72 °C (140 °F to 162 °F)");
    let Check::Core { low: Some(low), high: Some(high) } = checks[0].value else { panic!("{checks:?}") };
    assert_eq!((low.celsius(), high.celsius()), (60.0, 72.0));
    let wrong = "  lamb in oven\n  air 140 °C\n  for 2 h\n  expect core 60 °C to 72 °C (140 °F to 175 °F)";
    assert_eq!(
        said(&roast(wrong)).iter().map(|(code, _)| code.as_str()).collect::<Vec<_>>(),
        ["twin-disagrees"]
    );
}

#[test]
fn a_difference_is_not_a_temperature() {
    // 3 K are 5.4 Fahrenheit degrees; 3 °C are 37.4 °F (exact, by the definition of the scale).
    for (typed, kelvin) in
        [("± 3 °C", 3.0), ("±3 °C", 3.0), ("+/- 3 °C", 3.0), ("± 5.4 °F", 3.0), ("± 9 °F", 5.0)]
    {
        let phase = phase(&format!("  lamb in oven\n  air 140 °C {typed}\n  for 2 h"));
        let swing = phase.setting.expect("a setting").tolerance.expect("a tolerance").kelvin();
        assert!((swing - kelvin).abs() < 1e-9, "{typed}: {swing}");
    }
    let cook = clean(&lamb("  2 kg\n  starts at 37.4 °F"));
    let Origin::Food(stock) = &cook.items[0].origin else { panic!() };
    assert!((stock.starts_at.expect("a start").value.celsius() - 3.0).abs() < 1e-9);
}

#[test]
fn temperatures_below_zero_and_their_ranges() {
    let cook = clean(
        "kit deep is freezer\n  air -25 °C to -18 °C\ncook \"x\"\nkit oven is oven\nfood lamb is lamb leg\n  2 kg\n  starts at −18 °C\nphase roast is cook\n  lamb in oven\n  air 140 °C\n  for 2 h\nserve lamb\n  at 19:00\n",
    );
    let Origin::Food(stock) = &cook.items[0].origin else { panic!() };
    assert_eq!(stock.starts_at.expect("a start").value.celsius(), -18.0);
    assert_eq!(cook.kit[0].ranges[0].low.celsius(), -25.0);
    assert_eq!(cook.kit[0].ranges[0].high.celsius(), -18.0);
}

#[test]
fn amounts_in_every_unit() {
    for (typed, kilos) in [("2 kg", 2.0), ("2000 g", 2.0), ("2 lb", 0.907_184_74), ("16 oz", 0.453_592_37)] {
        let cook = clean(&ingredient(&format!("{typed} thing")));
        let Origin::Ingredient(stock) = &cook.items[0].origin else { panic!() };
        let Some(Amount::Mass(mass)) = stock.amount.as_ref().map(|a| &a.value) else { panic!("{typed}") };
        // The international pound: NIST Special Publication 811, appendix B.
        assert!((mass.kg() - kilos).abs() < 1e-9, "{typed}");
    }
    for (typed, metres) in [("2 m", 2.0), ("20 cm", 0.2), ("300 mm", 0.3), ("10 in", 0.254), ("1 ft", 0.3048)]
    {
        let cook = clean(&ingredient(&format!("{typed} of paper")));
        let Origin::Ingredient(stock) = &cook.items[0].origin else { panic!() };
        let Some(Amount::Length(length)) = stock.amount.as_ref().map(|a| &a.value) else { panic!("{typed}") };
        assert!((length.metres() - metres).abs() < 1e-9, "{typed}");
    }
}

#[test]
fn cups_and_spoons_need_to_be_told_whose() {
    for word in ["cup", "pint", "tbsp", "tsp", "fl oz"] {
        let text = ingredient(&format!("2 {word} stock"));
        says(&text, &[("measures-unsaid", &format!("2 {word}"))]);
        let (_, _, findings) = crate::common::cook(&text);
        let message = findings[0].message.render(Default::default());
        assert!(message.contains("US") && message.contains("imperial"), "{message}");
        clean(&text.replace("rules uk", "measures us"));
        clean(&text.replace("rules uk", "measures imperial"));
    }
    let metric = ingredient("2 cups stock").replace("rules uk", "measures metric");
    let Origin::Ingredient(stock) = &clean(&metric).items[0].origin else { panic!() };
    let Some(Amount::Volume(volume)) = stock.amount.as_ref().map(|a| &a.value) else { panic!() };
    assert!((volume.cubic_metres() - 500e-6).abs() < 1e-12);
}

#[test]
fn a_word_that_is_no_unit_is_what_is_counted() {
    let cook = clean(&ingredient("8 vacuum bags"));
    let Origin::Ingredient(stock) = &cook.items[0].origin else { panic!() };
    let expected = Amount::Count { number: 8.0, word: "vacuum bags".into() };
    assert_eq!(stock.amount.as_ref().map(|amount| &amount.value), Some(&expected));
}

#[test]
fn figures_that_cannot_be_right() {
    for line in ["for 0 min", "for 500 days"] {
        let text = roast(&format!("  lamb in oven\n  air 140 °C\n  {line}"));
        assert_eq!(said(&text).len(), 1, "{line}: {:?}", said(&text));
        assert_eq!(said(&text)[0].0, "figure-impossible", "{line}");
    }
    says(&roast("  lamb in oven\n  air 1400 °C\n  for 2 h"), &[("figure-impossible", "1400 °C")]);
    says(&lamb("  0 kg"), &[("figure-impossible", "0 kg")]);
    says(&lamb("  2 kg\n  trim loss 120 %"), &[("figure-impossible", "120 %")]);
    let long = "9".repeat(400);
    says(&lamb(&format!("  {long} kg")), &[("figure-impossible", &format!("{long} kg"))]);
}

#[test]
fn every_clause_has_a_type() {
    says(&roast("  lamb in oven\n  air 140 °C\n  for 2 kg"), &[("unit-mismatch", "2 kg")]);
    says(&roast("  lamb in oven\n  air 3 cm\n  for 2 h"), &[("unit-mismatch", "3 cm")]);
    says(&lamb("  2 kg\n  thickness 9 °C"), &[("unit-mismatch", "9 °C")]);
    let minutes = roast("  lamb in oven\n  air 140 °C\n  for 90 m");
    says(&minutes, &[("unit-mismatch", "90 m")]);
    assert!(remedy(&minutes).contains("`90 min`"));
}

#[test]
fn a_bare_temperature_is_asked_what_it_is_of() {
    let text = roast("  lamb in oven\n  140 °C\n  for 2 h");
    says(&text, &[("temperature-of-what", "140 °C")]);
    assert!(remedy(&text).contains("`air 140 °C`"));
}
