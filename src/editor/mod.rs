//! What an editor asks about a text, as pure functions: no protocol, no files, and no places but byte offsets and spans.

mod actions;
mod at;
mod completion;
mod figures;
mod forecast;
mod format;
mod hints;
mod hover;
mod names;
mod outline;
mod pieces;
mod scope;
mod signature;
mod tokens;
mod typing;
mod why;

pub use actions::{Action, Again, Aim, NewFile, actions};
pub use completion::{Around, Offer, OfferKind, completion};
pub use format::{format, format_range};
pub use hints::{Hint, HintKind, Wanted, hints};
pub use hover::{Hover, hover};
pub use names::{NoName, Texts, files_named};
pub use outline::{Fold, Kind, Symbol, folds, symbols};
pub use pieces::{Piece, Sort, Space, pieces};
pub use signature::{Signature, SignatureForm, signature};
pub use tokens::{Token, tokens};
pub use why::why;

use crate::compile::Compiled;
use crate::syntax::Tree;
use crate::text::{FileId, Source};

/// One file as it is being written, and what is known of it.
#[derive(Debug, Clone, Copy)]
pub struct View<'v> {
    pub tree: &'v Tree,
    pub compiled: &'v Compiled,
    pub file: FileId,
}

impl<'v> View<'v> {
    pub fn source(&self) -> &'v Source {
        self.compiled.sources.get(self.file)
    }

    pub fn text(&self) -> &'v str {
        &self.source().text
    }
}
