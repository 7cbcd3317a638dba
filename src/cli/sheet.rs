//! `dwell sheet`.

use std::path::Path;

use super::args::{Colour, Sheet};
use super::cooks::Asked;
use super::{Outcome, Unusable, emit, out};
use crate::output::sheet;

pub fn run(args: &Sheet, colour: Colour) -> Outcome {
    let target = args.output.output.as_deref();
    if target.is_some_and(is_pdf) {
        return Err(Unusable(
            "-o: this build writes no PDF; write `-o NAME.html`, open that in a browser, and print it or save it as a \
             PDF from there"
                .into(),
        ));
    }
    let serve = args.serve.as_deref().map(emit::moment).transpose()?;
    let asked = Asked { serve, curves: true, cures: true, ..Asked::default() };
    let file = emit::one(&args.file, &args.compiling, &asked)?;
    let status = emit::tell(std::slice::from_ref(&file), colour)?;
    if !file.understood() {
        return emit::not_understood(&file);
    }
    let page = sheet::html(&file).ok_or_else(|| {
        Unusable(format!("{}: there is no cook in this file to make a sheet of", file.path))
    })?;
    out::deliver(&page, target)?;
    Ok(status)
}

fn is_pdf(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("pdf"))
}
