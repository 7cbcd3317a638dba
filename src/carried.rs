//! A page that carries the texts it was made from: how they are put into it, and had from it again byte for byte.
//!
//! They stand as JSON in a data block, which no browser runs or shows. What a reader sees on the page is not read back.

use std::path::{Component, Path};

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::findings::{Code, Finding, Text};
use crate::load::LONGEST_FILE;
use crate::quantity::Scale;
use crate::say;
use crate::text::{FileId, FileProblem, Files, Source, Sources, Span};

/// What the data block opens with; no text of a file can stand as this in a page, where every `<` of a text is written
/// another way.
pub const OPENS: &str = "<script type=\"application/json\" id=\"dwell-page\">";
pub const CLOSES: &str = "</script>";
const FORMAT: &str = "dwell.page/1";

/// What stands in the data block.
#[derive(Debug, Serialize, Deserialize)]
pub struct Block {
    /// `dwell.page/1`.
    format: String,
    /// Of all names and texts: tells damage, not forgery.
    sha256: String,
    /// The one that was named comes first.
    files: Vec<File>,
}

#[derive(Debug, Serialize, Deserialize)]
struct File {
    name: String,
    text: String,
}

impl Block {
    /// The texts of one run; a file that several others name is there once.
    pub fn of(sources: &Sources) -> Self {
        let file = |source: &Source| File { name: source.name.clone(), text: source.text.clone() };
        let files: Vec<File> = sources.once().map(file).collect();
        Self { format: FORMAT.into(), sha256: digest(&files), files }
    }
}

fn digest(files: &[File]) -> String {
    let mut sum = Sha256::new();
    for part in files.iter().flat_map(|file| [&file.name, &file.text]) {
        // With its length, so that no two lists run together to the same bytes.
        sum.update((part.len() as u64).to_le_bytes());
        sum.update(part);
    }
    sum.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}

/// What bytes turned out to be.
#[derive(Debug)]
pub enum Opened {
    /// No page: a cook, or anything else.
    Text(Vec<u8>),
    Page(Page),
    /// A page that no text can be had from.
    Fault(Fault),
}

/// The texts of a page. As files they are all there is: nothing beside the page is read.
#[derive(Debug)]
pub struct Page {
    /// As the page was named.
    path: String,
    first: File,
    others: Vec<File>,
}

/// Why no text can be had from a page.
#[derive(Debug)]
pub struct Fault {
    page: String,
    at: usize,
    what: Text,
    remedy: Text,
}

/// Looks into the bytes of the file `path`.
pub fn open(path: &str, bytes: Vec<u8>) -> Opened {
    if bytes.len() > LONGEST_FILE || !is_html(&bytes) {
        return Opened::Text(bytes);
    }
    let page = match String::from_utf8(bytes) {
        Ok(page) => page,
        Err(error) => return Opened::Text(error.into_bytes()),
    };
    match block(&page) {
        Ok(block) => {
            let mut files = block.files.into_iter();
            match files.next() {
                Some(first) => Opened::Page(Page { path: path.to_owned(), first, others: files.collect() }),
                None => Opened::Fault(damaged(page, 0)),
            }
        }
        Err((at, None)) => Opened::Fault(damaged(page, at)),
        Err((at, Some((what, remedy)))) => Opened::Fault(Fault { page, at, what, remedy }),
    }
}

/// A page of HTML by its first bytes, whatever its file is called. No cook begins like this.
pub fn is_html(bytes: &[u8]) -> bool {
    let bytes = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes).trim_ascii_start();
    ["<!doctype html", "<html"].iter().any(|opening| {
        bytes.get(..opening.len()).is_some_and(|start| start.eq_ignore_ascii_case(opening.as_bytes()))
    })
}

/// The data block of a page; where there is none that can be relied on, the place of the fault, and what it is if that
/// is not damage.
fn block(page: &str) -> Result<Block, (usize, Option<(Text, Text)>)> {
    let Some(at) = page.find(OPENS) else {
        return Err((
            0,
            Some((
                say!["This is a page of HTML that carries no cook."],
                say!["Name the text of the cook, or a page as `dwell sheet` wrote it."],
            )),
        ));
    };
    let inside = &page[at + OPENS.len()..];
    let (json, rest) = inside.split_once(CLOSES).ok_or((at, None))?;
    if rest.contains(OPENS) {
        return Err((at, None));
    }
    let block: Block = serde_json::from_str(json).map_err(|_| (at, None))?;
    if block.format != FORMAT {
        return Err((
            at,
            Some((
                say!["This page was written by another version of dwell; its text was not read."],
                say![
                    "Take a newer version, or copy the text that stands at the end of the page into a file."
                ],
            )),
        ));
    }
    if block.sha256 != digest(&block.files) {
        return Err((at, None));
    }
    Ok(block)
}

