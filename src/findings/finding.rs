//! One finding.

use super::{Code, Cure, Severity, Text};
use crate::quantity::Duration;
use crate::text::Span;

/// The published rule that a safety finding rests on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CitedRule {
    pub id: String,
    pub set: String,
    pub source: String,
}

/// How long a phase may last instead: from `low` to `high`, as somebody chooses, or always the same.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherLength {
    pub phase: String,
    pub low: Duration,
    pub high: Duration,
}

/// What is wrong, where, and what to do about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    pub code: Code,
    pub severity: Severity,
    pub span: Span,
    /// What is wrong, in a cook's words; stands alone as a title.
    pub message: Text,
    /// What to type or do instead.
    pub remedy: Text,
    /// Other places that matter, each with its own sentence.
    pub also: Vec<(Span, Text)>,
    pub phase: Option<String>,
    pub food: Option<String>,
    pub rule: Option<CitedRule>,
    /// Phases that need only last otherwise, the most natural first, as far as the clock goes.
    pub lengths: Vec<OtherLength>,
    /// A change that was tried and cures it; the remedy ends with it.
    pub cure: Option<Cure>,
}

impl Finding {
    pub fn new(code: Code, span: Span, message: Text, remedy: Text) -> Self {
        Self {
            code,
            severity: code.severity(),
            span,
            message,
            remedy,
            also: Vec::new(),
            phase: None,
            food: None,
            rule: None,
            lengths: Vec::new(),
            cure: None,
        }
    }

    pub fn with_severity(mut self, severity: Severity) -> Self {
        self.severity = severity;
        self
    }

    pub fn also(mut self, span: Span, text: Text) -> Self {
        self.also.push((span, text));
        self
    }

    pub fn in_phase(mut self, name: impl Into<String>) -> Self {
        self.phase = Some(name.into());
        self
    }

    pub fn about_food(mut self, name: impl Into<String>) -> Self {
        self.food = Some(name.into());
        self
    }

    pub fn citing(mut self, rule: CitedRule) -> Self {
        self.rule = Some(rule);
        self
    }
}
