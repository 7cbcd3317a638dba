//! Files on disk, as the library is allowed to see them.

use std::collections::BTreeSet;
use std::fs;
use std::io::Read;
use std::path::{Component, Path, PathBuf};

use crate::load::LONGEST_FILE;
use crate::text::{FileProblem, Files};

/// What standard input is called where a path is shown.
pub const STANDARD_INPUT: &str = "<standard input>";

/// A file or folder as it was named on the command line, resolved to what is to be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Named {
    StandardInput,
    File {
        path: PathBuf,
        /// The folder that this file may name others in, unless `--root` says otherwise.
        folder: PathBuf,
        /// It was found in the folder, not named itself: then it must really lie there.
        found: bool,
    },
}

/// What the paths of a command line stand for: files as they are, folders as the `.dwell` files in
/// them, in order of their paths.
///
/// # Errors
/// A sentence about a folder that could not be read or holds no such file.
pub fn named(paths: &[PathBuf]) -> Result<Vec<Named>, String> {
    let mut all = Vec::new();
    for path in paths {
        if path.as_os_str() == "-" {
            all.push(Named::StandardInput);
        } else if path.is_dir() {
            let mut found = Vec::new();
            walk(path, &mut found)
                .map_err(|why| format!("{}: the folder could not be read: {why}", path.display()))?;
            if found.is_empty() {
                return Err(format!("{}: there is no .dwell file in this folder", path.display()));
            }
            found.sort();
            all.extend(found.into_iter().map(|file| Named::File {
                path: file.strip_prefix(".").map(Path::to_owned).unwrap_or(file),
                folder: path.clone(),
                found: true,
            }));
        } else {
            let folder = path.parent().filter(|parent| !parent.as_os_str().is_empty());
            let folder = folder.unwrap_or(Path::new(".")).to_owned();
            all.push(Named::File { path: path.clone(), folder, found: false });
        }
    }
    let mut seen = BTreeSet::new();
    all.retain(|named| match named {
        Named::StandardInput => seen.insert(Path::new("-").to_owned()),
        Named::File { path, .. } => seen.insert(path.clone()),
    });
    Ok(all)
}

/// Collects the `.dwell` files under `folder`. Hidden folders and linked folders are left out: the
/// one kind is not meant to be read, the other could lead in circles. What is no file (a pipe) could
/// keep us waiting for ever.
fn walk(folder: &Path, found: &mut Vec<PathBuf>) -> std::io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let path = entry.path();
        let hidden = entry.file_name().to_string_lossy().starts_with('.');
        if entry.file_type()?.is_dir() {
            if !hidden {
                walk(&path, found)?;
            }
        } else if path.extension().is_some_and(|end| end.eq_ignore_ascii_case("dwell")) && path.is_file() {
            found.push(path);
        }
    }
    Ok(())
}

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

    /// Whether a file on disk really lies in this folder.
    pub fn holds(&self, path: &Path) -> bool {
        path.canonicalize().is_ok_and(|real| real.starts_with(&self.real))
    }
}

impl Files for Folder {
    fn read(&self, from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let from = Path::new(from).parent().unwrap_or(Path::new(""));
        let from = if from.as_os_str().is_empty() { Path::new(".") } else { from };
        let base = from.canonicalize().map_err(|why| FileProblem::Unreadable(why.to_string()))?;
        // Judged by its words first, so that nothing outside is even asked whether it exists.
        let wanted = without_dots(&base.join(path));
        if !wanted.starts_with(&self.real) {
            return Err(FileProblem::Outside);
        }
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
