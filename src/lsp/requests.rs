//! What a client may ask, a line for each: places are converted, [`editor`] is asked, and the answer converted back.

use std::panic::{AssertUnwindSafe, catch_unwind};

use lsp_server::{ErrorCode, Request, RequestId, Response};
use lsp_types::request::{self as ask, Request as _};
use lsp_types::{self as lsp, Position, TextDocumentIdentifier, TextDocumentPositionParams};
use serde_json::json;

use super::positions::Encoding;
use super::state::State;
use super::{changes, help, names, outline};
use crate::editor::View;
use crate::findings::{Code, Edit};
use crate::output::explain;
use crate::text::Span;

/// What this server can do, for a client to know.
pub fn capabilities(encoding: Encoding) -> lsp::ServerCapabilities {
    lsp::ServerCapabilities {
        position_encoding: Some(encoding.kind()),
        text_document_sync: Some(lsp::TextDocumentSyncCapability::Options(lsp::TextDocumentSyncOptions {
            open_close: Some(true),
            change: Some(lsp::TextDocumentSyncKind::INCREMENTAL),
            ..Default::default()
        })),
        code_action_provider: Some(lsp::CodeActionProviderCapability::Options(lsp::CodeActionOptions {
            code_action_kinds: Some(vec![
                lsp::CodeActionKind::QUICKFIX,
                lsp::CodeActionKind::REFACTOR_REWRITE,
            ]),
            ..Default::default()
        })),
        document_formatting_provider: Some(lsp::OneOf::Left(true)),
        hover_provider: Some(lsp::HoverProviderCapability::Simple(true)),
        inlay_hint_provider: Some(lsp::OneOf::Left(true)),
        completion_provider: Some(lsp::CompletionOptions {
            trigger_characters: Some(after(&[" ", "\"", "°"])),
            ..Default::default()
        }),
        signature_help_provider: Some(lsp::SignatureHelpOptions {
            trigger_characters: Some(after(&[" "])),
            retrigger_characters: Some(after(&[","])),
            ..Default::default()
        }),
        document_range_formatting_provider: Some(lsp::OneOf::Left(true)),
        definition_provider: Some(lsp::OneOf::Left(true)),
        references_provider: Some(lsp::OneOf::Left(true)),
        document_highlight_provider: Some(lsp::OneOf::Left(true)),
        rename_provider: Some(lsp::OneOf::Right(lsp::RenameOptions {
            prepare_provider: Some(true),
            work_done_progress_options: Default::default(),
        })),
        document_symbol_provider: Some(lsp::OneOf::Left(true)),
        folding_range_provider: Some(lsp::FoldingRangeProviderCapability::Simple(true)),
        semantic_tokens_provider: Some(
            lsp::SemanticTokensOptions {
                legend: outline::legend(),
                full: Some(lsp::SemanticTokensFullOptions::Bool(true)),
                ..Default::default()
            }
            .into(),
        ),
        ..Default::default()
    }
}

/// Signs after which a client asks by itself.
fn after(signs: &[&str]) -> Vec<String> {
    signs.iter().map(|sign| (*sign).to_owned()).collect()
}

/// The answer to a request. A fault of ours costs this answer alone.
pub fn answer(state: &State, request: Request) -> Response {
    let id = request.id.clone();
    let answered = catch_unwind(AssertUnwindSafe(|| dispatch(state, request)));
    answered.unwrap_or_else(|_| {
        Response::new_err(
            id,
            ErrorCode::InternalError as i32,
            "a fault in dwell; please report it".to_owned(),
        )
    })
}

fn dispatch(state: &State, request: Request) -> Response {
    let asked = Asked { state, request };
    match asked.request.method.as_str() {
        ask::HoverRequest::METHOD => asked.of::<ask::HoverRequest>(help::hover),
        ask::InlayHintRequest::METHOD => asked.of::<ask::InlayHintRequest>(help::inlay_hints),
        ask::Completion::METHOD => asked.of::<ask::Completion>(help::completion),
        ask::SignatureHelpRequest::METHOD => asked.of::<ask::SignatureHelpRequest>(help::signature_help),
        ask::Formatting::METHOD => asked.of::<ask::Formatting>(changes::formatting),
        ask::RangeFormatting::METHOD => asked.of::<ask::RangeFormatting>(changes::range_formatting),
        ask::GotoDefinition::METHOD => asked.of::<ask::GotoDefinition>(names::definition),
        ask::References::METHOD => asked.of::<ask::References>(names::references),
        ask::DocumentHighlightRequest::METHOD => asked.of::<ask::DocumentHighlightRequest>(names::highlights),
        ask::PrepareRenameRequest::METHOD => asked.of::<ask::PrepareRenameRequest>(names::renamed_at),
        ask::Rename::METHOD => asked.or_refused::<ask::Rename>(names::rename),
        ask::DocumentSymbolRequest::METHOD => asked.of::<ask::DocumentSymbolRequest>(outline::symbols),
        ask::FoldingRangeRequest::METHOD => asked.of::<ask::FoldingRangeRequest>(outline::folds),
        ask::SemanticTokensFullRequest::METHOD => asked.of::<ask::SemanticTokensFullRequest>(outline::tokens),
        ask::CodeActionRequest::METHOD => asked.of::<ask::CodeActionRequest>(changes::code_actions),
        Explain::METHOD => asked.of::<Explain>(explain_code),
        #[cfg(test)]
        "test/panic" => panic!("as the test wants it"),
        unknown => {
            let why = format!("dwell knows no {unknown}");
            Response::new_err(asked.request.id, ErrorCode::MethodNotFound as i32, why)
        }
    }
}

