//! Files as they were read, and lines in them.

use std::path::Path;
use std::sync::OnceLock;

use super::{FileId, Span};

/// One file: the path people know it by and its text.
#[derive(Debug)]
pub struct Source {
    /// As it is shown to people of this run.
    pub path: String,
    /// As the file that was named first would call it, wherever that lies.
    pub name: String,
    pub text: String,
    /// Found when first asked for: only what is shown to people needs lines.
    line_starts: OnceLock<Vec<u32>>,
}

impl Source {
    pub fn new(path: impl Into<String>, text: impl Into<String>) -> Self {
        let path = path.into();
        let name = Self::file_name(&path);
        Self::called(path, name, text)
    }

    /// The last part of a path.
    pub fn file_name(path: &str) -> String {
        Path::new(path).file_name().map_or(path.to_owned(), |name| name.to_string_lossy().into_owned())
    }

    /// One whose name is not the last part of its path.
    pub fn called(path: impl Into<String>, name: impl Into<String>, text: impl Into<String>) -> Self {
        Self { path: path.into(), name: name.into(), text: text.into(), line_starts: OnceLock::new() }
    }

    fn line_starts(&self) -> &[u32] {
        self.line_starts.get_or_init(|| line_starts(&self.text))
    }

    /// Line and column of a byte offset, both from 1; columns count characters.
    pub fn line_column(&self, offset: usize) -> (usize, usize) {
        let offset = offset.min(self.text.len());
        let line = self.line_of(offset);
        let start = self.line_starts()[line - 1] as usize;
        let column = self.text.get(start..offset).map_or(0, |before| before.chars().count());
        (line, column + 1)
    }

    /// The line that a byte offset lies in, from 1.
    pub fn line_of(&self, offset: usize) -> usize {
        self.line_starts().partition_point(|&start| start as usize <= offset).max(1)
    }

    /// Byte range of line `line` (from 1), with its end-of-line bytes.
    pub fn line_range(&self, line: usize) -> std::ops::Range<usize> {
        let start = self.line_starts()[line - 1] as usize;
        let end = self.line_starts().get(line).map_or(self.text.len(), |&next| next as usize);
        start..end
    }

    pub fn line_count(&self) -> usize {
        self.line_starts().len()
    }
}

/// `\n`, `\r\n` and a lone `\r` each end a line.
fn line_starts(text: &str) -> Vec<u32> {
    let bytes = text.as_bytes();
    let mut starts = vec![0];
    for (at, &byte) in bytes.iter().enumerate() {
        if byte == b'\n' || (byte == b'\r' && bytes.get(at + 1) != Some(&b'\n')) {
            starts.push(at as u32 + 1);
        }
    }
    starts
}

/// Every file that one run has read.
#[derive(Debug, Default)]
pub struct Sources {
    files: Vec<Source>,
}

impl Sources {
    pub fn add(&mut self, source: Source) -> FileId {
        self.files.push(source);
        FileId((self.files.len() - 1) as u16)
    }

    pub fn get(&self, file: FileId) -> &Source {
        &self.files[file.0 as usize]
    }

    /// In the order in which they were read: the one that was named comes first.
    pub fn all(&self) -> &[Source] {
        &self.files
    }

    /// The same, but a file that several others name only once.
    pub fn once(&self) -> impl Iterator<Item = &Source> {
        let first = |n: usize, source: &Source| self.files[..n].iter().all(|other| other.name != source.name);
        self.files.iter().enumerate().filter(move |(n, source)| first(*n, source)).map(|(_, source)| source)
    }

    /// The text that a span covers.
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.file).text.get(span.range()).unwrap_or("")
    }

    pub fn len(&self) -> usize {
        self.files.len()
    }

    pub fn is_empty(&self) -> bool {
        self.files.is_empty()
    }
}

/// Where the compiler gets other files from. The library opens none itself.
pub trait Files {
    /// The bytes of `path`, written relative to the file `from`.
    ///
    /// # Errors
    /// A sentence for people: it does not exist, may not be read, or lies outside the folder.
    fn read(&self, from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem>;
}

/// Why a file that a cook names could not be had.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FileProblem {
    Missing,
    /// It lies outside the folder that the run may read.
    Outside,
    Unreadable(String),
}
