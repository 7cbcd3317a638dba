//! All that the typesetter can see: one template, the data, and the fonts.

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Dict, Duration};
use typst::syntax::{FileId, Source};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

use super::fonts;

const TEMPLATE: &str = include_str!("sheet.typ");

pub struct Sheet {
    library: LazyHash<Library>,
    template: Source,
}

impl Sheet {
    /// With `data` as what the template finds in `sys.inputs`.
    pub fn new(data: Dict) -> Self {
        let library = Library::builder().with_inputs(data).build();
        Self { library: LazyHash::new(library), template: Source::detached(TEMPLATE) }
    }
}

impl World for Sheet {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &fonts::BOOK
    }

    fn main(&self) -> FileId {
        self.template.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main() { Ok(self.template.clone()) } else { Err(FileError::AccessDenied) }
    }

    fn file(&self, _: FileId) -> FileResult<Bytes> {
        Err(FileError::AccessDenied)
    }

    fn font(&self, index: usize) -> Option<Font> {
        fonts::ALL.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
