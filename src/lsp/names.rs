//! Definition, references and rename, over all cooks of the folder: open ones as they stand, others as on disk.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use lsp_types::{self as lsp, Location, TextDocumentPositionParams, TextEdit, Uri, WorkspaceEdit};

use super::overlay::{Texts as OpenTexts, really};
use super::state::State;
use crate::editor::{self, NoName, Texts};
use crate::folder::{self, Folder};
use crate::text::{FileProblem, Source, Span};

/// The most files of a folder that are looked through; a folder of cooks has a few dozen.
const MOST_FILES: usize = 500;

/// Cooks, and the place in one of them that a request is about.
struct Cooks<'s> {
    state: &'s State,
    folder: Option<Arc<Folder>>,
    /// Where each really lies, and its text.
    files: Vec<(PathBuf, Arc<Source>)>,
    /// There are more than these.
    cut: bool,
    here: usize,
    offset: usize,
}

impl<'s> Cooks<'s> {
    /// The file alone.
    fn at(state: &'s State, place: &TextDocumentPositionParams) -> Option<Self> {
        let document = state.document(&place.text_document.uri)?;
        let offset = state.encoding.offset(&document.source, place.position);
        // A text that lies nowhere names no other.
        let folder = document.path.as_ref().and_then(|_| state.folder_of(document));
        let path = document.path.clone().unwrap_or_default();
        let files = vec![(path, document.source.clone())];
        Some(Self { state, folder, files, cut: false, here: 0, offset })
    }

    /// With the files that it names, and those that they name: all that a name in it can lead to.
    fn near(state: &'s State, place: &TextDocumentPositionParams) -> Option<Self> {
        let mut cooks = Self::at(state, place)?;
        let open = state.open_texts();
        let mut next = 0;
        while let Some((from, source)) = cooks.files.get(next).cloned() {
            next += 1;
            for named in editor::files_named(&source.text) {
                let Some(path) = cooks.led_to(&from, &named) else { continue };
                if cooks.files.len() >= MOST_FILES || cooks.files.iter().any(|(file, _)| *file == path) {
                    continue;
                }
                cooks.add(path, &open);
            }
        }
        Some(cooks)
    }

    /// With all others of the folder, which may use what it declares.
    fn around(state: &'s State, place: &TextDocumentPositionParams) -> Option<Self> {
        let mut cooks = Self::at(state, place)?;
        let open = state.open_texts();
        let (paths, complete) = cooks.folder.as_ref().map_or((Vec::new(), true), |folder| folder.cooks());
        let inside = |path: &&PathBuf| cooks.folder.as_ref().is_some_and(|folder| folder.encloses(path));
        let unsaved = open.keys().filter(inside).cloned();
        let mut paths: Vec<PathBuf> = paths.iter().map(|path| really(path)).chain(unsaved).collect();
        paths.sort();
        paths.dedup();
        paths.retain(|path| *path != cooks.files[0].0);
        cooks.cut = !complete || paths.len() >= MOST_FILES;
        for path in paths.into_iter().take(MOST_FILES - 1) {
            cooks.add(path, &open);
        }
        Some(cooks)
    }

    /// A file as it stands, if it can be had and no link has led out of the folder.
    fn add(&mut self, path: PathBuf, open: &OpenTexts) {
        if !self.folder.as_ref().is_some_and(|folder| folder.encloses(&path)) {
            return;
        }
        if let Some(source) = open.get(&path).cloned().or_else(|| on_disk(&path).map(Arc::new)) {
            self.files.push((path, source));
        }
    }

    /// The file that another one names.
    fn led_to(&self, from: &Path, named: &str) -> Option<PathBuf> {
        Some(really(&self.folder.as_ref()?.wanted(&from.to_string_lossy(), named).ok()?))
    }

