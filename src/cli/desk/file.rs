//! The file on the desk: read as it is, and never written over where somebody else has changed it.

use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use sha2::{Digest, Sha256};

use crate::carried;
use crate::cli::{Unusable, out};
use crate::compile::{self, Compiled};
use crate::folder::{self, Folder};
use crate::load::LONGEST_FILE;
use crate::output::clean;
use crate::text::FileProblem;

/// The most copies beside a file before a new one is refused.
const MOST_COPIES: usize = 100;

pub struct DeskFile {
    path: PathBuf,
    folder: Folder,
    /// One save at a time: between looking and writing no other page may write.
    saving: Mutex<()>,
}

/// A text as a browser has it, and the mark of the file it was read from.
pub struct Read {
    pub text: String,
    pub mark: String,
}

/// What came of saving.
pub enum Saved {
    /// It stands in the file, which has this mark now.
    Written(String),
    /// The file is not what the page read.
    Changed,
}

impl DeskFile {
    /// # Errors
    /// Why the file cannot be worked on.
    pub fn open(path: &Path) -> Result<Self, Unusable> {
        let shown = clean::line(&path.to_string_lossy()).into_owned();
        if path.is_dir() {
            return Err(Unusable(format!("{shown}: name a file, not a folder")));
        }
        let parent = path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let folder = Folder::new(parent)?;
        let file = Self { path: path.to_owned(), folder, saving: Mutex::new(()) };
        file.read()?;
        Ok(file)
    }

    pub fn shown(&self) -> String {
        clean::line(&self.path.to_string_lossy()).into_owned()
    }

    pub fn name(&self) -> String {
        let name = self.path.file_name().unwrap_or(self.path.as_os_str());
        clean::line(&name.to_string_lossy()).into_owned()
    }

    fn bytes(&self) -> Result<Vec<u8>, Unusable> {
        let shown = self.shown();
        folder::read_file(&self.path).map_err(|problem| {
            Unusable(match problem {
                FileProblem::Missing => {
                    format!("{shown}: there is no such file; `dwell new` writes a first one")
                }
                FileProblem::Outside => format!("{shown}: the file lies outside the folder"),
                FileProblem::Unreadable(why) => format!("{shown}: the file could not be read: {why}"),
            })
        })
    }

    /// The text as it is on the disk now.
    ///
    /// # Errors
    /// Why it cannot be shown.
    pub fn read(&self) -> Result<Read, Unusable> {
        let bytes = self.bytes()?;
        let shown = self.shown();
        if bytes.len() > LONGEST_FILE {
            return Err(Unusable(format!("{shown}: this file is 10 MiB long or longer")));
        }
        let mark = mark(&bytes);
        if !matches!(carried::open("", bytes.clone()), carried::Opened::Text(_)) {
            return Err(Unusable(format!(
                "{shown}: this is a sheet, and it stays as it is; `dwell source` writes the text it was made from"
            )));
        }
        let text = String::from_utf8(bytes).map_err(|_| {
            Unusable(format!(
                "{shown}: this file is not plain text in UTF-8, and would not stay as it is here"
            ))
        })?;
        Ok(Read { text: as_typed(&text), mark })
    }

    /// Writes what was typed, unless the file has another mark than `mark`.
    ///
    /// # Errors
    /// Why it could not be looked at or written.
    pub fn save(&self, typed: &str, mark_read: &str) -> Result<Saved, Unusable> {
        let _one_at_a_time = self.saving.lock().unwrap_or_else(PoisonError::into_inner);
        let before = self.bytes()?;
        let bytes = as_in_file(typed, &String::from_utf8_lossy(&before)).into_bytes();
        // What stands there already, whoever wrote it, needs no writing.
        if bytes == before {
            return Ok(Saved::Written(mark(&bytes)));
        }
        if mark(&before) != mark_read {
            return Ok(Saved::Changed);
        }
        out::replace(&self.path, &bytes)?;
        Ok(Saved::Written(mark(&bytes)))
    }

    /// Writes what was typed beside the file, under a name that is still free, and tells that name.
    ///
    /// # Errors
    /// Why it could not be written.
    pub fn save_copy(&self, typed: &str) -> Result<String, Unusable> {
        let _one_at_a_time = self.saving.lock().unwrap_or_else(PoisonError::into_inner);
        let stem = self.path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        for n in 2..=MOST_COPIES {
            let copy = self.path.with_file_name(format!("{stem}-{n}.dwell"));
            match out::create(&copy, typed) {
                Ok(()) => {
                    let name = copy.file_name().unwrap_or_default().to_string_lossy().into_owned();
                    return Ok(clean::line(&name).into_owned());
                }
                Err(why) if why.kind() == std::io::ErrorKind::AlreadyExists => {}
                Err(why) => return Err(why.into()),
            }
        }
        Err(Unusable(format!("there are {MOST_COPIES} copies beside {} already", self.shown())))
    }

    /// What is to be said of a text in the place of the file.
    pub fn compile(&self, text: String, options: &compile::Options) -> Compiled {
        compile::compile(&self.folder, self.path.to_string_lossy().into_owned(), text.into_bytes(), options)
    }
}

/// By which a text is known again.
pub fn mark(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A text as the box of a browser holds it: without a byte order mark, and with one sort of line end.
fn as_typed(text: &str) -> String {
    text.strip_prefix('\u{feff}').unwrap_or(text).replace("\r\n", "\n").replace('\r', "\n")
}

/// What was typed, with the line ends and the byte order mark that the file has; untouched, it is the file.
fn as_in_file(typed: &str, file: &str) -> String {
    if as_typed(file) == typed {
        return file.to_owned();
    }
    let ends = if file.matches("\r\n").count() * 2 > file.matches('\n').count() { "\r\n" } else { "\n" };
    let begins = if file.starts_with('\u{feff}') { "\u{feff}" } else { "" };
    format!("{begins}{}", typed.replace('\n', ends))
}
