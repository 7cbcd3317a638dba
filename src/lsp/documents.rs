//! Open texts and what is known of them.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

use lsp_types::{TextDocumentContentChangeEvent, Uri};
use url::Url;

use super::fault::Fault;
use super::overlay::{Texts, really};
use super::positions::Encoding;
use crate::compile::Compiled;
use crate::editor::View;
use crate::stop::Stop;
use crate::syntax::{self, Tree};
use crate::text::{FileId, Source};

/// A text that a client has open.
pub struct Document {
    pub uri: Uri,
    /// Where it lies, or will once it is saved; `None` where it is no file.
    pub path: Option<PathBuf>,
    pub version: i32,
    pub source: Arc<Source>,
    /// Of this very text; `None` until the first check, and where that failed.
    pub checked: Option<Arc<Checked>>,
    /// A fault of ours in the check of this very text.
    pub fault: Option<Fault>,
    /// The full check that runs or waits.
    pub running: Option<Stop>,
    /// It, or a file that it names, has changed since it was checked.
    pub stale: bool,
}

/// What a check has found out.
pub struct Checked {
    pub compiled: Compiled,
    /// The files that were looked for.
    pub asked: BTreeSet<PathBuf>,
    tree: OnceLock<Tree>,
}

impl Checked {
    pub fn new(compiled: Compiled, asked: BTreeSet<PathBuf>) -> Self {
        Self { compiled, asked, tree: OnceLock::new() }
    }
}

impl Document {
    pub fn open(uri: Uri, version: i32, text: String) -> Self {
        let path = path_of(&uri);
        let source = Arc::new(Source::new(called(&uri, path.as_deref()), text));
        Self { uri, path, version, source, checked: None, fault: None, running: None, stale: true }
    }

    /// Takes edits one after the other.
    pub fn edit(&mut self, version: i32, changes: Vec<TextDocumentContentChangeEvent>, encoding: Encoding) {
        for change in changes {
            let text = match change.range {
                None => change.text,
                Some(range) => {
                    let mut text = self.source.text.clone();
                    text.replace_range(encoding.offsets(&self.source, range), &change.text);
                    text
                }
            };
            self.source = Arc::new(Source::called(self.source.path.clone(), self.source.name.clone(), text));
        }
        self.version = version;
        self.change();
    }

    /// Where a file beside it would lie.
    pub fn beside(&self, name: &str) -> Option<PathBuf> {
        Some(self.path.as_ref()?.parent()?.join(name))
    }

    /// Is it to be checked? What a folder lays down is read with the cooks in it.
    pub fn is_cook(&self) -> bool {
        self.path.as_deref().and_then(Path::file_name).is_none_or(|name| name != "dwell.toml")
    }

    /// What was found out holds no more.
    pub fn change(&mut self) {
        if let Some(running) = self.running.take() {
            running.ask();
        }
        self.stale = true;
    }

    /// The text and what is known of it. `None` where the compiler could not read it at all.
    pub fn view(&self) -> Option<View<'_>> {
        let checked = self.checked.as_ref().filter(|_| !self.stale)?;
        let file = FileId(0);
        let text = &checked.compiled.sources.all().first()?.text;
        if *text != self.source.text {
            return None;
        }
        let tree = checked.tree.get_or_init(|| syntax::parse(file, text).0);
        Some(View { tree, compiled: &checked.compiled, file })
    }

    /// Does it hang on the file at this place?
    pub fn names(&self, path: &Path) -> bool {
        self.checked.as_ref().is_some_and(|checked| checked.asked.contains(path))
    }
}

impl Drop for Document {
    /// Nobody waits for what is found in a text that is open no more.
    fn drop(&mut self) {
        self.change();
    }
}

/// Where a file lies that a client names, links followed.
pub fn path_of(uri: &Uri) -> Option<PathBuf> {
    let url = Url::parse(uri.as_str()).ok().filter(|url| url.scheme() == "file")?;
    Some(really(&url.to_file_path().ok()?))
}

/// How the compiler knows a text.
pub fn called(uri: &Uri, path: Option<&Path>) -> String {
    path.map_or_else(|| uri.as_str().to_owned(), |path| path.to_string_lossy().into_owned())
}

/// All texts of files, for a check to read.
pub fn texts(documents: &BTreeMap<String, Document>) -> Texts {
    let files = documents.values().filter_map(|open| Some((open.path.clone()?, open.source.clone())));
    files.collect()
}
