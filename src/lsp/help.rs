//! What stands under the cursor, beside a line or next, as the protocol has it.

use lsp_types as lsp;
use serde_json::Value;

use super::requests::{Here, at, here};
use super::state::State;
use crate::editor::{self, Around, Offer, OfferKind, SignatureForm, Wanted};
use crate::output::clean;

pub fn hover(state: &State, params: lsp::HoverParams) -> Option<lsp::Hover> {
    let (here, offset) = at(state, &params.text_document_position_params)?;
    let told = editor::hover(&here.view, offset);
    let why = editor::why(&here.view, offset);
    let span = told.as_ref().or(why.as_ref())?.span;
    let parts: Vec<String> = told.into_iter().chain(why).map(|hover| hover.said.join("\n")).collect();
    Some(lsp::Hover {
        contents: lsp::HoverContents::Markup(plain(&parts.join("\n\n"))),
        range: Some(here.range(span)),
    })
}

/// Words for people, some of which are from the file: nothing in them is markup.
fn plain(words: &str) -> lsp::MarkupContent {
    lsp::MarkupContent { kind: lsp::MarkupKind::PlainText, value: clean::page(words).into_owned() }
}

pub fn inlay_hints(state: &State, params: lsp::InlayHintParams) -> Option<Vec<lsp::InlayHint>> {
    let here = here(state, &params.text_document)?;
    let source = here.view.source();
    let range = here.encoding.offsets(source, params.range);
    let hints = editor::hints(&here.view, range, wanted(&state.settings));
    let hints = hints.into_iter().map(|hint| lsp::InlayHint {
        position: here.encoding.position(source, hint.after),
        label: lsp::InlayHintLabel::String(hint.text),
        padding_left: Some(true),
        padding_right: None,
        tooltip: Some(lsp::InlayHintTooltip::String(hint.means)),
        kind: None,
        text_edits: None,
        data: None,
    });
    Some(hints.collect())
}

/// `hints.times`, `hints.scale` and `hints.core`; all are wanted unless one is said to be false.
fn wanted(settings: &Value) -> Wanted {
    let own = settings.get("dwell").unwrap_or(settings);
    let is_wanted = |kind: &str| own["hints"][kind].as_bool().unwrap_or(true);
    Wanted { times: is_wanted("times"), scale: is_wanted("scale"), core: is_wanted("core") }
}

pub fn completion(state: &State, params: lsp::CompletionParams) -> Option<lsp::CompletionResponse> {
    let place = &params.text_document_position;
    let (here, offset) = at(state, place)?;
    let uri = &place.text_document.uri;
    let tables = state.tables(uri);
    let files = state.files_beside(uri);
    let offers = editor::completion(&here.view, offset, &Around { tables: &tables, files: &files });
    let is_incomplete = offers.iter().any(|offer| offer.is_near);
    let snippets = can_fill_in(&state.client).unwrap_or(false);
    let items = offers.into_iter().enumerate();
    let items = items.map(|(nth, offer)| item(&here, offset, nth, offer, snippets)).collect();
    Some(lsp::CompletionResponse::List(lsp::CompletionList { is_incomplete, items }))
}

fn can_fill_in(client: &lsp::ClientCapabilities) -> Option<bool> {
    let completion = client.text_document.as_ref()?.completion.as_ref()?;
    completion.completion_item.as_ref()?.snippet_support
}

fn item(here: &Here<'_>, offset: usize, nth: usize, offer: Offer, snippets: bool) -> lsp::CompletionItem {
    let fills_in = snippets && !offer.blanks.is_empty();
    // Nobody's figures but the cook's stay in a file: without blanks to fill in, examples are left out.
    let new_text = if fills_in { snippet(&offer) } else { offer.without_examples().to_owned() };
    let typed = here.view.text().get(offer.replace.range().start..offset).unwrap_or("");
    lsp::CompletionItem {
        kind: Some(match offer.kind {
            OfferKind::Block => lsp::CompletionItemKind::CLASS,
            OfferKind::Clause => lsp::CompletionItemKind::KEYWORD,
            OfferKind::Name => lsp::CompletionItemKind::VARIABLE,
            OfferKind::Row => lsp::CompletionItemKind::VALUE,
            OfferKind::Unit => lsp::CompletionItemKind::UNIT,
            OfferKind::File => lsp::CompletionItemKind::FILE,
        }),
        filter_text: offer.is_near.then(|| typed.to_owned()),
        label: offer.label,
        detail: Some(offer.detail).filter(|detail| !detail.is_empty()),
        documentation: Some(lsp::Documentation::MarkupContent(plain(&offer.means))),
        sort_text: Some(format!("{nth:05}")),
        insert_text_format: Some(match fills_in {
            true => lsp::InsertTextFormat::SNIPPET,
            false => lsp::InsertTextFormat::PLAIN_TEXT,
        }),
        text_edit: Some(lsp::CompletionTextEdit::Edit(lsp::TextEdit {
            range: here.range(offer.replace),
            new_text,
        })),
        ..lsp::CompletionItem::default()
    }
}

/// The text with its blanks as stops to go to.
fn snippet(offer: &Offer) -> String {
    let literal = |text: &str| text.replace('\\', "\\\\").replace('$', "\\$").replace('}', "\\}");
    let mut snippet = String::new();
    let mut done = 0;
    for (nth, blank) in offer.blanks.iter().enumerate() {
        snippet.push_str(&literal(&offer.text[done..blank.start]));
        snippet.push_str(&format!("${{{}:{}}}", nth + 1, literal(&offer.text[blank.clone()])));
        done = blank.end;
    }
    snippet + &literal(&offer.text[done..])
}

pub fn signature_help(state: &State, params: lsp::SignatureHelpParams) -> Option<lsp::SignatureHelp> {
    let (here, offset) = at(state, &params.text_document_position_params)?;
    let found = editor::signature(&here.view, offset)?;
    let offsets = can_take_offsets(&state.client).unwrap_or(false);
    Some(lsp::SignatureHelp {
        active_signature: found.active.map(|nth| nth as u32),
        active_parameter: found.slot.map(|nth| nth as u32),
        signatures: found.forms.into_iter().map(|form| information(form, offsets)).collect(),
    })
}

fn can_take_offsets(client: &lsp::ClientCapabilities) -> Option<bool> {
    let help = client.text_document.as_ref()?.signature_help.as_ref()?;
    help.signature_information.as_ref()?.parameter_information.as_ref()?.label_offset_support
}

fn information(form: SignatureForm, offsets: bool) -> lsp::SignatureInformation {
    // These count in UTF-16 whatever was agreed on for places in texts.
    let units = |at: usize| form.text[..at].encode_utf16().count() as u32;
    let parameters = form.slots.iter().map(|slot| lsp::ParameterInformation {
        label: match offsets {
            true => lsp::ParameterLabel::LabelOffsets([units(slot.start), units(slot.end)]),
            false => lsp::ParameterLabel::Simple(form.text[slot.clone()].to_owned()),
        },
        documentation: None,
    });
    lsp::SignatureInformation {
        parameters: Some(parameters.collect()),
        documentation: Some(lsp::Documentation::MarkupContent(plain(form.means))),
        active_parameter: None,
        label: form.text,
    }
}
