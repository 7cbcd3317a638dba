//! Quantities against published definitions, and against a general-purpose library of units.
//!
//! The definitions, as named beside each check (typed from memory of the printed tables; the exact
//! ones also follow from each other by arithmetic):
//! - SP 811: NIST Special Publication 811, Guide for the Use of the SI, 2008 edition, appendix B.
//! - HB 44: NIST Handbook 44, Specifications, Tolerances, and Other Technical Requirements for
//!   Weighing and Measuring Devices, appendix C.
//! - SI 1995/1804: the Units of Measurement Regulations 1995 (United Kingdom), schedule.

use dwell::quantity::{
    Dimension, Duration, Factor, KitchenMeasures, Length, Mass, Scale, Share, Temperature,
    TemperatureDifference, UNITS, Unit, Volume, Written, find_unit, plain_number,
};
use proptest::prelude::*;

fn unit(word: &str) -> &'static Unit {
    find_unit(word).unwrap_or_else(|| panic!("{word} is a unit"))
}

/// One of a unit in SI, in the kitchen that `measures` names where that matters.
fn one(word: &str, measures: KitchenMeasures) -> Option<f64> {
    match unit(word).factor {
        Factor::Times(factor) => Some(factor),
        Factor::Kitchen { us, imperial, metric } => match measures {
            KitchenMeasures::Us => Some(us),
            KitchenMeasures::Imperial => Some(imperial),
            KitchenMeasures::Metric => metric,
        },
        Factor::Celsius | Factor::Fahrenheit => None,
    }
}

fn us(word: &str) -> f64 {
    one(word, KitchenMeasures::Us).unwrap()
}

fn imperial(word: &str) -> f64 {
    one(word, KitchenMeasures::Imperial).unwrap()
}

#[track_caller]
fn close(got: f64, expected: f64, relative: f64) {
    assert!((got - expected).abs() <= relative * expected.abs(), "{got} is not {expected}");
}

/// Equal but for the last digits of binary arithmetic.
const EXACT: f64 = 1e-14;
/// Half a unit in the seventh figure, as SP 811 prints what is not exact.
const SEVEN_FIGURES: f64 = 5e-7;

#[test]
fn exact_definitions() {
    close(us("lb"), 0.453_592_37, EXACT); // SP 811 B.8, pound (avoirdupois), note 22; SI 1995/1804
    close(us("oz"), 0.028_349_523_125, EXACT); // HB 44 C, ounce avoirdupois: 28.349 523 125 g
    close(us("in"), 0.0254, EXACT); // SP 811 B.8, inch
    close(us("ft"), 0.3048, EXACT); // SP 811 B.8, foot
    close(us("cup") * 16.0, 3.785_411_784e-3, EXACT); // HB 44 C: gallon, 231 cubic inches
    close(us("pint"), 0.473_176_473e-3, EXACT); // HB 44 C: liquid pint
    close(us("fl oz"), 29.573_529_562_5e-6, EXACT); // HB 44 C: gallon over 128
    close(imperial("pint"), 0.568_261_25e-3, EXACT); // SI 1995/1804, pint
    close(imperial("fl oz"), 28.413_062_5e-6, EXACT); // SI 1995/1804: pint over 20
    assert_eq!(us("min"), 60.0); // SP 811, table 6
    assert_eq!(us("h"), 3600.0); // SP 811, table 6
    assert_eq!(us("days"), 86_400.0); // SP 811, table 6
    assert_eq!(us("weeks"), 7.0 * 86_400.0); // seven days
}

#[test]
fn published_to_seven_figures() {
    // SP 811, appendix B.8.
    close(us("lb"), 4.535_924e-1, SEVEN_FIGURES);
    close(us("oz"), 2.834_952e-2, SEVEN_FIGURES);
    close(us("cup"), 2.365_882e-4, SEVEN_FIGURES);
    close(us("fl oz"), 2.957_353e-5, SEVEN_FIGURES);
    close(us("pint"), 4.731_765e-4, SEVEN_FIGURES);
    close(us("tbsp"), 1.478_676e-5, SEVEN_FIGURES);
    close(us("tsp"), 4.928_922e-6, SEVEN_FIGURES);
    close(imperial("fl oz"), 2.841_306e-5, SEVEN_FIGURES);
    close(imperial("pint") * 8.0, 4.546_09e-3, EXACT);
}

