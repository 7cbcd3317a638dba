//! Figures and their units.

use super::{OfferKind, Value, Values, begins};
use crate::editor::figures::kitchen;
use crate::quantity::{Dimension, Factor, Scale, UNITS, Unit, find_unit};
use crate::syntax::forms::Slot;

impl Values<'_> {
    /// An example where nothing is typed, and units after a figure.
    pub(super) fn measures(&self, slot: Slot, example: &str, typed: &str) -> Vec<Value> {
        if typed.is_empty() {
            return self.examples(slot, example).into_iter().map(Value::example).collect();
        }
        let start = typed.rfind(|c: char| !is_of_unit(c)).map_or(0, |at| at + width(typed, at));
        let (figure, unit) = typed.split_at(start);
        let units = self.units(slot);
        let is_whole = find_unit(unit).is_some_and(|unit| units.iter().any(|known| known.name == unit.name));
        if !figure.trim_end().ends_with(char::is_numeric) || is_whole {
            return Vec::new();
        }
        let blank = if figure.ends_with(char::is_whitespace) { "" } else { " " };
        let fits =
            |known: &&Unit| begins(known.name, unit) || known.spellings.iter().any(|word| begins(word, unit));
        units
            .into_iter()
            .filter(fits)
            .map(|unit| Value {
                kind: OfferKind::Unit,
                text: format!("{blank}{}", unit.name),
                detail: unit.dimension.in_words().to_owned(),
                skip: start,
                is_near: !begins(unit.name, &typed[start..]),
                ..Value::default()
            })
            .collect()
    }

    /// A temperature in either scale, that of the file first.
    fn examples(&self, slot: Slot, example: &str) -> Vec<String> {
        if !matches!(slot, Slot::Temperature | Slot::Difference) {
            return vec![example.to_owned()];
        }
        let number = example.split(' ').next().unwrap_or(example);
        let scales = self.scales().map(|unit| match (unit, slot) {
            ("°F", Slot::Temperature) => self.in_fahrenheit(example),
            _ => format!("{number} {unit}"),
        });
        scales.into()
    }

    fn in_fahrenheit(&self, celsius: &str) -> String {
        let degrees = celsius.split(' ').next().and_then(|number| number.parse().ok()).unwrap_or(0.0);
        let fahrenheit = crate::quantity::Temperature::from_celsius(degrees).fahrenheit();
        format!("{fahrenheit:.0} °F")
    }

    fn scales(&self) -> [&'static str; 2] {
        match self.view.compiled.scale {
            Scale::Celsius => ["°C", "°F"],
            Scale::Fahrenheit => ["°F", "°C"],
        }
    }

    fn units(&self, slot: Slot) -> Vec<&'static Unit> {
        use Dimension as D;
        let dimensions: &[D] = match slot {
            Slot::Temperature | Slot::Difference => {
                return self.scales().into_iter().filter_map(find_unit).collect();
            }
            Slot::Time => &[D::Duration],
            Slot::Amount => &[D::Mass, D::Volume, D::Length],
            Slot::Content => &[D::Mass, D::Volume],
            Slot::Length => &[D::Length],
            Slot::Share => &[D::Share],
            _ => &[],
        };
        let measures = kitchen(self.view);
        let known = |unit: &&Unit| match unit.factor {
            Factor::Kitchen { metric, .. } => {
                measures.is_some_and(|it| it != crate::quantity::KitchenMeasures::Metric || metric.is_some())
            }
            _ => true,
        };
        UNITS.iter().filter(|unit| dimensions.contains(&unit.dimension)).filter(known).collect()
    }
}

fn is_of_unit(c: char) -> bool {
    c.is_alphabetic() || matches!(c, '%' | '°' | 'º' | '˚')
}

fn width(text: &str, at: usize) -> usize {
    text[at..].chars().next().map_or(0, char::len_utf8)
}
