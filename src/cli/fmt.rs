//! `dwell fmt`.

use super::args::{Colour, Fmt};
use super::cooks::{self, Opened};
use super::files::{self, Named};
use super::{Outcome, Status, Unusable, out};
use crate::carried;
use crate::load;
use crate::output::{clean, human};
use crate::quantity::Scale;
use crate::syntax;
use crate::text::{Source, Sources};

pub fn run(fmt: &Fmt, colour: Colour) -> Outcome {
    let mut status = Status::Fine;
    for named in files::named(&fmt.paths)? {
        let Opened { shown, bytes, .. } = cooks::open(&named, None)?;
        let mut sources = Sources::default();
        let admitted = match carried::open(&shown, bytes) {
            carried::Opened::Text(bytes) => {
                load::admit(&mut sources, shown.clone(), Source::file_name(&shown), bytes)
            }
            // What would be written is text, and it would take the place of the page.
            carried::Opened::Page(_) if !fmt.check && matches!(named, Named::File { .. }) => {
                return Err(Unusable(format!(
                    "{shown}: this is a sheet, and it stays as it is; `dwell source` writes the text it was made from, \
                     which can be laid out"
                )));
            }
            carried::Opened::Page(page) => {
                load::admit(&mut sources, page.shown(page.name()), page.name().to_owned(), page.bytes())
            }
            carried::Opened::Fault(fault) => Err(Box::new(fault.finding(&mut sources, shown.clone()))),
        };
        let file = match admitted {
            Ok(file) => file,
            Err(finding) => {
                let layout = cooks::layout(colour);
                out::tell(&human::findings(&sources, &[*finding], Scale::default(), layout))?;
                status = Status::Findings;
                continue;
            }
        };
        let text = &sources.get(file).text;
        let (tree, _) = syntax::parse(file, text);
        let laid_out = syntax::format(&tree, text);
        let changes = laid_out != *text;
        match &named {
            _ if fmt.check => {
                if changes {
                    out::print(&format!("{}\n", clean::line(&shown)))?;
                    status = Status::Findings;
                }
            }
            Named::StandardInput => out::print(&laid_out)?,
            Named::File { path, .. } => {
                if changes {
                    out::replace(path, &laid_out)?;
                }
            }
        }
    }
    Ok(status)
}
