//! `dwell source`.

use std::borrow::Cow;
use std::io::IsTerminal;
use std::path::Path;

use super::args::Source;
use super::cooks::{self, Opened};
use super::{Outcome, Status, Unusable, files, out};
use crate::carried::{self, Page};
use crate::output::clean;

pub fn run(args: &Source) -> Outcome {
    let page = page(&args.page)?;
    let target = args.output.output.as_deref();
    if target.is_some_and(|target| is_same(target, &args.page)) {
        return Err(Unusable("-o: that is the page itself; name another file".into()));
    }
    let name = args.name.as_deref().unwrap_or(page.name());
    let names = || page.names().collect::<Vec<_>>().join(", ");
    let text = page.text(name).ok_or_else(|| {
        Unusable(format!(
            "{}: no file called {name} is in this page; there are: {}",
            args.page.display(),
            names()
        ))
    })?;
    // Byte for byte, but on a terminal, where a stranger's text could act.
    let shown = target.is_none() && std::io::stdout().is_terminal();
    out::deliver(&if shown { clean::page(text) } else { Cow::Borrowed(text) }, target)?;
    if args.name.is_none() && page.names().count() > 1 {
        out::tell(&clean::page(&format!(
            "This page carries more than one file: {}. Write the name of another one behind that of the page.\n",
            names()
        )))?;
    }
    Ok(Status::Fine)
}

fn page(path: &Path) -> Result<Page, Unusable> {
    let named = files::named(&[path.to_owned()])?;
    let [named] = named.as_slice() else {
        return Err(Unusable(format!("{}: name a page, not a folder", path.display())));
    };
    let Opened { shown, bytes, .. } = cooks::open(named, None)?;
    match carried::open(&shown, bytes) {
        carried::Opened::Page(page) => Ok(page),
        carried::Opened::Text(_) => {
            Err(Unusable(format!("{shown}: this is no page as `dwell sheet` writes it")))
        }
        carried::Opened::Fault(fault) => Err(Unusable(format!("{shown}: {}", fault.words()))),
    }
}

fn is_same(one: &Path, other: &Path) -> bool {
    matches!((one.canonicalize(), other.canonicalize()), (Ok(one), Ok(other)) if one == other)
}
