//! Symbols, folds and the sort of every word.

use lsp_types::{self as lsp, SemanticToken, SemanticTokenModifier, SemanticTokenType, SemanticTokensLegend};

use super::requests::{Here, here};
use super::state::State;
use crate::editor::{self, Kind, Sort, Space, Symbol, Token};

pub fn symbols(state: &State, params: lsp::DocumentSymbolParams) -> Option<lsp::DocumentSymbolResponse> {
    let here = here(state, &params.text_document)?;
    let symbols = editor::symbols(&here.view).into_iter().map(|one| symbol(&here, one)).collect();
    Some(lsp::DocumentSymbolResponse::Nested(symbols))
}

#[allow(deprecated, reason = "the protocol's type still has the field")]
fn symbol(here: &Here<'_>, symbol: Symbol) -> lsp::DocumentSymbol {
    let within: Vec<_> = symbol.within.into_iter().map(|one| self::symbol(here, one)).collect();
    lsp::DocumentSymbol {
        // The protocol forbids an empty one.
        name: if symbol.name.is_empty() { "…".to_owned() } else { symbol.name },
        detail: (!symbol.detail.is_empty()).then_some(symbol.detail),
        kind: match symbol.kind {
            Kind::Cook | Kind::Menu => lsp::SymbolKind::MODULE,
            Kind::Kit => lsp::SymbolKind::OBJECT,
            Kind::Food | Kind::Ingredient | Kind::Made => lsp::SymbolKind::VARIABLE,
            Kind::Phase => lsp::SymbolKind::FUNCTION,
            Kind::Serving => lsp::SymbolKind::EVENT,
            Kind::Crew => lsp::SymbolKind::CLASS,
            Kind::Dish => lsp::SymbolKind::FILE,
        },
        tags: None,
        deprecated: None,
        range: here.range(symbol.span),
        selection_range: here.range(symbol.named),
        children: (!within.is_empty()).then_some(within),
    }
}

pub fn folds(state: &State, params: lsp::FoldingRangeParams) -> Option<Vec<lsp::FoldingRange>> {
    let here = here(state, &params.text_document)?;
    let folds = editor::folds(&here.view).into_iter().map(|fold| {
        let range = here.range(fold.span);
        lsp::FoldingRange {
            start_line: range.start.line,
            end_line: range.end.line,
            kind: fold.is_comment.then_some(lsp::FoldingRangeKind::Comment),
            ..Default::default()
        }
    });
    Some(folds.collect())
}

/// What the numbers of tokens stand for.
pub fn legend() -> SemanticTokensLegend {
    SemanticTokensLegend {
        token_types: vec![
            SemanticTokenType::KEYWORD,
            SemanticTokenType::PROPERTY,
            SemanticTokenType::VARIABLE,
            SemanticTokenType::FUNCTION,
            SemanticTokenType::TYPE,
            SemanticTokenType::STRING,
            SemanticTokenType::NUMBER,
            SemanticTokenType::OPERATOR,
            SemanticTokenType::COMMENT,
        ],
        token_modifiers: vec![SemanticTokenModifier::DECLARATION],
    }
}

/// The place of its type in the legend, and its modifiers.
fn numbers(token: Token) -> (u32, u32) {
    let kind = match token {
        Token::Word => 0,
        Token::Of(Sort::Name { space: Space::Kit, .. }) => 1,
        Token::Of(Sort::Name { space: Space::Stock, .. }) => 2,
        Token::Of(Sort::Name { space: Space::Phase, .. }) => 3,
        Token::Of(Sort::Kind) => 4,
        Token::Of(Sort::Text | Sort::File) => 5,
        Token::Of(Sort::Number | Sort::Time) => 6,
        Token::Of(Sort::Unit) => 7,
        Token::Of(Sort::Comment) => 8,
    };
    (kind, u32::from(matches!(token, Token::Of(Sort::Name { declares: true, .. }))))
}

pub fn tokens(state: &State, params: lsp::SemanticTokensParams) -> Option<lsp::SemanticTokensResult> {
    let here = here(state, &params.text_document)?;
    let mut before = lsp::Position::default();
    let tokens = editor::tokens(&here.view).into_iter().map(|(span, token)| {
        let lsp::Range { start, end } = here.range(span);
        let delta_line = start.line - before.line;
        let delta_start = if delta_line == 0 { start.character - before.character } else { start.character };
        before = start;
        let (token_type, token_modifiers_bitset) = numbers(token);
        SemanticToken {
            delta_line,
            delta_start,
            length: end.character - start.character,
            token_type,
            token_modifiers_bitset,
        }
    });
    let data = tokens.collect();
    Some(lsp::SemanticTokensResult::Tokens(lsp::SemanticTokens { result_id: None, data }))
}
