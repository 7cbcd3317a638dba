//! `dwell fmt`.

use super::args::{Colour, Fmt};
use super::cooks::{self, Opened};
use super::files::{self, Named};
use super::{Outcome, Status, out};
use crate::load;
use crate::output::{clean, human};
use crate::quantity::Scale;
use crate::syntax;
use crate::text::Sources;

pub fn run(fmt: &Fmt, colour: Colour) -> Outcome {
    let mut status = Status::Fine;
    for named in files::named(&fmt.paths)? {
        let Opened { shown, bytes, .. } = cooks::open(&named, None)?;
        let mut sources = Sources::default();
        let file = match load::admit(&mut sources, shown.clone(), bytes) {
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
