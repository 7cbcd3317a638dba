//! Settings: of a kind the kit has, and within its range.

use super::{is_fixed, one, placed, quoted, range};
use crate::cook::{Cook, Kit, Medium, MediumRange, Setting};
use crate::findings::{Code, Finding};
use crate::quantity::{Scale, Temperature, TemperatureDifference, plain_number};
use crate::say;
use crate::text::Span;

/// Two figures this near may be the same one in the other scale: people round to 5 °F.
/// Common practice, no source.
pub(super) const ROUNDING: TemperatureDifference = TemperatureDifference::from_kelvin(1.5);

/// The end of a range is itself within it, whichever scale it was typed in.
const EDGE: TemperatureDifference = TemperatureDifference::from_kelvin(0.3);

pub(super) fn check(cook: &Cook) -> Vec<Finding> {
    let settings = placed(cook).filter_map(|(_, phase, kit)| {
        let setting = phase.setting.filter(|setting| !setting.kept)?;
        let finding = match range(kit, setting.medium) {
            None => not_had(kit, setting.medium, setting.span),
            Some(range) if is_fixed(range) => fixed(kit, range, &setting)?,
            Some(range) => out_of_range(kit, range, &setting)?,
        };
        Some(finding.in_phase(&phase.name))
    });
    ranges(&cook.kit).into_iter().chain(settings).collect()
}

/// Ranges that no kit of their class has: `water 20 °C to 95 °C` for an oven, or water that is hotter
/// than water in an open bath can be.
pub(super) fn ranges(kit: &[Kit]) -> Vec<Finding> {
    let ranges = kit.iter().flat_map(|kit| kit.ranges.iter().map(move |range| (kit, range)));
    ranges
        .filter_map(|(kit, range)| {
            let span = range.span?;
            if kit.class.range(range.medium).is_none() {
                return Some(not_had(kit, range.medium, span));
            }
            (range.medium == Medium::Water && range.high > BOILING + EDGE).then(|| {
                Finding::new(
                    Code::SettingOutOfRange,
                    span,
                    say!["Water boils at ", BOILING, ": ", quoted(&kit.name.value), " cannot be hotter."],
                    say!["Give a range that ends at ", BOILING, " or below."],
                )
            })
        })
        .collect()
}

/// At sea level, by the old definition of the scale; higher up it boils below that.
const BOILING: Temperature = Temperature::from_celsius(100.0);

fn not_had(kit: &Kit, medium: Medium, span: Span) -> Finding {
    Finding::new(
        Code::SettingNotHad,
        span,
        say![quoted(&kit.name.value), " has no `", medium.word(), "` to be set."],
        say![had(kit)],
    )
}

/// What can be set instead.
fn had(kit: &Kit) -> String {
    let class = one(kit.class.base_name());
    let words: Vec<String> = kit.class.ranges.iter().map(|range| quoted(range.medium.word())).collect();
    if words.is_empty() {
        format!("It is {class}, which takes no setting. Take this line out, or use other kit.")
    } else {
        format!("It is {class}: write its setting with {}, or use other kit.", words.join(" or "))
    }
}

fn fixed(kit: &Kit, range: &MediumRange, setting: &Setting) -> Option<Finding> {
    let (name, word, t) = (quoted(&kit.name.value), setting.medium.word(), setting.temperature);
    ((t - range.low).kelvin().abs() > ROUNDING.kelvin()).then(|| {
        let (low, high) = (range.low.min(t), range.high.max(t));
        let finding = Finding::new(
            Code::SettingOutOfRange,
            setting.span,
            say![name.clone(), " stays at ", range.low, " and cannot be set to ", t, "."],
            say!["Take this line out, or give ", name, " a range: `", word, " ", low, " to ", high, "`."],
        );
        pointing_at(range, finding)
    })
}

fn out_of_range(kit: &Kit, range: &MediumRange, setting: &Setting) -> Option<Finding> {
    let (name, word, t) = (quoted(&kit.name.value), setting.medium.word(), setting.temperature);
    let (end, limit) = if t > range.high + EDGE {
        (" goes no higher than ", range.high)
    } else if t < range.low - EDGE {
        (" goes no lower than ", range.low)
    } else {
        return None;
    };
    let (low, high) = (range.low.min(t), range.high.max(t));
    let (other, typed) = in_the_other_scale(setting);
    let choose = if (range.low..=range.high).contains(&other) {
        format!("Did you mean `{word} {typed}`? Else choose")
    } else {
        "Choose".into()
    };
    let finding = Finding::new(
        Code::SettingOutOfRange,
        setting.span,
        say![name.clone(), end, limit, ", so it cannot be set to ", t, "."],
        say![
            choose,
            " from ",
            range.low,
            " to ",
            range.high,
            ". If yours can do it, say so in the block of ",
            name,
            ": `",
            word,
            " ",
            low,
            " to ",
            high,
            "`."
        ],
    );
    Some(pointing_at(range, finding))
}

/// The same figure in the other scale, as a slip of the pen has it, and how it is typed.
fn in_the_other_scale(setting: &Setting) -> (Temperature, String) {
    let (other, figure, sign) = match setting.scale {
        Scale::Celsius => {
            let figure = setting.temperature.celsius();
            (Temperature::from_fahrenheit(figure), figure, "°F")
        }
        Scale::Fahrenheit => {
            let figure = setting.temperature.fahrenheit();
            (Temperature::from_celsius(figure), figure, "°C")
        }
    };
    (other, format!("{} {sign}", plain_number(figure, 1)))
}

fn pointing_at(range: &MediumRange, finding: Finding) -> Finding {
    match range.span {
        Some(span) => finding.also(span, say!["what it can be set to"]),
        None => finding,
    }
}
