//! The committed parser, built with the C compiler and loaded.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::LazyLock;

use tree_sitter::ffi::TSLanguage;
use tree_sitter::{Language, Parser, Tree};

pub fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("editors/tree-sitter-dwell")
}

pub static LANGUAGE: LazyLock<Language> = LazyLock::new(|| {
    let place = tempfile::tempdir().expect("a folder for the parser");
    let library = place.path().join("dwell.so");
    let source = folder().join("src");
    let built = Command::new(std::env::var_os("CC").unwrap_or_else(|| "cc".into()))
        .args(["-std=c11", "-shared", "-fPIC", "-O1", "-Wall", "-Wextra", "-Werror", "-Wno-unused"])
        .arg("-I")
        .arg(&source)
        .args([source.join("parser.c"), source.join("scanner.c")])
        .arg("-o")
        .arg(&library)
        .status()
        .expect("a C compiler");
    assert!(built.success(), "the parser does not build");
    // SAFETY: the library was built just now from the project's own sources, and stays loaded for good.
    unsafe {
        let library = Box::leak(Box::new(libloading::Library::new(&library).expect("a library")));
        let language: libloading::Symbol<'_, unsafe extern "C" fn() -> *const TSLanguage> =
            library.get(b"tree_sitter_dwell").expect("the language in it");
        Language::from_raw(language())
    }
});

pub fn parse(text: &str) -> Tree {
    let mut parser = Parser::new();
    parser.set_language(&LANGUAGE).expect("a language of a version that is known");
    parser.parse(text, None).expect("a tree")
}
