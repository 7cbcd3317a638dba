//! Figures with their units.

use pest::iterators::Pair;

use super::{Base, Rule};
use crate::syntax::tree::{Figure, Measure};

pub fn measure(pair: Pair<'_, Rule>, base: Base) -> Measure {
    bare_measure(pair, base)
}

/// A measure from any pair whose children are figures, `to`, `twin` and `tolerance`.
pub fn bare_measure(pair: Pair<'_, Rule>, base: Base) -> Measure {
    let mut found = Measure { span: base.span(&pair), ..Measure::default() };
    let mut twin: Vec<Figure> = Vec::new();
    let mut tolerance: Vec<Figure> = Vec::new();
    let mut past_to = false;
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::figure => {
                found.figures.push(figure(part, base));
                if past_to {
                    found.high = found.high.saturating_add(1);
                } else {
                    found.low = found.low.saturating_add(1);
                }
            }
            Rule::to => past_to = true,
            Rule::twin => {
                let mut past = false;
                for inner in part.into_inner() {
                    if inner.as_rule() == Rule::to {
                        past = true;
                        continue;
                    }
                    twin.push(figure(inner, base));
                    if past {
                        found.twin_high = found.twin_high.saturating_add(1);
                    } else {
                        found.twin = found.twin.saturating_add(1);
                    }
                }
            }
            Rule::tolerance => {
                for inner in part.into_inner() {
                    tolerance.push(figure(inner, base));
                    found.tolerance = found.tolerance.saturating_add(1);
                }
            }
            _ => {}
        }
    }
    found.figures.append(&mut twin);
    found.figures.append(&mut tolerance);
    found
}

fn figure(pair: Pair<'_, Rule>, base: Base) -> Figure {
    let span = base.span(&pair);
    let mut inner = pair.into_inner();
    let value = inner.next().map_or(f64::NAN, |number| number_value(number.as_str()));
    Figure { value, span, unit: inner.next().map(|unit| base.span(&unit)) }
}

/// `12`, `1.5`, `1/2`, `1 1/2`, `½`, `1½`, with a sign.
fn number_value(text: &str) -> f64 {
    let (sign, text) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    if let Ok(value) = text.parse::<f64>() {
        return sign * value;
    }
    let mut total = 0.0;
    let whole: String = text.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
    let rest =
        text[whole.len()..].trim_matches(|c: char| !c.is_ascii_digit() && c != '/' && fraction(c).is_none());
    if let Some(value) = rest.chars().next().and_then(fraction) {
        total += value + whole.parse::<f64>().unwrap_or(0.0);
    } else if let Some(below) = rest.strip_prefix('/') {
        total += whole.parse::<f64>().unwrap_or(f64::NAN) / below.parse::<f64>().unwrap_or(f64::NAN);
    } else if let Some((above, below)) = rest.split_once('/') {
        total += whole.parse::<f64>().unwrap_or(f64::NAN);
        total += above.parse::<f64>().unwrap_or(f64::NAN) / below.parse::<f64>().unwrap_or(f64::NAN);
    } else {
        total = f64::NAN;
    }
    sign * total
}

fn fraction(sign: char) -> Option<f64> {
    Some(match sign {
        '½' => 1.0 / 2.0,
        '⅓' => 1.0 / 3.0,
        '⅔' => 2.0 / 3.0,
        '¼' => 1.0 / 4.0,
        '¾' => 3.0 / 4.0,
        '⅕' => 1.0 / 5.0,
        '⅖' => 2.0 / 5.0,
        '⅗' => 3.0 / 5.0,
        '⅘' => 4.0 / 5.0,
        '⅙' => 1.0 / 6.0,
        '⅚' => 5.0 / 6.0,
        '⅐' => 1.0 / 7.0,
        '⅛' => 1.0 / 8.0,
        '⅜' => 3.0 / 8.0,
        '⅝' => 5.0 / 8.0,
        '⅞' => 7.0 / 8.0,
        '⅑' => 1.0 / 9.0,
        '⅒' => 1.0 / 10.0,
        _ => return None,
    })
}
