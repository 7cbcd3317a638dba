//! One piece of a food as heat sees it: how thick, of what shape, under what.

use super::band::Band;
use crate::cook::{CoverKind, Form, ShapeClauses};
use crate::quantity::Length;

/// How far a thickness may be off where the cook does not say. Common practice, no source.
const THICKNESS_OFF: f64 = 0.1;

/// What is said of the shape of a food and of what lies around it, from the phase that says it on.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Piece {
    /// Through the thickest part, m.
    pub thickness_m: Option<Band>,
    /// It lies that deep in a pot or a tray.
    pub is_depth: bool,
    pub form: Option<Form>,
    pub covers: Vec<CoverKind>,
    /// How many there are of it.
    pub count: Option<f64>,
}

impl Piece {
    /// What the clauses of a block change. A phase that names a cover replaces all covers; a new count starts
    /// uncovered (fine print 15).
    pub fn take(&mut self, clauses: &ShapeClauses) {
        if let Some(pieces) = &clauses.pieces {
            self.count = Some(pieces.count);
            self.covers.clear();
        }
        let off = |length: Length| clauses.thickness_tolerance.unwrap_or(length * THICKNESS_OFF).metres();
        if let Some(thickness) = &clauses.thickness {
            self.thickness_m = Some(Band::around(thickness.value.metres(), off(thickness.value)));
            self.is_depth = false;
        }
        if let Some(depth) = &clauses.depth {
            self.thickness_m = Some(Band::around(depth.value.metres(), off(depth.value)));
            self.is_depth = true;
            self.form = Some(Form::Slab);
        }
        if let Some(form) = &clauses.form {
            self.form = Some(form.value);
        }
        if !clauses.covers.is_empty() {
            self.covers = clauses.covers.iter().map(|cover| cover.kind).collect();
        }
    }
}
