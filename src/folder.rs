//! Files on disk, as the library is allowed to see them: those of one folder.

use std::fs;
use std::io::Read;
use std::path::{Component, Path, PathBuf};

use crate::load::LONGEST_FILE;
use crate::text::{FileProblem, Files};

/// As many entries of folders are looked at; a folder of cooks has a few dozen.
const MOST_ENTRIES: usize = 10_000;

/// Reads at most one byte more than a file may have, so that a far longer one is noticed cheaply.
///
/// # Errors
/// Why it could not be read.
pub fn read_file(path: &Path) -> Result<Vec<u8>, FileProblem> {
    let kind = fs::metadata(path).map_err(|why| match why.kind() {
        std::io::ErrorKind::NotFound => FileProblem::Missing,
        _ => FileProblem::Unreadable(why.to_string()),
    })?;
    if kind.is_dir() {
        return Err(FileProblem::Unreadable("it is a folder".into()));
    }
    let file = fs::File::open(path).map_err(|why| FileProblem::Unreadable(why.to_string()))?;
    read_all(file).map_err(|why| FileProblem::Unreadable(why.to_string()))
}

/// The same for any stream.
///
/// # Errors
/// Those of reading.
pub fn read_all(from: impl Read) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    from.take(LONGEST_FILE as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// Collects the `.dwell` files under `folder`, after at most `left` entries of folders. Hidden folders and linked folders
/// are left out: the one kind is not meant to be read, the other could lead in circles. What is no file (a pipe) could
/// keep us waiting for ever.
///
/// # Errors
/// Those of reading a folder.
pub fn walk(folder: &Path, left: &mut usize, found: &mut Vec<PathBuf>) -> std::io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let Some(fewer) = left.checked_sub(1) else { return Ok(()) };
        *left = fewer;
        let entry = entry?;
        let path = entry.path();
        let hidden = entry.file_name().to_string_lossy().starts_with('.');
        if entry.file_type()?.is_dir() {
            if !hidden {
                walk(&path, left, found)?;
            }
        } else if path.extension().is_some_and(|end| end.eq_ignore_ascii_case("dwell")) && path.is_file() {
            found.push(path);
        }
    }
    Ok(())
}

/// The names of the cooks in a folder, in no order; none where it cannot be read.
pub fn cooks_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).into_iter().flatten().take(MOST_ENTRIES).flatten();
    let names = entries.filter_map(|entry| entry.file_name().into_string().ok());
    names.filter(|name| name.ends_with(".dwell")).collect()
}

/// The files in one folder, and nothing outside it: paths are followed through links to where they
/// really lead before they are judged.
#[derive(Debug)]
pub struct Folder {
    /// As it was typed; files in it are shown under this.
    shown: PathBuf,
    /// Where it really is.
    real: PathBuf,
}

impl Folder {
    /// # Errors
    /// A sentence: the folder does not exist.
    pub fn new(folder: &Path) -> Result<Self, String> {
        let real = folder
            .canonicalize()
            .map_err(|why| format!("{}: the folder could not be read: {why}", folder.display()))?;
        let shown = if folder == Path::new(".") { PathBuf::new() } else { folder.to_owned() };
        Ok(Self { shown, real })
    }

    /// Where `path`, as the file `from` writes it, would lie in this folder. Judged by its words alone, so that nothing
    /// outside is even asked whether it exists; a link may still lead out.
    ///
    /// # Errors
    /// It lies outside, or the folder of `from` cannot be read.
    pub fn wanted(&self, from: &str, path: &str) -> Result<PathBuf, FileProblem> {
        let from = Path::new(from).parent().unwrap_or(Path::new(""));
        let from = if from.as_os_str().is_empty() { Path::new(".") } else { from };
        let base = from.canonicalize().map_err(|why| FileProblem::Unreadable(why.to_string()))?;
        let wanted = without_dots(&base.join(path));
        if wanted.starts_with(&self.real) { Ok(wanted) } else { Err(FileProblem::Outside) }
    }

    /// Its cooks that can be had, in the order of their paths, and whether those are all: of a folder as large as a home
    /// only what is found soon is looked at.
    pub fn cooks(&self) -> (Vec<PathBuf>, bool) {
        let (mut found, mut left) = (Vec::new(), MOST_ENTRIES);
        // What cannot be read holds no cook that anybody sees.
        let _ = walk(&self.real, &mut left, &mut found);
        found.sort();
        (found, left > 0)
    }

    /// In so many others.
    pub fn depth(&self) -> usize {
        self.real.components().count()
    }

    /// Whether a place that no link leads away from lies in this folder.
    pub fn encloses(&self, real: &Path) -> bool {
        real.starts_with(&self.real)
    }

    /// Whether a file on disk really lies in this folder.
    pub fn holds(&self, path: &Path) -> bool {
        path.canonicalize().is_ok_and(|real| real.starts_with(&self.real))
    }
}

impl Files for Folder {
    fn read(&self, from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let wanted = self.wanted(from, path)?;
        let real = wanted.canonicalize().map_err(|why| match why.kind() {
            std::io::ErrorKind::NotFound => FileProblem::Missing,
            _ => FileProblem::Unreadable(why.to_string()),
        })?;
        let inside = real.strip_prefix(&self.real).map_err(|_| FileProblem::Outside)?;
        if !real.is_file() {
            return Err(FileProblem::Unreadable("it is not a file".into()));
        }
        let bytes = read_file(&real)?;
        Ok((self.shown.join(inside).to_string_lossy().into_owned(), bytes))
    }
}

/// The path with every `.` and `..` in it taken at its word.
fn without_dots(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::ParentDir => {
                plain.pop();
            }
            Component::CurDir => {}
            part => plain.push(part),
        }
    }
    plain
}
