//! A file as it is being written. The cursor stands where `¦` does.

use dwell::compile::{Compiled, Options, compile};
use dwell::editor::View;
use dwell::syntax::{Tree, parse};
use dwell::text::FileId;

use crate::common::{Memory, examples};

pub struct Written {
    pub compiled: Compiled,
    tree: Tree,
    /// Where the cursor is.
    pub at: usize,
}

impl Written {
    /// The first of these files, and what all stages make of it.
    pub fn of(files: &[(&str, &str)]) -> Self {
        let (name, marked) = files[0];
        let at = marked.find('¦').unwrap_or(0);
        let text = marked.replace('¦', "");
        let (tree, _) = parse(FileId(0), &text);
        let compiled = compile(&Memory(files), name.into(), text.into_bytes(), &Options::default());
        Self { compiled, tree, at }
    }

    pub fn one(marked: &str) -> Self {
        Self::of(&[("test.dwell", marked)])
    }

    /// An example with the cursor behind this stretch of its text.
    pub fn example(name: &str, before: &str) -> Self {
        let all = examples();
        let text = &all.iter().find(|(known, _)| known == name).expect("such an example").1;
        let marked = text.replacen(before, &format!("{before}¦"), 1);
        assert!(marked.contains('¦'), "{name} has no {before}");
        let mut files: Vec<(&str, &str)> =
            all.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        files.insert(0, (name, &marked));
        Self::of(&files)
    }

    pub fn view(&self) -> View<'_> {
        View { tree: &self.tree, compiled: &self.compiled, file: FileId(0) }
    }
}

/// What a file declares among the examples, with nothing predicted.
pub fn declared(text: &str) -> Compiled {
    let all = examples();
    let files: Vec<(&str, &str)> = all.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let options = Options { declared_only: true, ..Options::default() };
    compile(&Memory(&files), "test.dwell".into(), text.as_bytes().to_vec(), &options)
}
