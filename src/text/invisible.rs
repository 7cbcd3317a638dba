//! What takes no ink on the page.

use std::borrow::Cow;

/// Everything that shows as nothing becomes as many blanks as it has bytes, so that places stay right.
/// Inside quotes too: the words there are taken from the file itself.
pub fn plain_blanks(line: &str) -> Cow<'_, str> {
    if line.chars().all(|c| (' '..='~').contains(&c) || !is_invisible(c)) {
        return Cow::Borrowed(line);
    }
    let mut plain = String::with_capacity(line.len());
    for c in line.chars() {
        if is_invisible(c) {
            plain.extend(std::iter::repeat_n(' ', c.len_utf8()));
        } else {
            plain.push(c);
        }
    }
    Cow::Owned(plain)
}

/// Blanks of all kinds, control characters, direction marks and what else takes no ink. Not the two
/// joiners, which are part of words in several scripts.
pub fn is_invisible(c: char) -> bool {
    matches!(
        c,
        '\u{0}'..=' '
            | '\u{7F}'..='\u{A0}'
            | '\u{AD}'
            | '\u{61C}'
            | '\u{1680}'
            | '\u{2000}'..='\u{200B}'
            | '\u{200E}'..='\u{200F}'
            | '\u{2028}'..='\u{202F}'
            | '\u{205F}'..='\u{206F}'
            | '\u{3000}'
            | '\u{FEFF}'
    )
}
