//! `dwell sheet`.

use std::path::Path;

use super::args::{Colour, Compiling, Sheet, SheetFor};
use super::cooks::Asked;
use super::{Outcome, Unusable, emit, out};
use crate::output::sheet::{self, Part, Wanted};

/// How to get one without the feature `pdf`.
const BY_A_BROWSER: &str =
    "write `-o NAME.html`, open that in a browser, and print it or save it as a PDF from there";

pub fn run(args: &Sheet, colour: Colour) -> Outcome {
    let target = args.output.output.as_deref();
    let pdf = target.is_some_and(is_pdf);
    if pdf && !cfg!(feature = "pdf") {
        return Err(Unusable(format!("-o: this build writes no PDF; {BY_A_BROWSER}")));
    }
    if !pdf && args.paper.is_some() {
        return Err(Unusable(
            "--paper: that is for `-o NAME.pdf`; a browser asks for the paper itself".into(),
        ));
    }
    let serve = args.serve.as_deref().map(emit::moment).transpose()?;
    let asked = Asked { serve, curves: true, cures: true, outlook: true, ..Asked::default() };
    let file = emit::one(&args.file, &args.compiling, &asked)?;
    let status = emit::tell(std::slice::from_ref(&file), colour)?;
    if !file.understood() {
        return emit::not_understood(&file);
    }
    let part = match args.whom {
        SheetFor::Wall => Part::Wall,
        SheetFor::Station => Part::Station,
        SheetFor::Full => Part::Full,
    };
    let wanted = Wanted { part, options: options(args) };
    let page = sheet::html(&file, &wanted).ok_or_else(|| {
        Unusable(format!("{}: there is no cook in this file to make a sheet of", file.path))
    })?;
    #[cfg(feature = "pdf")]
    if pdf {
        out::deliver_bytes(&on_paper(&page, args, &file.path)?, target)?;
        return Ok(status);
    }
    out::deliver(&page, target)?;
    Ok(status)
}

/// The options that make another sheet of the same text, as they are typed.
fn options(args: &Sheet) -> Vec<String> {
    let Compiling { serves, rules, celsius, fahrenheit, root: _ } = &args.compiling;
    let scale = [(celsius, "--celsius"), (fahrenheit, "--fahrenheit")]
        .map(|(asked, option)| asked.then(|| option.into()));
    let others = [
        args.serve.as_ref().map(|when| format!("--serve \"{when}\"")),
        serves.map(|people| format!("--serves {people}")),
        rules.as_ref().map(|id| format!("--rules {id}")),
    ];
    others.into_iter().chain(scale).flatten().collect()
}

fn is_pdf(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("pdf"))
}

/// The page as a PDF; what its fonts cannot show is told.
#[cfg(feature = "pdf")]
fn on_paper(page: &str, args: &Sheet, path: &str) -> Result<Vec<u8>, Unusable> {
    use super::args::Paper;
    use crate::output::{clean, pdf};

    let paper = match args.paper {
        Some(Paper::Letter) => pdf::Paper::Letter,
        Some(Paper::A4) | None => pdf::Paper::A4,
    };
    let printed = pdf::print(page, paper)
        .map_err(|why| Unusable(format!("{path}: the PDF could not be drawn: {why}; {BY_A_BROWSER}")))?;
    if !printed.unshown.is_empty() {
        let signs: Vec<String> =
            printed.unshown.iter().map(|&sign| format!("{sign} as <U+{:04X}>", u32::from(sign))).collect();
        let path = clean::line(path);
        out::tell(&format!(
            "{path}: the fonts of a PDF do not have every sign of this sheet. It shows {}. For the signs themselves, \
             {BY_A_BROWSER}.\n",
            signs.join(", ")
        ))?;
    }
    Ok(printed.bytes)
}