#[test]
fn spoons_and_cups_agree_with_each_other() {
    // HB 44 C: 1 tablespoon is 3 teaspoons, 1 cup is 16 tablespoons, 1 liquid pint is 2 cups. The same
    // ratios in an imperial kitchen, and 250, 15 and 5 ml in a metric one, are common practice, no source.
    for measures in [KitchenMeasures::Us, KitchenMeasures::Imperial] {
        let one = |word| one(word, measures).unwrap();
        close(one("tbsp"), 3.0 * one("tsp"), EXACT);
        close(one("cup"), 16.0 * one("tbsp"), EXACT);
        close(one("pint"), 2.0 * one("cup"), EXACT);
    }
    let metric = |word| one(word, KitchenMeasures::Metric);
    assert_eq!(metric("cup"), Some(250e-6));
    assert_eq!(metric("tbsp"), Some(15e-6));
    assert_eq!(metric("tsp"), Some(5e-6));
    assert_eq!((metric("pint"), metric("fl oz")), (None, None));
}

#[test]
fn the_general_library_agrees_on_every_unit_it_has() {
    use uom::si::f64 as si;
    use uom::si::{length, mass, ratio, time, volume};

    macro_rules! oracle {
        ($($word:literal => $kind:ident $module:ident::$unit:ident $base:ident;)*) => {
            vec![$(($word, si::$kind::new::<$module::$unit>(1.0).get::<$module::$base>()),)*]
        };
    }
    let theirs = oracle! {
        "s" => Time time::second second;
        "min" => Time time::minute second;
        "h" => Time time::hour second;
        "days" => Time time::day second;
        "mg" => Mass mass::milligram kilogram;
        "g" => Mass mass::gram kilogram;
        "kg" => Mass mass::kilogram kilogram;
        "oz" => Mass mass::ounce kilogram;
        "lb" => Mass mass::pound kilogram;
        "ml" => Volume volume::milliliter cubic_meter;
        "cl" => Volume volume::centiliter cubic_meter;
        "dl" => Volume volume::deciliter cubic_meter;
        "l" => Volume volume::liter cubic_meter;
        "tsp" => Volume volume::teaspoon cubic_meter;
        "tbsp" => Volume volume::tablespoon cubic_meter;
        "fl oz" => Volume volume::fluid_ounce cubic_meter;
        "cup" => Volume volume::cup cubic_meter;
        "pint" => Volume volume::pint_liquid cubic_meter;
        "mm" => Length length::millimeter meter;
        "cm" => Length length::centimeter meter;
        "m" => Length length::meter meter;
        "in" => Length length::inch meter;
        "ft" => Length length::foot meter;
        "%" => Ratio ratio::percent ratio;
    };
    // The library holds seven figures of what is not exact.
    for (word, theirs) in &theirs {
        close(us(word), *theirs, SEVEN_FIGURES);
    }
    let imperial_ounce = si::Volume::new::<volume::fluid_ounce_imperial>(1.0).get::<volume::cubic_meter>();
    close(imperial("fl oz"), imperial_ounce, SEVEN_FIGURES);
    let imperial_gallon = si::Volume::new::<volume::gallon_imperial>(1.0).get::<volume::cubic_meter>();
    close(imperial("pint") * 8.0, imperial_gallon, SEVEN_FIGURES);

    // A unit that joins the table joins this test, or the list of those that the library lacks.
    let lacking = ["weeks", "°C", "°F"];
    let untested: Vec<_> = UNITS
        .iter()
        .map(|unit| unit.name)
        .filter(|name| !lacking.contains(name) && !theirs.iter().any(|(word, _)| word == name))
        .collect();
    assert_eq!(untested, Vec::<&str>::new());
}