fn damaged(page: String, at: usize) -> Fault {
    Fault {
        page,
        at,
        what: say!["The text of the cook that this page carries was damaged or changed; it was not read."],
        remedy: say![
            "Get the page again as `dwell sheet` wrote it. To change the cook, change its text and make the page again."
        ],
    }
}

impl Page {
    /// What the text it was made from is called in there.
    pub fn name(&self) -> &str {
        &self.first.name
    }

    /// How a file of the page is shown to people.
    pub fn shown(&self, name: &str) -> String {
        format!("{}#{name}", self.path)
    }

    pub fn bytes(&self) -> Vec<u8> {
        self.first.text.as_bytes().to_vec()
    }

    /// The names of all texts, the first one first.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.first).chain(&self.others).map(|file| file.name.as_str())
    }

    /// One of its texts.
    pub fn text(&self, name: &str) -> Option<&str> {
        let file = std::iter::once(&self.first).chain(&self.others).find(|file| file.name == name)?;
        Some(&file.text)
    }
}

impl Files for Page {
    fn read(&self, from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let from = from.strip_prefix(&self.path).and_then(|from| from.strip_prefix('#')).unwrap_or(from);
        let name = name_from(from, path);
        let text = self.text(&name).ok_or(FileProblem::Missing)?;
        Ok((self.shown(&name), text.as_bytes().to_vec()))
    }
}

impl Fault {
    /// What is wrong and what to do, for where no source is shown.
    pub fn words(&self) -> String {
        let scale = Scale::default();
        format!("{} {}", self.what.render(scale), self.remedy.render(scale))
    }

    /// The finding, in the page as a source.
    pub fn finding(self, sources: &mut Sources, path: String) -> Finding {
        let file: FileId = sources.add(Source::new(path, self.page));
        Finding::new(Code::FileUnreadable, Span::new(file, self.at, self.at), self.what, self.remedy)
    }
}

/// What a file is called that the file `from` names as `path`, as seen from the file that was named first: `.` and `..`
/// are taken at their word.
pub fn name_from(from: &str, path: &str) -> String {
    let folder = Path::new(from).parent().unwrap_or(Path::new(""));
    let mut parts: Vec<String> = Vec::new();
    for part in folder.join(path).components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir if parts.last().is_some_and(|last| last != ".." && last != "/") => {
                parts.pop();
            }
            Component::ParentDir if parts.last().is_some_and(|last| last == "/") => {}
            Component::RootDir => parts.push("/".into()),
            part => parts.push(part.as_os_str().to_string_lossy().into_owned()),
        }
    }
    match parts.split_first() {
        Some((root, rest)) if root == "/" => format!("/{}", rest.join("/")),
        _ => parts.join("/"),
    }
}

#[cfg(test)]
mod tests {
    use super::{is_html, name_from};

    #[test]
    fn names_are_those_of_the_first_file() {
        assert_eq!(name_from("menu.dwell", "dishes/beans.dwell"), "dishes/beans.dwell");
        assert_eq!(name_from("dishes/beans.dwell", "../club.dwell"), "club.dwell");
        assert_eq!(name_from("dishes/beans.dwell", "./a/../club.dwell"), "dishes/club.dwell");
        assert_eq!(name_from("menu.dwell", "../../dwell.toml"), "../../dwell.toml");
        assert_eq!(name_from("../x/menu.dwell", "../dwell.toml"), "../dwell.toml");
        assert_eq!(name_from("menu.dwell", "/srv/../club.dwell"), "/club.dwell");
    }

    #[test]
    fn a_page_is_known_by_how_it_begins() {
        for page in ["<!DOCTYPE html>", "\u{feff}\r\n <!doctype HTML>", "<html lang=\"de\">"] {
            assert!(is_html(page.as_bytes()), "{page}");
        }
        for other in ["", "<", "cook \"<!DOCTYPE html>\"", "// <html>", "<!-- -->"] {
            assert!(!is_html(other.as_bytes()), "{other}");
        }
    }
}
