//! Layout, and changes that mend what was found.

use lsp_types::{self as lsp, Uri};

use super::documents::Document;
use super::requests::here;
use super::state::State;
use crate::editor::{self, Aim, NewFile};

pub fn formatting(state: &State, params: lsp::DocumentFormattingParams) -> Option<Vec<lsp::TextEdit>> {
    let here = here(state, &params.text_document)?;
    Some(here.edits(editor::format(&here.view)))
}

pub fn range_formatting(
    state: &State,
    params: lsp::DocumentRangeFormattingParams,
) -> Option<Vec<lsp::TextEdit>> {
    let here = here(state, &params.text_document)?;
    Some(here.edits(editor::format_range(&here.view, here.span(params.range))))
}

pub fn code_actions(state: &State, params: lsp::CodeActionParams) -> Option<lsp::CodeActionResponse> {
    let (uri, asked) = (params.text_document.uri, params.context);
    let document = state.document(&uri)?;
    let here = here(state, &lsp::TextDocumentIdentifier::new(uri.clone()))?;
    let again = |text: &str, files: &[NewFile]| state.declared_in(document, text, files);
    let actions = editor::actions(&here.view, here.span(params.range), &again);
    let wanted = |kind: &lsp::CodeActionKind| {
        let within = |only: &lsp::CodeActionKind| {
            let rest = kind.as_str().strip_prefix(only.as_str());
            rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.') || only.as_str().is_empty())
        };
        asked.only.as_ref().is_none_or(|only| only.iter().any(within))
    };
    let actions = actions.into_iter().filter_map(|action| {
        let (kind, finding) = match action.aim {
            Aim::Mend(nth) | Aim::Begin(nth) | Aim::Allow(nth) => (lsp::CodeActionKind::QUICKFIX, Some(nth)),
            Aim::Rewrite => (lsp::CodeActionKind::REFACTOR_REWRITE, None),
        };
        let shown = finding.and_then(|nth| here.view.compiled.findings.get(nth)).map(|finding| {
            let code = Some(lsp::NumberOrString::String(finding.code.name().to_owned()));
            let range = here.range(finding.span);
            let same = |shown: &&lsp::Diagnostic| shown.code == code && shown.range == range;
            asked.diagnostics.iter().filter(same).cloned().collect()
        });
        let edits = here.edits(action.edits);
        let edit = match action.files.is_empty() {
            true => lsp::WorkspaceEdit::new([(uri.clone(), edits)].into_iter().collect()),
            false => with_files(state, document, edits, action.files)?,
        };
        wanted(&kind).then(|| {
            lsp::CodeActionOrCommand::CodeAction(lsp::CodeAction {
                title: action.title,
                kind: Some(kind),
                diagnostics: shown,
                edit: Some(edit),
                ..Default::default()
            })
        })
    });
    Some(actions.collect())
}

/// Edits of a text, and files beside it; `None` where the client can make none, or one of them is there already.
fn with_files(
    state: &State,
    document: &Document,
    edits: Vec<lsp::TextEdit>,
    files: Vec<NewFile>,
) -> Option<lsp::WorkspaceEdit> {
    use lsp::DocumentChangeOperation::{Edit, Op};
    let can = state.client.workspace.as_ref()?.workspace_edit.as_ref()?;
    can.document_changes.filter(|can| *can)?;
    can.resource_operations.as_ref()?.contains(&lsp::ResourceOperationKind::Create).then_some(())?;
    let change = |uri: Uri, version, edits: Vec<lsp::TextEdit>| {
        let text_document = lsp::OptionalVersionedTextDocumentIdentifier { uri, version };
        let edits = edits.into_iter().map(lsp::OneOf::Left).collect();
        Edit(lsp::TextDocumentEdit { text_document, edits })
    };
    let mut operations = Vec::new();
    for (name, text) in files {
        let path = document.beside(&name).filter(|path| !path.exists())?;
        let uri = state.uri_of(&path.to_string_lossy());
        let create = lsp::CreateFile { uri: uri.clone(), options: None, annotation_id: None };
        operations.push(Op(lsp::ResourceOp::Create(create)));
        operations.push(change(uri, None, vec![lsp::TextEdit::new(lsp::Range::default(), text)]));
    }
    operations.push(change(document.uri.clone(), Some(document.version), edits));
    let document_changes = Some(lsp::DocumentChanges::Operations(operations));
    Some(lsp::WorkspaceEdit { document_changes, ..Default::default() })
}
