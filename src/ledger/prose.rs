//! Amounts that stand in a sentence only: they do not scale and are not bought.

use std::ops::Range;

use crate::cook::{Amount, Cook, Origin, Part};
use crate::findings::{Code, Finding};
use crate::quantity::{Dimension, Factor, Mass, Volume, find_unit};
use crate::say;
use crate::text::{Span, Spanned};

/// Notes every weight or volume in a `do` or a `note` that no clause of the cook says as well.
/// Lengths are left alone: "leave 6 mm of fat" is how to cut, not what to buy.
pub(super) fn amounts(cook: &Cook) -> Vec<Finding> {
    let said = said_in_clauses(cook);
    let mut findings = Vec::new();
    let of_cook = cook.notes.iter().map(|note| (None, note));
    let of_phases = cook.phases.iter().flat_map(|phase| {
        let texts = phase.jobs.iter().map(|job| &job.text).chain(&phase.notes);
        texts.map(move |text| (Some(&phase.name), text))
    });
    for (phase, text) in of_cook.chain(of_phases) {
        for (range, amount) in find(&text.value) {
            if amount.as_ref().is_some_and(|amount| said.iter().any(|said| equal(said, amount))) {
                continue;
            }
            let typed = text.value.get(range.clone()).unwrap_or_default();
            let mut finding = Finding::new(
                Code::AmountInProse,
                inside(text, range.clone()),
                say![format!("{typed} stands only in this sentence: it is not bought and does not scale.")],
                say![format!("If it is to be bought, give it a line: `use {typed} of …`.")],
            );
            finding.phase = phase.cloned();
            findings.push(finding);
        }
    }
    findings
}

/// The place of `range` of a text, whose span holds its quotes.
fn inside(text: &Spanned<String>, range: Range<usize>) -> Span {
    let span = text.span.range();
    let Some(quotes) = span.len().checked_sub(text.value.len()) else { return text.span };
    let start = span.start + quotes / 2 + range.start;
    Span::new(text.span.file, start, start + range.len())
}

fn said_in_clauses(cook: &Cook) -> Vec<Amount> {
    let mut said = Vec::new();
    for item in &cook.items {
        if let Origin::Food(stock) | Origin::Ingredient(stock) = &item.origin {
            said.extend(stock.amount.iter().map(|amount| amount.value.clone()));
            said.extend(stock.shape.pieces.iter().map(|pieces| pieces.each.clone()));
        }
    }
    said.extend(cook.serves.iter().filter_map(|serves| Some(serves.each.as_ref()?.value.clone())));
    for phase in &cook.phases {
        let smoke = phase.smoke.as_ref().and_then(|smoke| smoke.draw.as_ref());
        let parts = phase.uses.iter().chain(smoke).map(|draw| &draw.part);
        for part in parts.chain(phase.placings.iter().map(|placing| &placing.part)) {
            if let Part::Amount(amount) = part {
                said.push(amount.clone());
            }
        }
        said.extend(phase.collects.iter().map(|collect| collect.amount.clone()));
        said.extend(phase.lie_in.iter().map(|lie_in| lie_in.amount.clone()));
        said.extend(phase.shape.pieces.iter().map(|pieces| pieces.each.clone()));
        said.extend(phase.shape.amount.iter().map(|amount| amount.value.clone()));
    }
    said
}

fn equal(a: &Amount, b: &Amount) -> bool {
    let (a, b) = match (a, b) {
        (Amount::Mass(a), Amount::Mass(b)) => (a.kg(), b.kg()),
        (Amount::Volume(a), Amount::Volume(b)) => (a.cubic_metres(), b.cubic_metres()),
        _ => return false,
    };
    (a - b).abs() <= 0.005 * a.abs()
}

/// Figures with a unit of weight or volume. The amount is `None` where it depends on the kitchen
/// (a cup).
fn find(text: &str) -> Vec<(Range<usize>, Option<Amount>)> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(step) = text.get(at..).and_then(|rest| rest.find(figure)) {
        let start = at + step;
        let end = start
            + text[start..].find(|c| !figure(c) && !matches!(c, '.' | '/')).unwrap_or(text.len() - start);
        at = end;
        // "no2" and "2x4" are no amounts.
        if text[..start].chars().next_back().is_some_and(char::is_alphanumeric) {
            continue;
        }
        let Some(number) = number(&text[start..end]) else { continue };
        let gap = text[end..].len() - text[end..].trim_start_matches([' ', '\u{a0}', '-']).len();
        if let Some((length, amount)) = unit(&text[end + gap..], number) {
            found.push((start..end + gap + length, amount));
            at = end + gap + length;
        }
    }
    found
}

fn figure(c: char) -> bool {
    c.is_ascii_digit() || matches!(c, '½' | '¼' | '¾' | '⅓' | '⅔')
}

fn number(typed: &str) -> Option<f64> {
    let (whole, part) = match typed.char_indices().find(|(_, c)| figure(*c) && !c.is_ascii_digit()) {
        Some((at, c)) => (
            &typed[..at],
            [('½', 0.5), ('¼', 0.25), ('¾', 0.75), ('⅓', 1.0 / 3.0), ('⅔', 2.0 / 3.0)]
                .iter()
                .find(|(sign, _)| *sign == c)
                .map_or(0.0, |(_, value)| *value),
        ),
        None => (typed, 0.0),
    };
    if whole.is_empty() {
        return Some(part);
    }
    match whole.trim_end_matches('.').split_once('/') {
        Some((over, under)) => {
            Some(over.parse::<f64>().ok()? / under.parse::<f64>().ok().filter(|n| *n > 0.0)?)
        }
        None => Some(whole.trim_end_matches('.').parse::<f64>().ok()? + part),
    }
}

/// The unit that a text begins with: its length in the text, and the amount.
fn unit(text: &str, number: f64) -> Option<(usize, Option<Amount>)> {
    let word = |from: usize| {
        let rest = &text[from..];
        from + rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len())
    };
    let one = word(0);
    let two = text.get(one..one + 1).filter(|gap| *gap == " ").map(|_| word(one + 1));
    let (length, unit) =
        [two, Some(one)].into_iter().flatten().find_map(|end| Some((end, find_unit(&text[..end])?)))?;
    match (unit.dimension, unit.factor) {
        (Dimension::Mass, Factor::Times(factor)) => {
            Some((length, Some(Amount::Mass(Mass::from_kg(number * factor)))))
        }
        (Dimension::Volume, Factor::Times(factor)) => {
            Some((length, Some(Amount::Volume(Volume::from_cubic_metres(number * factor)))))
        }
        (Dimension::Volume, _) => Some((length, None)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::find;

    fn found(text: &str) -> Vec<&str> {
        find(text).into_iter().map(|(range, _)| &text[range]).collect()
    }

    #[test]
    fn finds_weights_and_volumes_and_nothing_else() {
        assert_eq!(found("Rub in 40 g of salt and 2 tbsp. of oil, ½ l water."), ["40 g", "2 tbsp", "½ l"]);
        assert_eq!(found("1.5kg, 1/2 pint, 3 fl oz"), ["1.5kg", "1/2 pint", "3 fl oz"]);
        assert_eq!(found("leave 6 mm of fat at 110 °C for 5 min; no2 g, 2 parts ice, 12"), [""; 0]);
        assert_eq!(found("é½ 3 ½"), [""; 0]);
    }
}
