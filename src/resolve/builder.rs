//! What the blocks of one file share while they are typed.

use std::borrow::Cow;

use super::blocks::{Block, Blocks};
use super::names::{Found, Names, folded, is_reserved};
use super::units::Units;
use crate::cook::{Allow, ItemId, KitId, PhaseId};
use crate::findings::{Code, Finding};
use crate::say;
use crate::syntax::{Clause, ClauseKind};
use crate::tables::Tables;
use crate::text::{Span, Spanned, is_invisible};

mod slips;

/// Names, figures and findings of one file.
pub struct Builder<'t> {
    pub units: Units<'t>,
    pub tables: &'t Tables,
    pub rule_sets: &'t [String],
    pub kit: Names<KitId>,
    pub items: Names<ItemId>,
    pub phases: Names<PhaseId>,
    /// Text of the lines that had no effect: a name that stands in one is not reported as unknown.
    bad_lines: Vec<Cow<'t, str>>,
    /// A `kit from` could not be read whole: unknown kit may stand in what is missing.
    pub kit_missing: bool,
    /// Names that a later phase makes or collects.
    pub made_later: Vec<String>,
    pub notes: Vec<Spanned<String>>,
    pub allows: Vec<Allow>,
}

impl<'t> Builder<'t> {
    pub fn new(text: &'t str, tables: &'t Tables, rule_sets: &'t [String], blocks: &Blocks<'_>) -> Self {
        let units = Units::new(text);
        let bad_lines = blocks.bad_lines.iter().map(|&span| units.slice(span).into()).collect();
        Self {
            units,
            tables,
            rule_sets,
            kit: Names::default(),
            items: Names::default(),
            phases: Names::default(),
            bad_lines,
            kit_missing: false,
            made_later: Vec::new(),
            notes: Vec::new(),
            allows: Vec::new(),
        }
    }

    pub fn report(&mut self, finding: Finding) {
        self.units.findings.push(finding);
    }

    /// Text of a span, trimmed and with single blanks.
    pub fn text(&self, span: Span) -> Spanned<String> {
        let typed = self.units.slice(span);
        let common = typed.bytes().all(|byte| (b' '..=b'~').contains(&byte))
            && !typed.as_bytes().windows(2).any(|two| two == b"  ");
        if common {
            return Spanned::new(typed.trim().to_string(), span);
        }
        let words: Vec<&str> = typed.split(is_invisible).filter(|word| !word.is_empty()).collect();
        Spanned::new(words.join(" "), span)
    }

    /// A new name; reports one that is reserved.
    pub fn new_name(&mut self, span: Span) -> String {
        let name = self.units.slice(span);
        if is_reserved(name) {
            self.report(Finding::new(
                Code::NameReserved,
                span,
                say![format!("`{name}` is a word of the language and cannot be a name.")],
                say![format!("Choose another name, or add to it: `my-{name}`.")],
            ));
        }
        name.to_string()
    }

    pub fn taken(&mut self, span: Span, first: Option<Span>, what: &'static str) {
        let name = self.units.slice(span);
        let mut finding = Finding::new(
            Code::NameTaken,
            span,
            say![format!("There are two {what} called `{name}`.")],
            say!["Give one of them another name."],
        );
        if let Some(first) = first {
            finding = finding.also(first, say!["The first one is here."]);
        }
        self.report(finding);
        // Which of the two is meant elsewhere, nobody can tell.
        self.forgive(span);
    }

    pub fn find_kit(&mut self, span: Span) -> Option<KitId> {
        let found = match self.look_up(self.kit.find(self.units.slice(span)), span) {
            Found::No if self.kit_missing => Found::Damped,
            found => found,
        };
        self.known(found, span, "kit", "kit oven is fan oven", |builder, name| {
            builder.kit.nearest(name).map(str::to_string)
        })
    }

    /// Remembers what a phase will make, so that too early a use can be told from a wrong name.
    pub fn note_made_names(&mut self, block: &Block<'_>) {
        for clause in &block.clauses {
            if let ClauseKind::Becomes { name, .. } | ClauseKind::Collect { name, .. } = &clause.kind {
                self.made_later.push(self.units.slice(*name).to_string());
            }
        }
    }

    /// What is used or placed has to exist as the phase starts.
    pub fn too_early(&mut self, span: Span, name: &str) {
        self.report(Finding::new(
            Code::UsedTooEarly,
            span,
            say![format!("`{name}` does not exist yet when this phase starts.")],
            say!["It is made or collected in this phase or one further down. Use it in a phase below that."],
        ));
    }

