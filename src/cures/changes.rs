//! One clause of a block written anew, put in, or taken out.

use crate::cook::{Cook, CoverKind, Lasts, Phase, Setting, Test, Until};
use crate::findings::Edit;
use crate::quantity::{Duration, Scale, Temperature};
use crate::text::{Source, Span};

/// A change of one clause, and how it is told.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    pub edit: Edit,
    /// The block that it is in.
    pub block: String,
    pub kind: Kind,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// It stands where this stood.
    InsteadOf(String),
    /// It is put in.
    Added,
}

/// A cook and its text.
#[derive(Debug, Clone, Copy)]
pub struct Written<'c> {
    pub cook: &'c Cook,
    pub source: &'c Source,
}

/// Whole days as days, as one would type them.
fn typed(time: Duration) -> String {
    let days = time.minutes() / (24.0 * 60.0);
    match days {
        1.0 => "1 day".into(),
        days if days >= 1.0 && days.fract() == 0.0 => format!("{days} days"),
        _ => time.show(),
    }
}

fn inside(phase: &Phase, span: Span) -> bool {
    span.file == phase.block.file && phase.block.range().contains(&(span.start as usize))
}

impl Written<'_> {
    /// Another clause at `span`; `None` where that is in another block, or in another file.
    pub fn instead(&self, span: Span, clause: String, phase: &Phase) -> Option<Change> {
        let old = self.own(span).filter(|_| inside(phase, span))?.to_owned();
        Some(Change {
            edit: Edit { span, text: clause },
            block: phase.name.clone(),
            kind: Kind::InsteadOf(old),
        })
    }

    /// A clause on a line of its own, below where the food is put, else below the head of the block.
    pub fn added(&self, phase: &Phase, clause: String) -> Option<Change> {
        let text = &self.source.text;
        let placed = phase.placings.iter().map(|placing| placing.span);
        let placed = placed.filter(|span| inside(phase, *span)).map(|span| span.end);
        let after = placed.chain([phase.span.end]).max()? as usize;
        self.own(phase.span)?;
        let end = after + text.get(after..)?.find(['\n', '\r']).unwrap_or(text.len() - after);
        let ending = if text[end..].starts_with('\r') { "\r\n" } else { "\n" };
        let edit = Edit { span: Span::new(phase.span.file, end, end), text: format!("{ending}  {clause}") };
        Some(Change { edit, block: phase.name.clone(), kind: Kind::Added })
    }

    /// What is typed there, in this file.
    pub fn slice(&self, span: Span) -> &str {
        self.own(span).unwrap_or("")
    }

    fn own(&self, span: Span) -> Option<&str> {
        (span.file == self.cook.file).then(|| self.source.text.get(span.range())).flatten()
    }

    /// The setting of a phase at another temperature.
    pub fn setting(&self, phase: &Phase, setting: &Setting, at: Temperature) -> Option<Change> {
        let mut clause = format!("{} {}", setting.medium.word(), at.show(setting.scale));
        if let Some(tolerance) = setting.tolerance {
            clause.push_str(&format!(" ± {}", tolerance.show(setting.scale)));
        }
        match setting.kept {
            true => self.added(phase, clause),
            false => self.instead(setting.span, clause, phase),
        }
    }

    /// How long a phase lasts, where the cook decides that.
    pub fn lasts(&self, phase: &Phase, lasts: Lasts) -> Option<Change> {
        let clause = match lasts {
            Lasts::Fixed(time) => format!("for {}", typed(time)),
            Lasts::Chosen { low, high: Some(high) } if low >= high => format!("for {}", typed(high)),
            Lasts::Chosen { low: Duration::ZERO, high: Some(high) } => format!("for up to {}", typed(high)),
            Lasts::Chosen { low, high: Some(high) } => format!("for {} to {}", typed(low), typed(high)),
            Lasts::Chosen { low, high: None } => format!("for at least {}", typed(low)),
            Lasts::Nature { .. } | Lasts::Open | Lasts::Serving | Lasts::Unsaid => return None,
        };
        self.instead(phase.lasts_span, clause, phase)
    }

    /// The core at which a phase ends.
    pub fn until(&self, phase: &Phase, until: &Until, at: Temperature) -> Option<Change> {
        let scale = self.scale_at(until.span);
        let tests: Vec<String> = until
            .tests
            .iter()
            .map(|test| match &test.value {
                Test::Core(_) => Some(format!("core {}", at.show(scale))),
                Test::Spoken(words) if !words.contains('"') => Some(format!("\"{words}\"")),
                _ => None,
            })
            .collect::<Option<_>>()?;
        self.instead(until.span, format!("until {}", tests.join(" and ")), phase)
    }

    /// What lies around the food. Put in where nothing is said of it in this block.
    pub fn cover(&self, phase: &Phase, to: CoverKind) -> Option<Change> {
        let clause = match to {
            CoverKind::Covered => "covered",
            CoverKind::Uncovered => "uncovered",
            // Foil needs no stock of its own.
            CoverKind::Sealed => "sealed in foil",
            CoverKind::Wrapped | CoverKind::Bagged | CoverKind::VacuumBagged => return None,
        };
        match phase.shape.covers.as_slice() {
            [] => self.added(phase, clause.into()),
            [one] if one.kind != to => self.instead(one.span, clause.into(), phase),
            _ => None,
        }
    }

    /// The scale that a figure is typed in.
    pub fn scale_at(&self, span: Span) -> Scale {
        let text = self.slice(span);
        let mut after_figure = false;
        for c in text.chars() {
            match c {
                '℃' => return Scale::Celsius,
                '℉' => return Scale::Fahrenheit,
                'c' | 'C' if after_figure => return Scale::Celsius,
                'f' | 'F' if after_figure => return Scale::Fahrenheit,
                '°' | 'º' | '˚' | ' ' | '.' => {}
                _ => after_figure = c.is_ascii_digit(),
            }
        }
        self.cook.scale
    }
}