#[test]
fn the_general_library_agrees_on_temperatures() {
    use uom::si::f64::{TemperatureInterval, ThermodynamicTemperature};
    use uom::si::temperature_interval as interval;
    use uom::si::thermodynamic_temperature as scale;

    for degrees in [-459.67, -40.0, 0.0, 32.0, 98.6, 135.0, 212.0, 500.0] {
        let theirs = ThermodynamicTemperature::new::<scale::degree_fahrenheit>(degrees);
        let ours = Temperature::from_fahrenheit(degrees);
        assert!((ours.kelvin() - theirs.get::<scale::kelvin>()).abs() < 1e-9);
        assert!((ours.celsius() - theirs.get::<scale::degree_celsius>()).abs() < 1e-9);
        let theirs = TemperatureInterval::new::<interval::degree_fahrenheit>(degrees);
        let ours = TemperatureDifference::from_fahrenheit_degrees(degrees);
        assert!((ours.kelvin() - theirs.get::<interval::kelvin>()).abs() < 1e-9);
    }
}

#[test]
fn offset_temperatures() {
    // SP 811 B.8: t/°C = (t/°F - 32)/1.8 and T/K = t/°C + 273.15, both exact.
    for (celsius, fahrenheit, kelvin) in
        [(0.0, 32.0, 273.15), (100.0, 212.0, 373.15), (-40.0, -40.0, 233.15), (37.0, 98.6, 310.15)]
    {
        let from_celsius = Temperature::from_celsius(celsius);
        let from_fahrenheit = Temperature::from_fahrenheit(fahrenheit);
        assert!((from_celsius.kelvin() - kelvin).abs() < 1e-9);
        assert!((from_fahrenheit.kelvin() - kelvin).abs() < 1e-9);
        assert!((from_celsius.fahrenheit() - fahrenheit).abs() < 1e-9);
        assert!((from_fahrenheit.celsius() - celsius).abs() < 1e-9);
    }
}

#[test]
fn a_difference_is_not_a_temperature() {
    let three = TemperatureDifference::from_kelvin(3.0);
    assert_eq!(three.show(Scale::Fahrenheit), "5.4 °F");
    assert_eq!(Temperature::from_celsius(3.0).show(Scale::Fahrenheit), "37.4 °F");
    assert_eq!(three.show(Scale::Celsius), Temperature::from_celsius(3.0).show(Scale::Celsius));
    // 9 °F of difference are 5 K (SP 811 B.8, degree Fahrenheit, interval).
    assert_eq!(TemperatureDifference::from_fahrenheit_degrees(9.0), TemperatureDifference::from_kelvin(5.0));
    let warmer = Temperature::from_celsius(57.0) + three;
    assert_eq!(warmer.show(Scale::Celsius), "60 °C");
    assert_eq!((warmer - Temperature::from_celsius(57.0)).show(Scale::Celsius), "3 °C");
}

#[test]
fn units_are_found_as_people_spell_them() {
    for (name, spellings) in [
        ("°C", &["C", "c", "°C", "° C", "ºC", "˚C", "℃", "degC", "deg C", "deg. c", "Degrees Celsius"][..]),
        (
            "°F",
            &["F", "°F", "º f", "℉", "degF", "degrees F", "degrees\u{a0}fahrenheit", "Degree  Fahrenheit"],
        ),
        ("h", &["h", "H", "hr", "Hrs", "hours"]),
        ("min", &["min", "Mins", "MINUTES"]),
        ("g", &["g", "G", "grams", "gramme"]),
        ("kg", &["kg", "KG", "Kilo", "kilos"]),
        ("lb", &["lb", "lbs", "Pounds"]),
        ("l", &["l", "L", "litre", "Liters"]),
        ("ml", &["ml", "mL", "ML"]),
        ("fl oz", &["fl oz", "Fl. Oz", "fl.oz", "floz", "fl  oz"]),
        ("%", &["%", "percent", "per cent", "per  cent"]),
    ] {
        for spelling in spellings {
            assert_eq!(find_unit(spelling).map(|unit| unit.name), Some(name), "{spelling:?}");
        }
    }
    for not_a_unit in [
        "",
        "°",
        "deg",
        "degrees",
        "°m",
        "degrees g",
        "buns",
        "K",
        "stone",
        "bags of",
        "millimetresmillimetresmm",
    ] {
        assert_eq!(find_unit(not_a_unit).map(|unit| unit.name), None, "{not_a_unit:?}");
    }
}

