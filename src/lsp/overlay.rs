//! The files of a folder as they are being written: unsaved texts before those on disk, and nothing outside.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use crate::folder::Folder;
use crate::text::{FileProblem, Files, Source};

/// Open texts, by where they really lie.
pub type Texts = BTreeMap<PathBuf, Arc<Source>>;

pub struct Overlay {
    /// `None` for a text that lies nowhere; it can name no other.
    pub folder: Option<Arc<Folder>>,
    pub open: Arc<Texts>,
    /// Where a file was looked for, found or not.
    asked: Mutex<BTreeSet<PathBuf>>,
}

impl Overlay {
    pub fn new(folder: Option<Arc<Folder>>, open: Arc<Texts>) -> Self {
        Self { folder, open, asked: Mutex::default() }
    }

    pub fn asked(&self) -> BTreeSet<PathBuf> {
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }
}

impl Files for Overlay {
    fn read(&self, from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let Some(folder) = &self.folder else { return Err(FileProblem::Missing) };
        let real = really(&folder.wanted(from, path)?);
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).insert(real.clone());
        match self.open.get(&real).filter(|_| folder.encloses(&real)) {
            Some(source) => Ok((real.to_string_lossy().into_owned(), source.text.clone().into_bytes())),
            None => folder.read(from, path),
        }
    }
}

/// Where a path leads, links followed as far as there are any.
pub fn really(path: &Path) -> PathBuf {
    let known = |path: &Path| path.canonicalize().ok();
    let beside = || Some(known(path.parent()?)?.join(path.file_name()?));
    known(path).or_else(beside).unwrap_or_else(|| path.to_owned())
}
