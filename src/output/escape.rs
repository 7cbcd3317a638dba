//! JSON, XML and CSV text that nothing in a file can turn into something else.
//!
//! JSON itself lets some characters through that act on a terminal; here they are written as
//! numbers, so that a reader still gets them back exactly and a terminal never sees them. XML and CSV
//! cannot carry all of them; there they are named as on a terminal.

use std::io;

use serde::Serialize;
use serde_json::ser::{Formatter, PrettyFormatter, Serializer};

use super::clean;

/// `value` as indented JSON with a line end.
pub fn json(value: &impl Serialize) -> String {
    let mut bytes = Vec::new();
    let written = value.serialize(&mut Serializer::with_formatter(&mut bytes, Escaping::default()));
    // Our own types have string keys and no failing parts, and a Vec takes every byte.
    debug_assert!(written.is_ok());
    bytes.push(b'\n');
    String::from_utf8(bytes).unwrap_or_default()
}

/// The same for the inside of a `script` element of HTML, whose end nothing in it can be taken for.
pub fn json_in_page(value: &impl Serialize) -> String {
    json(value).replace('<', "\\u003c").replace('>', "\\u003e").replace('&', "\\u0026")
}

/// Text for the inside of an XML element or of an attribute between double quotes, SVG and HTML included.
pub fn xml(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in clean::line(text).chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            // Not allowed in XML 1.0 (W3C, fifth edition, production 2), not even by number.
            '\u{fffe}' | '\u{ffff}' => safe.push(char::REPLACEMENT_CHARACTER),
            c => safe.push(c),
        }
    }
    safe
}

/// A page of HTML whose text is escaped already, without characters that act: they are named, wherever they stand.
pub fn html_page(page: &str) -> String {
    let mut safe = String::with_capacity(page.len() + 64);
    for c in page.chars() {
        match c {
            '\n' => safe.push(c),
            '\t' => safe.push_str("  "),
            c if clean::acts(c) => safe.push_str(&format!("&lt;U+{:04X}&gt;", u32::from(c))),
            c => safe.push(c),
        }
    }
    safe
}

/// Text as one cell of a CSV file (RFC 4180). What a spreadsheet might take for a formula starts with
/// an apostrophe, by which it knows text.
pub fn csv_cell(text: &str) -> String {
    let text = clean::line(text);
    let formula = text.trim_start().starts_with(['=', '+', '-', '@']);
    let text = if formula { format!("'{text}") } else { text.into_owned() };
    if text.contains([',', '"']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}

/// The pretty formatter, with characters that act escaped.
#[derive(Default)]
struct Escaping(PrettyFormatter<'static>);

impl Formatter for Escaping {
    fn write_string_fragment<W: ?Sized + io::Write>(&mut self, out: &mut W, part: &str) -> io::Result<()> {
        let mut done = 0;
        for (at, c) in part.char_indices().filter(|&(_, c)| clean::acts(c)) {
            out.write_all(&part.as_bytes()[done..at])?;
            for unit in c.encode_utf16(&mut [0; 2]) {
                write!(out, "\\u{unit:04x}")?;
            }
            done = at + c.len_utf8();
        }
        out.write_all(&part.as_bytes()[done..])
    }

    fn begin_array<W: ?Sized + io::Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.begin_array(out)
    }

    fn end_array<W: ?Sized + io::Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.end_array(out)
    }

    fn begin_array_value<W: ?Sized + io::Write>(&mut self, out: &mut W, first: bool) -> io::Result<()> {
        self.0.begin_array_value(out, first)
    }

    fn end_array_value<W: ?Sized + io::Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.end_array_value(out)
    }

    fn begin_object<W: ?Sized + io::Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.begin_object(out)
    }

    fn end_object<W: ?Sized + io::Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.end_object(out)
    }

    fn begin_object_key<W: ?Sized + io::Write>(&mut self, out: &mut W, first: bool) -> io::Result<()> {
        self.0.begin_object_key(out, first)
    }

    fn begin_object_value<W: ?Sized + io::Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.begin_object_value(out)
    }

    fn end_object_value<W: ?Sized + io::Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.0.end_object_value(out)
    }
}

#[cfg(test)]
mod tests {
    use super::{csv_cell, html_page, json, xml};

    #[test]
    fn xml_marks_and_what_xml_cannot_hold() {
        assert_eq!(xml("a<b>&\"c'"), "a&lt;b&gt;&amp;&quot;c&#39;");
        assert_eq!(xml("x\u{0}\u{202e}\u{ffff}"), "x&lt;U+0000&gt;&lt;U+202E&gt;\u{fffd}");
    }

    #[test]
    fn a_page_keeps_its_lines_and_names_what_acts() {
        assert_eq!(html_page("<p>a\tb\u{202e}</p>\n\u{0}"), "<p>a  b&lt;U+202E&gt;</p>\n&lt;U+0000&gt;");
    }

    #[test]
    fn csv_cells_are_one_cell_and_no_formula() {
        assert_eq!(csv_cell("beans, \"white\""), "\"beans, \"\"white\"\"\"");
        assert_eq!(csv_cell("a\r\nb"), "a<U+000D><U+000A>b");
        assert_eq!(
            ["=1+1", "+1", "-1", "@x", "\t=1", "a=1"].map(csv_cell),
            ["'=1+1", "'+1", "'-1", "'@x", "'  =1", "a=1"]
        );
    }

    #[test]
    fn acting_characters_are_numbers_and_come_back() {
        let text = "a\u{202e}b\u{9b}\u{1b}\u{7f}\u{e0041}é\n\"\\";
        let written = json(&vec![text]);
        assert!(written.chars().all(|c| c == '\n' || !crate::output::clean::acts(c)), "{written:?}");
        assert_eq!(serde_json::from_str::<Vec<String>>(&written).unwrap(), [text]);
    }
}
