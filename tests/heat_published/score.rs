//! How far predictions lie from what is published.

use std::fmt;

use crate::kitchen::Wait;

/// Errors of one set of rows, in per cent of the published figure (or in kelvin, where said).
#[derive(Debug, Clone, Default)]
pub struct Score {
    rows: Vec<Row>,
}

#[derive(Debug, Clone)]
struct Row {
    label: String,
    error: f64,
    /// The published figure lies within the predicted bounds.
    inside: Option<bool>,
    from_memory: bool,
}

impl Score {
    pub fn add(&mut self, label: impl Into<String>, error: f64) {
        self.rows.push(Row { label: label.into(), error, inside: None, from_memory: false });
    }

    /// A predicted wait against the published range in seconds; the error is against its middle.
    pub fn add_wait(&mut self, label: impl Into<String>, wait: &Wait, published_s: [f64; 2], status: &str) {
        let middle_s = 0.5 * (published_s[0] + published_s[1]);
        self.rows.push(Row {
            label: label.into(),
            error: 100.0 * (wait.usual_s / middle_s - 1.0),
            inside: Some(wait.least_s <= published_s[1] && published_s[0] <= wait.most_s),
            from_memory: status == "memory",
        });
    }

    pub fn sum(&self) -> f64 {
        self.errors().sum()
    }

    pub fn mean(&self) -> f64 {
        self.sum() / self.rows.len() as f64
    }

    pub fn mean_absolute(&self) -> f64 {
        self.errors().map(f64::abs).sum::<f64>() / self.rows.len() as f64
    }

    pub fn worst(&self) -> f64 {
        self.errors().fold(0.0, |worst: f64, error| if error.abs() > worst.abs() { error } else { worst })
    }

    /// Of the rows with bounds, how many hold the published figure.
    pub fn inside(&self) -> usize {
        self.rows.iter().filter(|row| row.inside == Some(true)).count()
    }

    /// The rows that have bounds.
    pub fn bounded(&self) -> usize {
        self.rows.iter().filter(|row| row.inside.is_some()).count()
    }

    pub fn len(&self) -> usize {
        self.rows.len()
    }

    pub fn print(&self, title: &str) {
        println!("{title}: {self}");
        for row in &self.rows {
            let memory = if row.from_memory { "  (from memory)" } else { "" };
            let outside = if row.inside == Some(false) { "  outside the bounds" } else { "" };
            println!("  {:>+7.1}  {}{outside}{memory}", row.error, row.label);
        }
    }

    fn errors(&self) -> impl Iterator<Item = f64> {
        self.rows.iter().map(|row| row.error)
    }
}

impl fmt::Display for Score {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (mean, absolute, worst) = (self.mean(), self.mean_absolute(), self.worst());
        write!(f, "mean {mean:+.1}, mean absolute {absolute:.1}, worst {worst:+.1}, ")?;
        write!(f, "{} of {} within the bounds", self.inside(), self.bounded())
    }
}
