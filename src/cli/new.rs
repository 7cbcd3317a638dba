//! `dwell new`.

use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use super::args::New;
use super::{Outcome, Status, Unusable, out};
use crate::output::clean;

/// The first file; `TITLE` stands for its title.
const FIRST_FILE: &str = include_str!("first.dwell");

pub fn run(new: &New) -> Outcome {
    let path = with_ending(&new.name);
    let title = title(&path).ok_or_else(|| format!("{}: give the cook a name", new.name.display()))?;
    match out::create(&path, &FIRST_FILE.replace("TITLE", &title)) {
        Ok(()) => {
            let path = path.to_string_lossy();
            let path = clean::line(&path);
            out::print(&format!("{path} is written. Check it with: dwell check {path}\n"))?;
            Ok(Status::Fine)
        }
        Err(why) if why.kind() == ErrorKind::AlreadyExists => {
            Err(Unusable(format!("{}: the file is there already and was left alone", path.display())))
        }
        Err(why) => Err(Unusable(format!("{}: the file could not be written: {why}", path.display()))),
    }
}

fn with_ending(name: &Path) -> PathBuf {
    let mut path = name.to_owned();
    if !path.extension().is_some_and(|end| end.eq_ignore_ascii_case("dwell")) {
        // Not `set_extension`, which would take a piece off "no.2".
        let mut file = path.file_name().unwrap_or_default().to_owned();
        file.push(".dwell");
        path.set_file_name(file);
    }
    path
}

/// "overnight-shoulder.dwell" is titled "Overnight shoulder".
fn title(path: &Path) -> Option<String> {
    let words = path.file_stem()?.to_string_lossy().replace(['-', '_'], " ");
    // Quotes would end the title, and what acts on a terminal has no place in it.
    let plain: String = words.chars().filter(|c| !clean::acts(*c) && !"\"“”„".contains(*c)).collect();
    let mut letters = plain.trim().chars();
    let first = letters.next()?;
    Some(first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_becomes_a_file_and_a_title() {
        assert_eq!(with_ending(Path::new("a/no.2")), Path::new("a/no.2.dwell"));
        assert_eq!(with_ending(Path::new("lamb.dwell")), Path::new("lamb.dwell"));
        assert_eq!(title(Path::new("a/slow-lamb_leg.dwell")).as_deref(), Some("Slow lamb leg"));
        assert_eq!(title(Path::new("\"\u{1b}.dwell")), None);
    }
}
