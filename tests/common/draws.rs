//! Cooks that differ: the examples with other figures and other rules, the same on every run.

use super::dice::Dice;

/// The kit that some examples share.
pub const SHARED_KIT: (&str, &str) = ("clubhouse.dwell", include_str!("../../examples/clubhouse.dwell"));

const EXAMPLES: [(&str, &str); 7] = [
    ("beans", include_str!("../../examples/baked-beans.dwell")),
    ("chilli", include_str!("../../examples/chilli.dwell")),
    ("shoulder", include_str!("../../examples/overnight-shoulder.dwell")),
    ("celeriac", include_str!("../../examples/roast-celeriac.dwell")),
    ("rib", include_str!("../../examples/short-rib.dwell")),
    ("lamb", include_str!("../../examples/too-cool.dwell")),
    ("crown", include_str!("../../examples/turkey-crown.dwell")),
];

const RULES: [&str; 6] = ["uk", "us-food-code", "us-fsis", "ca", "au-nz", "eu-ie"];

/// Names and texts of so many cooks; all examples come in turn.
pub fn cooks(count: usize, seed: u64) -> Vec<(String, String)> {
    let mut dice = Dice(seed);
    let nth = |nth: usize| {
        let (name, text) = EXAMPLES[nth % EXAMPLES.len()];
        (format!("{nth:04}-{name}.dwell"), text.lines().map(|line| other(line, &mut dice) + "\n").collect())
    };
    (0..count).map(nth).collect()
}

/// The line with another figure in it, where it is one of those that change.
fn other(line: &str, dice: &mut Dice) -> String {
    if let Some((before, _)) = line.split_once("rules ") {
        return format!("{before}rules {}", RULES[dice.roll(0, RULES.len() as i64 - 1) as usize]);
    }
    // What kit can do stays.
    let setting = |word: &str| line.starts_with(word) && !line.contains(" to ") && !line.contains("-");
    let share = dice.roll(85, 115) as f64 / 100.0;
    let kelvin = dice.roll(-3, 3) as f64;
    for word in ["  thickness ", "  1 piece of ", "  2 pieces of ", "  5 pieces of ", "  8 pieces of "] {
        if let Some(changed) = with_figure(line, word, |figure| figure * share) {
            return changed;
        }
    }
    for word in ["  air ", "  water ", "  starts at ", "  until core "] {
        let figure = if setting(word) { with_figure(line, word, |figure| figure + kelvin) } else { None };
        if let Some(changed) = figure {
            // The same in °F would no longer be the same.
            return changed.split(" (").next().unwrap_or_default().to_owned();
        }
    }
    line.to_owned()
}

/// The line with the number after `word` changed, to a tenth.
fn with_figure(line: &str, word: &str, change: impl Fn(f64) -> f64) -> Option<String> {
    let rest = line.strip_prefix(word)?;
    let length = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
    let figure: f64 = rest[..length].parse().ok()?;
    Some(format!("{word}{}{}", (change(figure) * 10.0).round() / 10.0, &rest[length..]))
}