#[test]
fn a_spelling_means_one_unit() {
    let mut seen = std::collections::BTreeMap::new();
    for unit in UNITS {
        assert!(find_unit(unit.name).is_some_and(|found| found.name == unit.name), "{}", unit.name);
        for spelling in unit.spellings {
            assert_eq!(*spelling, spelling.to_lowercase());
            assert_eq!(seen.insert(*spelling, unit.name), None, "{spelling} is spelt twice");
        }
    }
}

#[test]
fn figures_are_rounded_for_show_and_say_what_they_are() {
    let duration = |seconds: f64| Duration::from_seconds(seconds).show();
    for (seconds, shown) in [
        (0.0, "0 min"),
        (-0.2, "0 min"),
        (45.0, "45 s"),
        (59.7, "1 min"),
        (90.0, "1 min 30 s"),
        (599.7, "10 min"),
        (629.0, "10 min"),
        (5400.0, "1 h 30 min"),
        (86_400.0, "24 h"),
        (172_779.0, "2 days"),
        (180_000.0, "2 days 2 h"),
        (-5400.0, "-1 h 30 min"),
        (f64::INFINITY, "for ever"),
    ] {
        assert_eq!(duration(seconds), shown);
    }
    let mass = |kg: f64| Mass::from_kg(kg).show();
    for (kg, shown) in [
        (0.0, "0 g"),
        (0.000_02, "20 mg"),
        (0.000_5, "0.5 g"),
        (0.009_99, "10 g"),
        (0.8504, "850 g"),
        (0.9996, "1 kg"),
        (3.2, "3.2 kg"),
        (12.347, "12.35 kg"),
        (-0.05, "-50 g"),
    ] {
        assert_eq!(mass(kg), shown);
    }
    let volume = |litres: f64| Volume::from_cubic_metres(litres / 1000.0).show();
    for (litres, shown) in
        [(0.0025, "2.5 ml"), (0.25, "250 ml"), (-0.1234, "-123 ml"), (0.9997, "1 l"), (1.5, "1.5 l")]
    {
        assert_eq!(volume(litres), shown);
    }
    let length = |metres: f64| Length::from_metres(metres).show();
    for (metres, shown) in
        [(0.006, "6 mm"), (0.009_97, "1 cm"), (0.045, "4.5 cm"), (0.9997, "1 m"), (1.6, "1.6 m")]
    {
        assert_eq!(length(metres), shown);
    }
    assert_eq!(Share::from_fraction(0.0625).show(), "6.25 %");
    let degrees = |celsius: f64| Temperature::from_celsius(celsius).show(Scale::Celsius);
    for (celsius, shown) in
        [(5.0, "5 °C"), (5.04, "5.04 °C"), (4.96, "4.96 °C"), (62.78, "62.8 °C"), (5.056, "5.1 °C")]
    {
        assert_eq!(degrees(celsius), shown, "just beside a limit is not at it");
    }
    let apart = |kelvin: f64| TemperatureDifference::from_kelvin(kelvin).show(Scale::Celsius);
    for (kelvin, shown) in
        [(0.0, "0 °C"), (0.001, "less than 0.01 °C"), (0.04, "0.04 °C"), (0.1, "0.1 °C"), (2.78, "2.8 °C")]
    {
        assert_eq!(apart(kelvin), shown, "a difference is never shown as none");
    }
    assert_eq!(plain_number(-0.04, 1), "0");
    assert_eq!(plain_number(1200.0, 0), "1200");
}

/// What a shown quantity says when it is read again, in SI.
fn read_again(shown: &str) -> f64 {
    let (sign, shown) = shown.strip_prefix('-').map_or((1.0, shown), |rest| (-1.0, rest));
    let words: Vec<&str> = shown.split(' ').collect();
    let sum: f64 = words.chunks(2).map(|pair| pair[0].parse::<f64>().unwrap() * us(pair[1])).sum();
    sign * sum
}

