//! Definition, references and rename, over all cooks of the folder: open ones as they stand, others as on disk.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

use lsp_types::{self as lsp, Location, TextDocumentPositionParams, TextEdit, Uri, WorkspaceEdit};

use super::overlay::{Texts as OpenTexts, really};
use super::positions::Encoding;
use super::publish::uri_of;
use super::state::State;
use crate::editor::{NoName, Texts};
use crate::folder::{self, Folder};
use crate::text::{FileProblem, Source, Span};

/// The most files of a folder that are looked through; a folder of cooks has a few dozen.
const MOST_FILES: usize = 500;

/// The cooks of a folder, and the place in one of them that a request is about.
struct Cooks {
    folder: Option<Arc<Folder>>,
    /// Where each really lies, and its text.
    files: Vec<(PathBuf, Arc<Source>)>,
    here: usize,
    offset: usize,
    encoding: Encoding,
}

impl Cooks {
    fn around(state: &State, place: &TextDocumentPositionParams) -> Option<Self> {
        let document = state.document(&place.text_document.uri)?;
        let encoding = state.encoding;
        let offset = encoding.offset(&document.source, place.position);
        // A text that lies nowhere stands alone.
        let Some(path) = document.path.clone() else {
            let files = vec![(PathBuf::new(), document.source.clone())];
            return Some(Self { folder: None, files, here: 0, offset, encoding });
        };
        let folder = state.folder_of(document);
        let mut files: OpenTexts = state.open_texts();
        files.retain(|open, _| folder.as_ref().is_some_and(|folder| folder.encloses(open)));
        for file in folder.iter().flat_map(|folder| folder.cooks()) {
            let file = really(&file);
            if !files.contains_key(&file)
                && let Some(source) = on_disk(&file)
            {
                files.insert(file, Arc::new(source));
            }
        }
        files.insert(path.clone(), document.source.clone());
        let files: Vec<_> = files.into_iter().take(MOST_FILES).collect();
        let here = files.iter().position(|(file, _)| *file == path)?;
        Some(Self { folder, files, here, offset, encoding })
    }

    fn texts(&self) -> Texts<'_> {
        let texts: Vec<&str> = self.files.iter().map(|(_, source)| source.text.as_str()).collect();
        Texts::new(&texts, |from, named| {
            let (from, _) = self.files.get(from)?;
            let wanted = self.folder.as_ref()?.wanted(&from.to_string_lossy(), named).ok()?;
            let wanted = really(&wanted);
            self.files.iter().position(|(file, _)| *file == wanted)
        })
    }

    fn uri(&self, span: Span, asked: &Uri) -> Uri {
        let file = usize::from(span.file.0);
        if file == self.here { asked.clone() } else { uri_of(&self.files[file].0.to_string_lossy()) }
    }

    fn range(&self, span: Span) -> lsp::Range {
        self.encoding.range(&self.files[usize::from(span.file.0)].1, span.range())
    }

    fn location(&self, span: Span, asked: &Uri) -> Location {
        Location::new(self.uri(span, asked), self.range(span))
    }
}

fn on_disk(path: &std::path::Path) -> Option<Source> {
    let bytes: Result<Vec<u8>, FileProblem> = folder::read_file(path);
    let text = String::from_utf8(bytes.ok()?).ok()?;
    Some(Source::new(path.to_string_lossy(), text))
}

pub fn definition(state: &State, params: lsp::GotoDefinitionParams) -> Option<lsp::GotoDefinitionResponse> {
    let place = params.text_document_position_params;
    let cooks = Cooks::around(state, &place)?;
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
    let cooks = Cooks::around(state, &params.text_document_position_params)?;
    let spans = cooks.texts().references(cooks.here, cooks.offset, true);
    let here = spans.into_iter().filter(|span| usize::from(span.file.0) == cooks.here);
    Some(here.map(|span| lsp::DocumentHighlight { range: cooks.range(span), kind: None }).collect())
}

pub fn renamed_at(state: &State, place: TextDocumentPositionParams) -> Option<lsp::PrepareRenameResponse> {
    let cooks = Cooks::around(state, &place)?;
    let span = cooks.texts().renamed_at(cooks.here, cooks.offset)?;
    Some(lsp::PrepareRenameResponse::Range(cooks.range(span)))
}

/// # Errors
/// Why it cannot be called that.
pub fn rename(state: &State, params: lsp::RenameParams) -> Result<Option<WorkspaceEdit>, String> {
    let place = params.text_document_position;
    let Some(cooks) = Cooks::around(state, &place) else { return Ok(None) };
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
