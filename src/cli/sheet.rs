//! `dwell sheet`.

use std::path::Path;

use super::args::{Colour, Compiling, Sheet, SheetFor};
use super::cooks::Asked;
use super::{Outcome, Unusable, emit, out};
use crate::output::sheet::{self, Part, Wanted};

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
    let part = match args.whom {
        SheetFor::Wall => Part::Wall,
        SheetFor::Station => Part::Station,
        SheetFor::Full => Part::Full,
    };
    let wanted = Wanted { part, options: options(args) };
    let page = sheet::html(&file, &wanted).ok_or_else(|| {
        Unusable(format!("{}: there is no cook in this file to make a sheet of", file.path))
    })?;
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
