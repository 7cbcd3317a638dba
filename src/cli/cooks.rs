//! From what was named on the command line to compiled cooks, and their findings to the reader.

use std::io::{IsTerminal, Read};
use std::path::Path;

use super::args::{Colour, Compiling};
use super::files::{Named, STANDARD_INPUT};
use super::reference::unknown_rules;
use super::{Unusable, out};
use crate::compile::{self, Compiled, Readings};
use crate::cook::When;
use crate::folder::{self, Folder};
use crate::output::human::{self, Layout};
use crate::quantity::Scale;
use crate::tables::RuleSets;
use crate::text::FileProblem;
use crate::timing;

/// What was read: the path as people know it, its bytes, and the folder it may name others in.
pub struct Opened {
    pub shown: String,
    pub bytes: Vec<u8>,
    pub folder: Folder,
}

/// Reads what was named.
///
/// # Errors
/// Why it could not be had: it is missing, a folder, may not be read, lies outside `root`.
pub fn open(named: &Named, root: Option<&Path>) -> Result<Opened, Unusable> {
    match named {
        Named::StandardInput => {
            let bytes = folder::read_all(std::io::stdin().lock().by_ref())
                .map_err(|why| format!("standard input could not be read: {why}"))?;
            let folder = Folder::new(root.unwrap_or(Path::new(".")))?;
            Ok(Opened { shown: STANDARD_INPUT.into(), bytes, folder })
        }
        Named::File { path, folder, found } => {
            let shown = path.to_string_lossy().into_owned();
            let bytes = folder::read_file(path).map_err(|problem| match problem {
                FileProblem::Missing => format!("{shown}: there is no such file or folder"),
                FileProblem::Outside => format!("{shown}: the file lies outside the folder"),
                FileProblem::Unreadable(why) => format!("{shown}: the file could not be read: {why}"),
            })?;
            let folder = Folder::new(root.unwrap_or(folder))?;
            if (*found || root.is_some()) && !folder.holds(path) {
                return Err(Unusable(format!("{shown}: the file really lies outside the folder")));
            }
            Ok(Opened { shown, bytes, folder })
        }
    }
}

/// Makes sure that the rules asked for exist, before any file is read.
///
/// # Errors
/// The sentence that names those there are.
pub fn known_rules(options: &Compiling) -> Result<(), Unusable> {
    match options.rules.as_deref() {
        Some(typed) if RuleSets::built_in().find(typed).is_none() => Err(Unusable(unknown_rules(typed))),
        _ => Ok(()),
    }
}

/// What some commands ask beyond the options that all share.
#[derive(Debug, Clone, Default)]
pub struct Asked {
    pub serve: Option<When>,
    /// What has happened so far.
    pub progress: timing::Progress,
    pub readings: Readings,
    /// The predicted curves, with their bounds.
    pub curves: bool,
    /// Changes that cure a finding are looked for.
    pub cures: bool,
    /// How the plan may go on is worked out.
    pub outlook: bool,
}

/// Reads and compiles what was named.
///
/// # Errors
/// As [`open`].
pub fn compile(named: &Named, options: &Compiling, asked: &Asked) -> Result<Compiled, Unusable> {
    let Opened { shown, bytes, folder } = open(named, options.root.as_deref())?;
    let wanted = compile::Options {
        rules: options.rules.clone(),
        serves: options.serves,
        declared_only: false,
        outline: !asked.curves,
        cures: asked.cures,
        readings: asked.readings.clone(),
        timing: timing::Options {
            serve: asked.serve,
            progress: asked.progress.clone(),
            outlook: asked.outlook,
            ..Default::default()
        },
    };
    let mut compiled = compile::compile(&folder, shown, bytes, &wanted);
    if options.celsius {
        compiled.scale = Scale::Celsius;
    } else if options.fahrenheit {
        compiled.scale = Scale::Fahrenheit;
    }
    Ok(compiled)
}

/// How findings are laid out on standard error.
pub fn layout(colour: Colour) -> Layout {
    let wanted = match colour {
        Colour::Always => true,
        Colour::Never => false,
        Colour::Auto => {
            // NO_COLOR counts when it is set and not empty (no-color.org).
            let refused = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
            !refused && can_be_drawn_on()
        }
    };
    if wanted { Layout::Graphical } else { Layout::Plain }
}

/// Whether standard error is a terminal whose lines can be written over.
pub fn can_be_drawn_on() -> bool {
    let dumb = std::env::var_os("TERM").is_some_and(|terminal| terminal == "dumb");
    !dumb && std::io::stderr().is_terminal()
}

/// The findings of a cook, as standard error shows them.
pub fn findings(compiled: &Compiled, colour: Colour) -> String {
    human::findings(&compiled.sources, &compiled.findings, compiled.scale, layout(colour))
}

/// Shows the findings of a cook on standard error.
///
/// # Errors
/// Those of writing.
pub fn tell_findings(compiled: &Compiled, colour: Colour) -> std::io::Result<()> {
    out::tell(&findings(compiled, colour))
}
