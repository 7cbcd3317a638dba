//! Where in a file an offset lies: the line, the stretch between two commas, and the block.

use std::ops::Range;

use super::View;
use crate::syntax::{LineKind, outside_quotes};

/// Longer than anybody types of a clause before asking how it goes on, in bytes.
const LONGEST: usize = 400;

/// The place of an offset.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct At {
    /// The offset, at the start of a character.
    pub offset: usize,
    /// The bytes of the line without its end.
    pub line: Range<usize>,
    /// Where the head or clause around it begins and ends: at commas, at a remark or at the ends of the line.
    pub piece: Range<usize>,
    /// Nothing stands before it on the line.
    pub is_first: bool,
    pub block: Option<BlockAt>,
}

/// The block that a line belongs to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BlockAt {
    /// The word that opens it, in lower case.
    pub word: String,
    /// From the start of its first line to the start of the next block.
    pub range: Range<usize>,
    /// The line asked about is the one that opens it.
    pub is_head: bool,
}

impl At {
    /// `None` in a remark, where nothing is meant.
    pub fn of(view: &View<'_>, offset: usize) -> Option<Self> {
        let text = view.text();
        let offset = (0..=offset.min(text.len())).rev().find(|at| text.is_char_boundary(*at))?;
        let lines = &view.tree.lines;
        let next = lines.partition_point(|line| line.span.start as usize <= offset);
        let nth = next.checked_sub(1).filter(|nth| offset <= lines[*nth].span.end as usize);
        let line = nth.map_or(offset..offset, |nth| lines[nth].span.range());
        let (piece, is_first) = piece(&text[line.clone()], offset - line.start)?;
        let piece = piece.start + line.start..piece.end + line.start;
        // Below the last line there is one more, which holds nothing yet.
        let block = block(view, nth.map_or(next, |nth| nth + 1), line.start);
        Some(Self { offset, line, piece, is_first, block })
    }

    /// What is typed of the piece before the offset; `None` where that is no clause that anybody types.
    pub fn typed<'v>(&self, view: &View<'v>) -> Option<&'v str> {
        let typed = view.text().get(self.piece.start..self.offset)?;
        (typed.len() <= LONGEST && self.line.len() <= 4 * LONGEST).then_some(typed)
    }
}

/// The stretch of a line around `at`, and whether it is the first of its line.
fn piece(line: &str, at: usize) -> Option<(Range<usize>, bool)> {
    let outside = outside_quotes(line);
    let remark =
        line.match_indices("//").map(|(start, _)| start).find(|start| *start == 0 || outside(start - 1));
    if remark.is_some_and(|start| at > start) {
        return None;
    }
    let commas = || line.match_indices(',').map(|(comma, _)| comma).filter(|comma| outside(*comma));
    let start = commas().rfind(|comma| *comma < at).map_or(0, |comma| comma + 1);
    let end = commas().find(|comma| *comma >= at).or(remark).unwrap_or(line.len());
    Some((start..end.max(at), start == 0))
}

/// The block of the last of the first `count` lines; `here` is where the line asked about begins.
fn block(view: &View<'_>, count: usize, here: usize) -> Option<BlockAt> {
    let (lines, text) = (&view.tree.lines, view.text());
    let opens = |nth: &usize| match lines[*nth].kind {
        LineKind::Read { head, .. } => head.is_some(),
        LineKind::Bad { block, .. } => block.is_some(),
        LineKind::Blank => false,
    };
    let first = (0..count).rev().find(opens)?;
    let after = (first + 1..lines.len()).find(opens);
    let start = lines[first].span.start as usize;
    let word = text[lines[first].span.range()].trim_start();
    let end = word.find(|c: char| !c.is_alphanumeric()).unwrap_or(word.len());
    Some(BlockAt {
        word: word[..end].to_lowercase(),
        range: start..after.map_or(text.len(), |nth| lines[nth].span.start as usize),
        is_head: start == here,
    })
}
