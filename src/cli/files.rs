//! What the paths of a command line stand for.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use crate::folder;

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
            let (mut found, mut everything) = (Vec::new(), usize::MAX);
            folder::walk(path, &mut everything, &mut found)
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
