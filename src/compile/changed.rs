//! Compiles a file with another text, for cures to be tried.

use super::{Compiled, Main, Options, plainly};
use crate::cures::{self, Found, Said};
use crate::text::{FileProblem, Files, Source};
use crate::timing;

/// Cures of what was found.
pub fn cures(compiled: &Compiled, files: &dyn Files, options: &Options) -> Vec<Found> {
    if compiled.findings.is_empty() || !compiled.understood() {
        return Vec::new();
    }
    let said = said(compiled);
    let timing = timing::Options { outlook: false, ..options.timing.clone() };
    let options = Options { outline: true, timing, ..options.clone() };
    let main = compiled.path.as_str();
    let again = |file, text: &str| {
        let changed = Changed { files, path: &compiled.sources.get(file).path, text };
        let bytes = changed.bytes(main).unwrap_or_else(|| compiled.main_text().as_bytes().to_vec());
        let main = Main { path: main.to_owned(), name: Source::file_name(main), bytes };
        self::said(&plainly(&changed, main, &options))
    };
    let cooks: Vec<_> = compiled.cooks().iter().map(|worked| worked.cook).collect();
    cures::find(&cooks, &compiled.sources, &said, &again)
}

fn said(compiled: &Compiled) -> Said {
    let judged = compiled.worked.iter().flat_map(|worked| worked.judged.iter().cloned()).collect();
    Said { findings: compiled.findings.clone(), judged }
}

/// The files of a run, one of them with another text.
struct Changed<'c> {
    files: &'c dyn Files,
    path: &'c str,
    text: &'c str,
}

impl Changed<'_> {
    fn bytes(&self, path: &str) -> Option<Vec<u8>> {
        (path == self.path).then(|| self.text.as_bytes().to_vec())
    }
}

impl Files for Changed<'_> {
    fn read(&self, from: &str, path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        let (path, bytes) = self.files.read(from, path)?;
        let bytes = self.bytes(&path).unwrap_or(bytes);
        Ok((path, bytes))
    }
}
