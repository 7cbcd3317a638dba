//! A folder of cooks and the program run in it.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

pub use crate::common::texts::{GOOD, TOO_COOL};

pub struct Folder(tempfile::TempDir);

#[derive(Debug)]
pub struct Ran {
    pub status: Option<i32>,
    pub out: String,
    pub err: String,
}

impl Folder {
    pub fn new() -> Self {
        Self(tempfile::tempdir().expect("a folder for the test"))
    }

    pub fn with(name: &str, text: impl AsRef<[u8]>) -> Self {
        let folder = Self::new();
        folder.file(name, text);
        folder
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub fn file(&self, name: &str, text: impl AsRef<[u8]>) -> PathBuf {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("the folder");
        std::fs::write(&path, text).expect("the file");
        path
    }

    pub fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(self.0.path())
            .expect("the folder")
            .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    /// Runs `dwell` with these words.
    pub fn run(&self, words: &[&str]) -> Ran {
        run(self.0.path(), words, b"", &[])
    }

    pub fn run_with(&self, words: &[&str], input: &[u8], environment: &[(&str, &str)]) -> Ran {
        run(self.0.path(), words, input, environment)
    }

    /// The codes of `check --format json`, and the exit status.
    pub fn codes(&self, name: &str) -> (Vec<String>, Option<i32>) {
        let ran = self.run(&["check", "--format", "json", name]);
        (codes(&json(&ran.out)), ran.status)
    }
}

fn run(folder: &Path, words: &[&str], input: &[u8], environment: &[(&str, &str)]) -> Ran {
    let mut child = Command::new(env!("CARGO_BIN_EXE_dwell"))
        .args(words)
        .current_dir(folder)
        .env_remove("NO_COLOR")
        .envs(environment.iter().copied())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    // A program that does not read its input may be gone already.
    let _ = child.stdin.take().expect("its input").write_all(input);
    let done = child.wait_with_output().expect("the program ends");
    let text = |bytes| String::from_utf8(bytes).expect("all output is UTF-8");
    Ran { status: done.status.code(), out: text(done.stdout), err: text(done.stderr) }
}

pub fn json(text: &str) -> serde_json::Value {
    serde_json::from_str(text).unwrap_or_else(|why| panic!("{why}: {text}"))
}

pub fn codes(report: &serde_json::Value) -> Vec<String> {
    let findings = report["findings"].as_array().expect("findings");
    findings.iter().map(|finding| finding["code"].as_str().expect("a code").to_owned()).collect()
}
