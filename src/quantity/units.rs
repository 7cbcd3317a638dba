//! The units people may write. Adding one is one row here.
//!
//! Sources of the factors: NIST Special Publication 811 (2008), appendix B, and NIST Handbook 44,
//! appendix C, for the international avoirdupois, inch-based and US customary units; the UK Units of
//! Measurement Regulations 1995 (SI 1995/1804) for the imperial pint and fluid ounce. The imperial
//! and metric cups and spoons are common practice, no source: half an imperial pint, 1/16 of it and
//! a third of that; 250 ml, 15 ml and 5 ml.

use std::sync::OnceLock;

use rustc_hash::FxHashMap;

use super::{Dimension, Written};
use crate::text::is_invisible;

/// Which kitchen's cups and spoons a cook means (`measures us`).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum KitchenMeasures {
    Us,
    Imperial,
    Metric,
}

impl KitchenMeasures {
    /// As they stand after `measures`.
    pub const ALL: [(Self, &'static str); 3] =
        [(Self::Us, "us"), (Self::Imperial, "imperial"), (Self::Metric, "metric")];

    /// In any letter case.
    pub fn find(word: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, known)| known.eq_ignore_ascii_case(word)).map(|(measures, _)| *measures)
    }
}

/// How a figure in this unit becomes SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Factor {
    /// Multiply by this to get SI (s, kg, m3, m, or a fraction of one).
    Times(f64),
    Celsius,
    Fahrenheit,
    /// Cubic metres, by kitchen. `metric` is `None` where no metric kitchen has it.
    Kitchen {
        us: f64,
        imperial: f64,
        metric: Option<f64>,
    },
}

/// One unit: the spelling the formatter writes, and the others that are understood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    pub name: &'static str,
    /// Lower case.
    pub spellings: &'static [&'static str],
    pub dimension: Dimension,
    pub factor: Factor,
    /// The units that a weight or a length in this one is shown in.
    pub written: Written,
}

const fn unit(
    name: &'static str,
    spellings: &'static [&'static str],
    dimension: Dimension,
    factor: Factor,
) -> Unit {
    Unit { name, spellings, dimension, factor, written: Written::Metric }
}

const fn customary(
    name: &'static str,
    spellings: &'static [&'static str],
    dimension: Dimension,
    factor: f64,
) -> Unit {
    Unit { name, spellings, dimension, factor: Times(factor), written: Written::Customary }
}

use Dimension::{Duration, Length, Mass, Share, Temperature, Volume};
use Factor::{Celsius, Fahrenheit, Kitchen, Times};

/// 231 cubic inches, exactly (Handbook 44, appendix C).
const US_GALLON: f64 = 231.0 * INCH * INCH * INCH;
/// 4.546 09 l, exactly (SI 1995/1804).
const IMPERIAL_GALLON: f64 = 4.546_09e-3;
/// 0.453 592 37 kg, exactly (SP 811, appendix B).
pub(super) const POUND: f64 = 0.453_592_37;
/// 25.4 mm, exactly (SP 811, appendix B).
pub(super) const INCH: f64 = 0.0254;