    pub fn find_item(&mut self, span: Span) -> Option<ItemId> {
        let name = self.units.slice(span);
        if self.items.find(name).is_none()
            && self.made_later.iter().any(|later| folded(later) == folded(name))
        {
            self.too_early(span, name);
            return None;
        }
        let found = self.look_up(self.items.find(self.units.slice(span)), span);
        self.known(found, span, "food or ingredient", "ingredient salt is 70 g sea salt", |builder, name| {
            builder.items.nearest(name).map(str::to_string)
        })
    }

    pub fn find_phase(&mut self, span: Span) -> Option<PhaseId> {
        let found = self.look_up(self.phases.find(self.units.slice(span)), span);
        self.known(found, span, "phase", "phase roast is cook", |builder, name| {
            builder.phases.nearest(name).map(str::to_string)
        })
    }

    fn look_up<T>(&self, found: Option<T>, span: Span) -> Found<T> {
        match found {
            Some(id) => Found::Yes(id),
            None if self.stands_in_a_bad_line(self.units.slice(span)) => Found::Damped,
            None => Found::No,
        }
    }

    /// From here on, that this name is unknown only follows from what was reported already.
    pub fn forgive(&mut self, name: Span) {
        let name = self.units.slice(name);
        self.bad_lines.push(name.into());
    }

    /// Was the name perhaps meant to be declared by a line that could not be read?
    pub fn stands_in_a_bad_line(&self, name: &str) -> bool {
        let plain = |word: &str| folded(word).trim_end_matches('s').to_string();
        let name = plain(name);
        let ends_word = |c: char| is_invisible(c) || matches!(c, ',' | ':' | '"' | '“' | '”');
        self.bad_lines.iter().take(200).any(|line| line.split(ends_word).any(|word| plain(word) == name))
    }

    fn known<T>(
        &mut self,
        found: Found<T>,
        span: Span,
        what: &'static str,
        example: &'static str,
        nearest: impl Fn(&Self, &str) -> Option<String>,
    ) -> Option<T> {
        match found {
            Found::Yes(id) => Some(id),
            Found::Damped => None,
            Found::No => {
                let name = self.units.slice(span);
                let doing =
                    ["cover", "seal", "wrap", "chill", "hold", "keep", "leave", "put", "rest", "store"];
                let remedy = match nearest(self, name) {
                    None if doing[..3].contains(&name.to_lowercase().as_str()) => {
                        say!["Write `covered`, `sealed in foil` or `wrapped in paper`, whichever it is."]
                    }
                    None if doing.contains(&name.to_lowercase().as_str()) => {
                        say![
                            "Name the food: `shoulder in fridge`. What is done with it goes in quotes after `do`."
                        ]
                    }
                    Some(near) => {
                        let remedy = say![format!("Did you mean `{near}`?")];
                        // That it is then used nowhere only follows.
                        self.bad_lines.push(near.into());
                        remedy
                    }
                    None => say![format!("Say what it is in a line of its own, like `{example}`.")],
                };
                self.report(Finding::new(
                    Code::NameUnknown,
                    span,
                    say![format!("There is no {what} called `{name}`.")],
                    remedy,
                ));
                None
            }
        }
    }

    /// Stores a fact that may be said once.
    pub fn set<T>(&mut self, slot: &mut Option<T>, value: Option<T>, clause: &Clause, what: &str) {
        if slot.is_some() {
            self.twice(clause, what);
        } else {
            *slot = value;
        }
    }

    /// `allow CODE because "…"`.
    pub fn allow(
        &mut self,
        clause: &Clause,
        code: Span,
        because: Option<Span>,
        block: Span,
        phase: Option<PhaseId>,
    ) {
        let typed = self.units.slice(code);
        let Some(known) = Code::find(typed) else {
            let near = crate::findings::ALL
                .iter()
                .map(|code| code.name())
                .min_by_key(|name| strsim::osa_distance(name, &typed.to_lowercase()))
                .unwrap_or("hold-too-cool");
            self.report(Finding::new(
                Code::AllowUnknown,
                code,
                say![format!("There is no finding called `{typed}`.")],
                say![format!("Did you mean `{near}`?")],
            ));
            return;
        };
        let reason = because.map(|span| self.text(span).value).filter(|reason| !reason.is_empty());
        let Some(because) = reason else {
            self.report(Finding::new(
                Code::AllowUnknown,
                clause.span,
                say!["No reason is given, and whoever reads the sheet needs one."],
                say![format!("Write `allow {} because \"your reason\"`.", known.name())],
            ));
            return;
        };
        self.allows.push(Allow { code: Spanned::new(known, code), because, span: clause.span, phase, block });
    }
}
