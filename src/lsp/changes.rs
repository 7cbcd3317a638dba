//! Layout, and changes that mend what was found.

use lsp_types as lsp;

use super::requests::here;
use super::state::State;
use crate::editor::{self, Aim};

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
    let again = |text: &str| state.declared_in(document, text);
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
            Aim::Mend(nth) | Aim::Allow(nth) => (lsp::CodeActionKind::QUICKFIX, Some(nth)),
            Aim::Rewrite => (lsp::CodeActionKind::REFACTOR_REWRITE, None),
        };
        let shown = finding.and_then(|nth| here.view.compiled.findings.get(nth)).map(|finding| {
            let code = Some(lsp::NumberOrString::String(finding.code.name().to_owned()));
            let range = here.range(finding.span);
            let same = |shown: &&lsp::Diagnostic| shown.code == code && shown.range == range;
            asked.diagnostics.iter().filter(same).cloned().collect()
        });
        let changes = [(uri.clone(), here.edits(action.edits))].into_iter().collect();
        wanted(&kind).then(|| {
            lsp::CodeActionOrCommand::CodeAction(lsp::CodeAction {
                title: action.title,
                kind: Some(kind),
                diagnostics: shown,
                edit: Some(lsp::WorkspaceEdit::new(changes)),
                ..Default::default()
            })
        })
    });
    Some(actions.collect())
}
