//! The sheet as a PDF, drawn from the very page that `dwell sheet` writes as HTML, so that the two say the same.
//!
//! The page is read into data (`read`), and `sheet.typ` draws it: that file is to the PDF what `sheet.css` is to the
//! page. Nothing of a cook is ever taken for markup or code, and the typesetter can reach no file, clock or network.
//! Its crates take long to build; a program has them with the feature `pdf`.

#[cfg(feature = "pdf")]
mod fonts;
#[cfg(feature = "pdf")]
mod print;
#[cfg(feature = "pdf")]
mod read;
#[cfg(feature = "pdf")]
mod world;

#[cfg(feature = "pdf")]
pub use print::{Printed, print};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    A4,
    Letter,
}