    fn texts(&self) -> Texts<'_> {
        let texts: Vec<&str> = self.files.iter().map(|(_, source)| source.text.as_str()).collect();
        Texts::new(&texts, |from, named| {
            let wanted = self.led_to(&self.files.get(from)?.0, named)?;
            self.files.iter().position(|(file, _)| *file == wanted)
        })
    }

    /// As the client calls it: places count in the text that it has.
    fn uri(&self, span: Span, asked: &Uri) -> Uri {
        let file = usize::from(span.file.0);
        let (_, source) = &self.files[file];
        if file == self.here { asked.clone() } else { self.state.uri_of(&source.path) }
    }

    fn range(&self, span: Span) -> lsp::Range {
        self.state.encoding.range(&self.files[usize::from(span.file.0)].1, span.range())
    }

    fn location(&self, span: Span, asked: &Uri) -> Location {
        Location::new(self.uri(span, asked), self.range(span))
    }
}

fn on_disk(path: &Path) -> Option<Source> {
    let bytes: Result<Vec<u8>, FileProblem> = folder::read_file(path);
    let text = String::from_utf8(bytes.ok()?).ok()?;
    Some(Source::new(path.to_string_lossy(), text))
}

pub fn definition(state: &State, params: lsp::GotoDefinitionParams) -> Option<lsp::GotoDefinitionResponse> {
    let place = params.text_document_position_params;
    let cooks = Cooks::near(state, &place)?;
    let span = cooks.texts().definition(cooks.here, cooks.offset)?;
    Some(lsp::GotoDefinitionResponse::Scalar(cooks.location(span, &place.text_document.uri)))
}

pub fn references(state: &State, params: lsp::ReferenceParams) -> Option<Vec<Location>> {
    let place = params.text_document_position;
    let cooks = Cooks::around(state, &place)?;
    let spans = cooks.texts().references(cooks.here, cooks.offset, params.context.include_declaration);
    Some(spans.into_iter().map(|span| cooks.location(span, &place.text_document.uri)).collect())
}

/// The same name elsewhere in the text, for an editor to mark.
pub fn highlights(
    state: &State,
    params: lsp::DocumentHighlightParams,
) -> Option<Vec<lsp::DocumentHighlight>> {
    let cooks = Cooks::near(state, &params.text_document_position_params)?;
    let spans = cooks.texts().references(cooks.here, cooks.offset, true);
    let here = spans.into_iter().filter(|span| usize::from(span.file.0) == cooks.here);
    Some(here.map(|span| lsp::DocumentHighlight { range: cooks.range(span), kind: None }).collect())
}

pub fn renamed_at(state: &State, place: TextDocumentPositionParams) -> Option<lsp::PrepareRenameResponse> {
    let cooks = Cooks::near(state, &place)?;
    let span = cooks.texts().renamed_at(cooks.here, cooks.offset)?;
    Some(lsp::PrepareRenameResponse::Range(cooks.range(span)))
}

/// # Errors
/// Why it cannot be called that.
pub fn rename(state: &State, params: lsp::RenameParams) -> Result<Option<WorkspaceEdit>, String> {
    let place = params.text_document_position;
    let Some(cooks) = Cooks::around(state, &place) else { return Ok(None) };
    if cooks.cut {
        return Err("This folder holds too many cooks to find every place where that stands.".to_owned());
    }
    let edits = cooks.texts().rename(cooks.here, cooks.offset, params.new_name.trim());
    let edits = edits.map_err(|NoName(why)| why)?;
    let mut changes: BTreeMap<String, (Uri, Vec<TextEdit>)> = BTreeMap::new();
    for edit in edits {
        let uri = cooks.uri(edit.span, &place.text_document.uri);
        let (_, own) = changes.entry(uri.as_str().to_owned()).or_insert((uri, Vec::new()));
        own.push(TextEdit::new(cooks.range(edit.span), edit.text));
    }
    #[allow(clippy::mutable_key_type, reason = "a URI is compared by its text, which does not change")]
    let changes = changes.into_values().collect::<std::collections::HashMap<_, _>>();
    Ok(Some(WorkspaceEdit::new(changes)))
}
