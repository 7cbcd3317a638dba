//! From bytes that somebody handed in to a source that can be read, or one clear finding.
//!
//! The first thing that happens to every file, the one that was named and those that it names.

use crate::carried;
use crate::findings::{Code, Finding, Text};
use crate::say;
use crate::syntax::LONGEST_LINE;
use crate::text::{FileId, FileProblem, Files, Source, Sources, Span};

/// The longest file that is read, in bytes. A cook is a few pages; this is a thousand times more.
pub const LONGEST_FILE: usize = 10 * 1024 * 1024 - 1;
/// The most files of one cook or menu.
const MOST_FILES: usize = 500;

/// Reads `path` as the file `from` names it at `asked`, and adds it to `sources`. The finding of a
/// file that could not be had points to where it was asked for; that of a file that could be had
/// but not read points into it.
///
/// # Errors
/// The finding that says why there is nothing to read.
pub fn load(
    files: &dyn Files,
    sources: &mut Sources,
    from: &str,
    path: &str,
    asked: Span,
) -> Result<FileId, Box<Finding>> {
    if sources.len() >= MOST_FILES {
        return Err(refuse(
            Code::FileUnreadable,
            asked,
            say![format!("More than {MOST_FILES} files belong to this one; \"{path}\" was not read.")],
            say!["Split the menu into several."],
        ));
    }
    match files.read(from, path) {
        Ok((found, bytes)) => {
            let name = carried::name_from(&sources.get(asked.file).name, path);
            admit(sources, found, name, bytes)
        }
        Err(problem) => Err(not_had(path, asked, problem)),
    }
}

/// Adds a file whose bytes are at hand; `name` is what the first file calls it.
///
/// # Errors
/// The finding that says why there is nothing to read.
pub fn admit(
    sources: &mut Sources,
    path: String,
    name: String,
    bytes: Vec<u8>,
) -> Result<FileId, Box<Finding>> {
    if bytes.len() > LONGEST_FILE {
        let start = start_of(sources, path, String::new());
        return Err(refuse(
            Code::FileTooLong,
            start,
            say!["This file is 10 MiB long or longer; it was not read."],
            say!["A cook is a few pages of text. Check that this is the file you meant."],
        ));
    }
    let text = match String::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            let mut bytes = error.into_bytes();
            bytes.truncate(at);
            let readable = String::from_utf8(bytes).unwrap_or_default();
            let start = start_of(sources, path, readable);
            return Err(refuse(
                Code::FileUnreadable,
                Span::new(start.file, at, at),
                say!["This file is not plain text in UTF-8 from here on."],
                say!["Open it in a text editor and save it as plain text, with the encoding UTF-8."],
            ));
        }
    };
    if text.trim_matches(|c: char| c.is_whitespace() || c == '\u{feff}').is_empty() {
        let start = start_of(sources, path, text);
        return Err(refuse(
            Code::FileEmpty,
            start,
            say!["There is nothing in this file."],
            say!["Write a cook in it; `dwell new` makes a first one to start from."],
        ));
    }
    if carried::is_html(text.as_bytes()) {
        let start = start_of(sources, path, text);
        return Err(refuse(
            Code::FileUnreadable,
            start,
            say!["This is a page of HTML, and a file that another one names has to be text."],
            say![
                "If it is a sheet: `dwell source PAGE -o NAME.dwell` writes the text it was made from. Name that."
            ],
        ));
    }
    let file = sources.add(Source::called(path, name, text));
    match long_line(sources.get(file)) {
        None => Ok(file),
        Some(at) => Err(refuse(
            Code::FileTooLong,
            Span::new(file, at, at),
            say![format!("This line is longer than {} KiB; the file was not read.", LONGEST_LINE / 1024)],
            say!["Put one fact on a line. Check that this is the file you meant."],
        )),
    }
}

fn start_of(sources: &mut Sources, path: String, text: String) -> Span {
    Span::new(sources.add(Source::new(path, text)), 0, 0)
}

fn long_line(source: &Source) -> Option<usize> {
    (1..=source.line_count())
        .map(|line| source.line_range(line))
        .find(|range| range.len() > LONGEST_LINE)
        .map(|range| range.start)
}

fn refuse(code: Code, span: Span, message: Text, remedy: Text) -> Box<Finding> {
    Box::new(Finding::new(code, span, message, remedy))
}

fn not_had(path: &str, asked: Span, problem: FileProblem) -> Box<Finding> {
    match problem {
        FileProblem::Missing => refuse(
            Code::FileMissing,
            asked,
            say![format!("There is no file \"{path}\" here.")],
            say!["Check the spelling, and write the path as seen from the folder of this file."],
        ),
        FileProblem::Outside => refuse(
            Code::FileOutside,
            asked,
            say![format!(
                "\"{path}\" lies outside the folder of the file that was checked; it was not read."
            )],
            say!["Move it into the folder, or name a wider folder with `--root`."],
        ),
        FileProblem::Unreadable(why) => refuse(
            Code::FileUnreadable,
            asked,
            say![format!("\"{path}\" could not be read: {why}.")],
            say!["Check that it is a file of text that you may open."],
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn code(bytes: &[u8]) -> (Option<Code>, Sources, Span) {
        let mut sources = Sources::default();
        match admit(&mut sources, "cook.dwell".into(), "cook.dwell".into(), bytes.to_vec()) {
            Ok(file) => (None, sources, Span::new(file, 0, 0)),
            Err(finding) => (Some(finding.code), sources, finding.span),
        }
    }

    #[test]
    fn refuses_what_is_not_text() {
        let (found, sources, span) = code(b"cook \"x\"\n  serves 4 \xff\n");
        assert_eq!(found, Some(Code::FileUnreadable));
        assert_eq!(sources.get(span.file).line_column(span.start as usize), (2, 12));
    }

    #[test]
    fn refuses_nothing_and_too_much() {
        for empty in ["", " \r\n\t", "\u{feff}\n"] {
            assert_eq!(code(empty.as_bytes()).0, Some(Code::FileEmpty));
        }
        assert_eq!(code(&b"\n".repeat(LONGEST_FILE + 1)).0, Some(Code::FileTooLong));
        let (found, _, span) = code(format!("cook\n{}", "x".repeat(1 << 20)).as_bytes());
        assert_eq!((found, span.start), (Some(Code::FileTooLong), 5));
        assert_eq!(code(b"cook \"x\"").0, None);
    }
}