/// Every unit of the language.
pub const UNITS: &[Unit] = &[
    unit("°C", &["c", "celsius", "centigrade", "degc"], Temperature, Celsius),
    unit("°F", &["f", "fahrenheit", "degf"], Temperature, Fahrenheit),
    unit("s", &["s", "sec", "secs", "second", "seconds"], Duration, Times(1.0)),
    unit("min", &["min", "mins", "minute", "minutes"], Duration, Times(60.0)),
    unit("h", &["h", "hr", "hrs", "hour", "hours"], Duration, Times(3600.0)),
    unit("days", &["day", "days", "d"], Duration, Times(86_400.0)),
    unit("weeks", &["week", "weeks"], Duration, Times(604_800.0)),
    unit("mg", &["mg"], Mass, Times(1e-6)),
    unit("g", &["g", "gram", "grams", "gramme", "grammes", "gr"], Mass, Times(1e-3)),
    unit("kg", &["kg", "kilo", "kilos", "kilogram", "kilograms"], Mass, Times(1.0)),
    customary("oz", &["oz", "ounce", "ounces"], Mass, POUND / 16.0),
    customary("lb", &["lb", "lbs", "pound", "pounds"], Mass, POUND),
    unit("ml", &["ml", "millilitre", "millilitres", "milliliter", "milliliters"], Volume, Times(1e-6)),
    unit("cl", &["cl"], Volume, Times(1e-5)),
    unit("dl", &["dl"], Volume, Times(1e-4)),
    unit("l", &["l", "litre", "litres", "liter", "liters"], Volume, Times(1e-3)),
    unit(
        "tsp",
        &["tsp", "tsps", "teaspoon", "teaspoons"],
        Volume,
        Kitchen { us: US_GALLON / 768.0, imperial: IMPERIAL_GALLON / 768.0, metric: Some(5e-6) },
    ),
    unit(
        "tbsp",
        &["tbsp", "tbsps", "tablespoon", "tablespoons"],
        Volume,
        Kitchen { us: US_GALLON / 256.0, imperial: IMPERIAL_GALLON / 256.0, metric: Some(15e-6) },
    ),
    unit(
        "fl oz",
        &["fl oz", "fl. oz", "fl.oz", "floz"],
        Volume,
        Kitchen { us: US_GALLON / 128.0, imperial: IMPERIAL_GALLON / 160.0, metric: None },
    ),
    unit(
        "cup",
        &["cup", "cups"],
        Volume,
        Kitchen { us: US_GALLON / 16.0, imperial: IMPERIAL_GALLON / 16.0, metric: Some(250e-6) },
    ),
    unit(
        "pint",
        &["pint", "pints"],
        Volume,
        Kitchen { us: US_GALLON / 8.0, imperial: IMPERIAL_GALLON / 8.0, metric: None },
    ),
    unit("mm", &["mm", "millimetre", "millimetres", "millimeter", "millimeters"], Length, Times(1e-3)),
    unit("cm", &["cm", "centimetre", "centimetres", "centimeter", "centimeters"], Length, Times(1e-2)),
    unit("m", &["m", "metre", "metres", "meter", "meters"], Length, Times(1.0)),
    customary("in", &["in", "inch", "inches"], Length, INCH),
    customary("ft", &["ft", "foot", "feet"], Length, 12.0 * INCH),
    unit("%", &["%", "percent", "per cent"], Share, Times(0.01)),
];

/// The unit that `word` spells, in any letter case, with or without a degree sign.
pub fn find_unit(word: &str) -> Option<&'static Unit> {
    static SPELLINGS: OnceLock<FxHashMap<&'static str, &'static Unit>> = OnceLock::new();
    let spellings = SPELLINGS.get_or_init(|| {
        UNITS.iter().flat_map(|unit| unit.spellings.iter().map(move |spelling| (*spelling, unit))).collect()
    });
    let mut buffer = [0u8; 24];
    let (word, degrees) = lower_case(word, &mut buffer)?;
    spellings.get(word).copied().filter(|unit| !degrees || unit.dimension == Temperature)
}

/// Lower-cases an ASCII unit word without allocating, and takes off the degree signs people type
/// (`°`, `º`, `˚`, `℃`, `℉`, `deg`, `degrees`), saying whether there was one; blanks between words
/// count as one.
fn lower_case<'b>(word: &str, buffer: &'b mut [u8; 24]) -> Option<(&'b str, bool)> {
    let rest = match word {
        "℃" => "c",
        "℉" => "f",
        _ => word.strip_prefix(['°', 'º', '˚']).unwrap_or(word),
    };
    let mut length = 0;
    for part in rest.split(is_invisible).filter(|part| !part.is_empty()) {
        let start = if length == 0 { 0 } else { length + 1 };
        let room = buffer.get_mut(start..start + part.len())?;
        room.copy_from_slice(part.as_bytes());
        room.make_ascii_lowercase();
        if start > 0 {
            buffer[length] = b' ';
        }
        length = start + part.len();
    }
    let lower = std::str::from_utf8(&buffer[..length]).ok()?;
    // Too short for a word for degrees and a scale.
    if rest.len() < "deg c".len() {
        return (!lower.is_empty()).then_some((lower, rest != word));
    }
    let degrees = ["degrees ", "degree ", "deg. ", "deg "];
    let bare = degrees.iter().find_map(|degrees| lower.strip_prefix(degrees)).unwrap_or(lower);
    (!bare.is_empty()).then_some((bare, rest != word || bare != lower))
}
