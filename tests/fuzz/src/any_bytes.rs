//! Any bytes at all: findings, never a panic; the tree gives the file back; formatting settles.

#![no_main]

use dwell::load::admit;
use dwell::resolve::{Context, resolve};
use dwell::syntax;
use dwell::tables::Tables;
use dwell::text::{FileProblem, Files, Sources};
use libfuzzer_sys::fuzz_target;

struct NoFiles;

impl Files for NoFiles {
    fn read(&self, _from: &str, _path: &str) -> Result<(String, Vec<u8>), FileProblem> {
        Err(FileProblem::Missing)
    }
}

fuzz_target!(|bytes: &[u8]| {
    let mut sources = Sources::default();
    let Ok(file) = admit(&mut sources, "any.dwell".into(), "any.dwell".into(), bytes.to_vec()) else { return };
    let text = sources.get(file).text.clone();

    let (tree, findings) = syntax::parse(file, &text);
    let back: String = tree.lines.iter().map(|line| &text[tree.whole(line)]).collect();
    assert_eq!(back, text);
    for finding in &findings {
        assert!(text.get(finding.span.range()).is_some(), "a span off a character boundary");
    }

    let once = syntax::format(&tree, &text);
    let (again, _) = syntax::parse(file, &once);
    assert_eq!(syntax::format(&again, &once), once);

    let rule_sets = ["us-food-code".to_string()];
    let context = Context { files: &NoFiles, tables: Tables::built_in(), rule_sets: &rule_sets };
    let (_, findings) = resolve(&context, &mut sources, file);
    for finding in &findings {
        assert!(text.get(finding.span.range()).is_some(), "a span off a character boundary");
    }
});
