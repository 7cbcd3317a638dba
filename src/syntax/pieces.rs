//! A line cut by its commas and quotes, whether the grammar can read it or not.

/// Words of a line with their byte offsets.
pub fn words(line: &str) -> impl Iterator<Item = (usize, &str)> {
    line.split(|c: char| c.is_whitespace() || c.is_control() || matches!(c, ',' | '"' | '“' | '„'))
        .filter(|word| !word.is_empty())
        .map(move |word| (word.as_ptr() as usize - line.as_ptr() as usize, word))
}

/// The byte range of the first figure with a comma between digits, outside quotes and comments.
pub fn decimal_comma(line: &str) -> Option<std::ops::Range<usize>> {
    let bytes = line.as_bytes();
    let outside = outside_quotes(line);
    let at = (1..bytes.len().saturating_sub(1)).find(|&at| {
        bytes[at] == b',' && bytes[at - 1].is_ascii_digit() && bytes[at + 1].is_ascii_digit() && outside(at)
    })?;
    let figure = |byte: &u8| byte.is_ascii_digit() || *byte == b',' || *byte == b'.';
    let start = bytes[..at].iter().rposition(|byte| !figure(byte)).map_or(0, |before| before + 1);
    let end = bytes[at..].iter().position(|byte| !figure(byte)).map_or(bytes.len(), |after| at + after);
    Some(start..end)
}

/// Says of a byte offset whether it lies outside quotes and before any comment.
pub fn outside_quotes(line: &str) -> impl Fn(usize) -> bool {
    let mut quoted: Vec<std::ops::Range<usize>> = Vec::new();
    let mut open: Option<(usize, bool)> = None;
    for (at, c) in line.char_indices() {
        match (c, open) {
            ('"', None) => open = Some((at, false)),
            ('“' | '”' | '„' | '‟', None) => open = Some((at, true)),
            ('"', Some((start, false))) | ('“' | '”' | '‟', Some((start, true))) => {
                quoted.push(start..at + c.len_utf8());
                open = None;
            }
            ('/', None) if line[at..].starts_with("//") => {
                quoted.push(at..line.len());
                break;
            }
            _ => {}
        }
    }
    if let Some((start, _)) = open {
        quoted.push(start..line.len());
    }
    move |at| {
        let next = quoted.partition_point(|range| range.end <= at);
        !quoted.get(next).is_some_and(|range| range.contains(&at))
    }
}

/// The parts of a line between its commas, trimmed, without a comment.
pub fn pieces(line: &str) -> Vec<std::ops::Range<usize>> {
    let outside = outside_quotes(line);
    let mut ends: Vec<usize> = line
        .bytes()
        .enumerate()
        .filter(|&(at, byte)| byte == b',' && outside(at))
        .map(|(at, _)| at)
        .collect();
    let comment = line.match_indices("//").map(|(at, _)| at).find(|&at| at == 0 || outside(at - 1));
    ends.push(comment.unwrap_or(line.len()));
    let mut start = 0;
    let mut found = Vec::new();
    for end in ends {
        if end < start {
            continue;
        }
        let piece = &line[start..end];
        let trimmed = piece.trim();
        let lead = piece.len() - piece.trim_start().len();
        let from = if trimmed.is_empty() { start } else { start + lead };
        found.push(from..from + trimmed.len());
        start = end + 1;
    }
    found
}

pub fn unclosed_quote(line: &str) -> Option<usize> {
    let mut open: Option<(usize, bool)> = None;
    for (at, c) in line.char_indices() {
        match (c, open) {
            ('"', None) => open = Some((at, false)),
            ('“' | '”' | '„' | '‟', None) => open = Some((at, true)),
            ('"', Some((_, false))) | ('“' | '”' | '‟', Some((_, true))) => open = None,
            ('/', None) if line[at..].starts_with("//") => return None,
            _ => {}
        }
    }
    open.map(|(at, _)| at)
}
