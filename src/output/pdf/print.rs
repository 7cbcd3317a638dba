//! From a page to the bytes of a PDF.

use typst::diag::SourceDiagnostic;
use typst::foundations::Smart;
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

use super::{Paper, fonts, read, world};

/// A sheet on paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    pub bytes: Vec<u8>,
    /// What no font of a PDF has a sign for, in the order of Unicode; it stands there by its number.
    pub unshown: Vec<char>,
}

/// The page of [`crate::output::sheet::html`] on paper. The same page gives the same bytes.
///
/// # Errors
/// What the typesetter says, where it cannot draw the page.
pub fn print(page: &str, paper: Paper) -> Result<Printed, String> {
    let (page, unshown) = fonts::name_unshown(page);
    let world = world::Sheet::new(read::data(&page, paper, &missing(&unshown)));
    let document = typst::compile::<PagedDocument>(&world).output.map_err(said)?;
    // Nothing in it is of the time of writing: the file's identity comes from its title.
    let options = PdfOptions { creator: Smart::Custom(Some("dwell".into())), ..PdfOptions::default() };
    let bytes = typst_pdf::pdf(&document, &options).map_err(said)?;
    Ok(Printed { bytes, unshown })
}

/// What a reader of the paper alone has to know of what it does not show.
fn missing(unshown: &[char]) -> String {
    let of = |sign: &char| {
        format!(
            "<U+{:04X}> and the like stand for signs that this PDF cannot show. The same sheet as a web page shows them.",
            u32::from(*sign)
        )
    };
    unshown.first().map(of).unwrap_or_default()
}

fn said(faults: impl IntoIterator<Item = SourceDiagnostic>) -> String {
    faults.into_iter().map(|fault| fault.message.to_string()).collect::<Vec<_>>().join("; ")
}
