//! Pages of paper, read by tools that know nothing of how they were made (poppler-utils).

use std::collections::BTreeSet;
use std::process::Command;

/// What a program of poppler-utils says of a PDF.
pub fn told(pdf: &[u8], program: &str, options: &[&str]) -> String {
    let file = tempfile::NamedTempFile::new().expect("a file");
    std::fs::write(file.path(), pdf).expect("written");
    let mut command = Command::new(program);
    command.args(options).arg(file.path());
    if program == "pdftotext" {
        command.arg("-");
    }
    let ran = command.output().unwrap_or_else(|why| panic!("{program} of poppler-utils: {why}"));
    // It takes `/Suspects false` (ISO 32000-1, table 321) for a fault.
    let faults = String::from_utf8_lossy(&ran.stderr)
        .replace("Syntax Error: Suspects object is wrong type (boolean)", "");
    assert!(ran.status.success() && faults.trim().is_empty(), "{faults}");
    String::from_utf8(ran.stdout).expect("UTF-8")
}

/// Without blanks and the marks of direction, which a reader of PDF adds and leaves out as it likes.
pub fn dense(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace() && !('\u{202a}'..='\u{202e}').contains(c)).collect()
}

/// What HTML writes for the signs that it needs itself.
pub fn plain(text: &str) -> String {
    let marks = [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&#39;", "'"), ("&amp;", "&")];
    marks.iter().fold(text.to_owned(), |text, (mark, c)| text.replace(mark, c))
}

/// The text between the tags, but for what nobody sees on paper.
fn seen(inside: &str) -> String {
    let mut parts = inside.split('<');
    let mut text = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (tag, piece) = part.split_once('>').expect("a tag ends");
        if !tag.contains("class=\"unseen\"") {
            text.push_str(piece);
        }
    }
    plain(&text)
}

/// What stands above something on a page of HTML, dense: headings, captions, and heads of tables or parts of them, read
/// across.
pub fn heads(page: &str) -> BTreeSet<String> {
    let marks = [
        ("<h1", "</h1>"),
        ("<h2", "</h2>"),
        ("<h3", "</h3>"),
        ("<caption", "</caption>"),
        ("<thead", "</thead>"),
        ("<tr class=\"day\"", "</tr>"),
    ];
    let of_mark = |(opens, closes): (&str, &str)| {
        let each = page.split(opens).skip(1).map(|part| part.split_once(closes).expect("its end").0);
        each.map(|inside| dense(&seen(inside.split_once('>').expect("a tag ends").1))).collect::<Vec<_>>()
    };
    marks.into_iter().flat_map(of_mark).collect()
}

/// The last lines of pages, given as text without their numbers, that are one of these heads. More lines are none.
pub fn orphans(pages: &[String], heads: &BTreeSet<String>) -> Vec<String> {
    const MOST_LINES: usize = 3;
    let last_of = |(n, page): (usize, &String)| {
        let lines: Vec<&str> = page.lines().filter(|line| !line.trim().is_empty()).collect();
        assert!(!lines.is_empty(), "page {} has no text", n + 1);
        let ends =
            (1..=MOST_LINES.min(lines.len())).map(|count| dense(&lines[lines.len() - count..].concat()));
        ends.filter(|end| heads.contains(end)).map(|end| format!("page {}: {end}", n + 1)).next()
    };
    pages.iter().enumerate().filter_map(last_of).collect()
}