/// What is written in pounds or inches is shown so, through every sum; the value is SI all the same.
#[test]
fn quantities_are_shown_in_the_units_they_were_written_in() {
    let pounds = |n: f64| Mass::from_kg(n * us("lb")).written_in(Written::Customary);
    for (pound, shown) in [
        (7.0, "7 lb"),
        (6.346, "6.35 lb"),
        (1.0, "1 lb"),
        (0.625, "10 oz"),
        (1.0 / 32.0, "0.5 oz"),
        (0.001, "0.5 g"),
    ] {
        assert_eq!(pounds(pound).show(), shown);
    }
    assert_eq!((pounds(7.0) * 2.0 - pounds(0.5)).show(), "13.5 lb");
    assert_eq!((Mass::ZERO + pounds(2.0)).show(), "2 lb", "nothing has no units of its own");
    assert_eq!((Mass::from_kg(1.0) + pounds(1.0)).show(), "1.45 kg", "a sum goes by its first part");
    assert_eq!(pounds(1.0), Mass::from_kg(0.453_592_37), "compared by value alone");
    let inches = |n: f64| Length::from_metres(n * us("in")).written_in(Written::Customary);
    assert_eq!(inches(2.5).show(), "2.5 in");
    assert_eq!(inches(144.0).show(), "12 ft");
    // 12.344 kg is more than 12.34 kg: rounded to the nearest, the list would buy too little.
    assert_eq!(Mass::from_kg(12.344).show(), "12.34 kg");
    assert_eq!(Mass::from_kg(12.344).show_enough(), "12.35 kg");
    assert_eq!(pounds(6.341).show_enough(), "6.35 lb");
    assert_eq!(pounds(7.0).show_enough(), "7 lb", "the dust of binary fractions buys nothing");
    assert_eq!(pounds(6.349).show_at_most(), "6.34 lb");
}

proptest! {
    #[test]
    fn temperatures_come_back(degrees in -273.15..2000.0f64) {
        prop_assert!((Temperature::from_celsius(degrees).celsius() - degrees).abs() < 1e-9);
        prop_assert!((Temperature::from_fahrenheit(degrees).fahrenheit() - degrees).abs() < 1e-9);
        let difference = TemperatureDifference::from_fahrenheit_degrees(degrees);
        prop_assert!((difference.fahrenheit_degrees() - degrees).abs() < 1e-9);
    }

    #[test]
    fn adding_a_difference_is_the_same_in_both_scales(start in -40.0..300.0f64, by in -100.0..100.0f64) {
        let celsius = Temperature::from_celsius(start) + TemperatureDifference::from_kelvin(by);
        let fahrenheit = Temperature::from_fahrenheit(start * 1.8 + 32.0)
            + TemperatureDifference::from_fahrenheit_degrees(by * 1.8);
        prop_assert!((celsius.kelvin() - fahrenheit.kelvin()).abs() < 1e-9);
    }

    #[test]
    fn what_is_shown_reads_as_what_it_was(value in prop_oneof![-10.0..10.0f64, -1e6..1e6f64]) {
        // Half of the last place shown, or of the figure below which nothing is shown.
        let within = |shown: String, value: f64, least: f64| {
            let again = read_again(&shown);
            let error = (again - value).abs();
            prop_assert!(error <= (value.abs() * 0.051).max(least), "{} for {}", shown, value);
            Ok(())
        };
        within(Duration::from_seconds(value).show(), value, 0.5)?;
        within(Mass::from_kg(value).show(), value, 1e-7)?;
        within(Volume::from_cubic_metres(value / 1000.0).show(), value / 1000.0, 1e-7)?;
        within(Length::from_metres(value).show(), value, 1e-4)?;
        within(Share::from_fraction(value).show(), value, 1e-4)?;
    }

    /// Whoever buys what the list says has no less than is needed, and hardly more.
    #[test]
    fn what_is_bought_is_enough(kg in 0.000_1..500.0f64, pounds in any::<bool>()) {
        let written = if pounds { Written::Customary } else { Written::Metric };
        let shown = Mass::from_kg(kg).written_in(written).show_enough();
        let bought = read_again(&shown);
        prop_assert!(bought >= kg * (1.0 - 1e-8), "{} for {} kg", shown, kg);
        prop_assert!(bought <= kg * 1.06 + 1e-6, "{} for {} kg", shown, kg);
        let there = read_again(&Mass::from_kg(kg).written_in(written).show_at_most());
        prop_assert!(there <= kg * (1.0 + 1e-8), "{} of {} kg", there, kg);
    }

    #[test]
    fn any_word_is_a_unit_or_is_not(word in "\\PC{0,30}") {
        if let Some(unit) = find_unit(&word) {
            prop_assert!(Dimension::example(unit.dimension).split_once(' ').is_some());
        }
    }
}