struct Asked<'s> {
    state: &'s State,
    request: Request,
}

impl Asked<'_> {
    /// Parameters in, result out.
    fn of<R: ask::Request>(self, answer: fn(&State, R::Params) -> R::Result) -> Response {
        self.answered::<R>(|state, params| Ok(answer(state, params)))
    }

    /// The same for what may be refused, with a sentence for people.
    fn or_refused<R: ask::Request>(
        self,
        answer: fn(&State, R::Params) -> Result<R::Result, String>,
    ) -> Response {
        self.answered::<R>(answer)
    }

    fn answered<R: ask::Request>(
        self,
        answer: impl Fn(&State, R::Params) -> Result<R::Result, String>,
    ) -> Response {
        let id: RequestId = self.request.id;
        match serde_json::from_value(self.request.params).map(|params| answer(self.state, params)) {
            Ok(Ok(result)) => Response::new_ok(id, result),
            Ok(Err(why)) => Response::new_err(id, ErrorCode::RequestFailed as i32, why),
            Err(why) => Response::new_err(id, ErrorCode::InvalidParams as i32, why.to_string()),
        }
    }
}

/// An open text that a request is about.
pub struct Here<'s> {
    pub view: View<'s>,
    pub encoding: Encoding,
}

impl Here<'_> {
    pub fn offset(&self, position: Position) -> usize {
        self.encoding.offset(self.view.source(), position)
    }

    pub fn range(&self, span: Span) -> lsp::Range {
        self.encoding.range(self.view.source(), span.range())
    }

    pub fn span(&self, range: lsp::Range) -> Span {
        let range = self.encoding.offsets(self.view.source(), range);
        Span::new(self.view.file, range.start, range.end)
    }

    /// Edits of this text.
    pub fn edits(&self, edits: Vec<Edit>) -> Vec<lsp::TextEdit> {
        edits.into_iter().map(|edit| lsp::TextEdit::new(self.range(edit.span), edit.text)).collect()
    }
}

/// The text; `None` if it is not open, or could not be read.
pub fn here<'s>(state: &'s State, text: &TextDocumentIdentifier) -> Option<Here<'s>> {
    let view = state.document(&text.uri)?.view()?;
    Some(Here { view, encoding: state.encoding })
}

/// The text, and the byte offset of a place in it.
pub fn at<'s>(state: &'s State, place: &TextDocumentPositionParams) -> Option<(Here<'s>, usize)> {
    let here = here(state, &place.text_document)?;
    let offset = here.offset(place.position);
    Some((here, offset))
}

/// `dwell/explain`: the long text of a finding, as Markdown and as plain text.
enum Explain {}

impl ask::Request for Explain {
    type Params = ExplainParams;
    type Result = Option<serde_json::Value>;
    const METHOD: &'static str = "dwell/explain";
}

#[derive(serde::Serialize, serde::Deserialize)]
struct ExplainParams {
    code: String,
}

fn explain_code(_: &State, params: ExplainParams) -> Option<serde_json::Value> {
    let code = Code::find(&params.code)?;
    Some(json!({ "markdown": code.text(), "text": explain::page(code) }))
}

#[cfg(test)]
mod tests {
    use lsp_types::InitializeParams;

    use super::*;
    use crate::lsp::check::Worker;

    #[test]
    fn a_fault_costs_one_answer() {
        let worker = Worker::start().expect("a thread");
        let state = State::new(InitializeParams::default(), Encoding::Utf16, worker);
        let asked = |method: &str, params| {
            let request = Request { id: 7.into(), method: method.to_owned(), params };
            answer(&state, request).response_result
        };
        let fault = asked("test/panic", json!({})).expect_err("a fault");
        assert_eq!(fault.code, ErrorCode::InternalError as i32);
        assert!(asked("dwell/explain", json!({ "code": "end-missing" })).is_ok_and(|text| text.is_object()));
    }
}
